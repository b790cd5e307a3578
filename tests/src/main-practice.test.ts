import { request } from 'node:http';
import { expect, test } from 'vitest';
import { startProgram, type Program } from '../set-up-program.ts';

/** The practice room as somebody opens it who has no token yet. */
async function practise(): Promise<{ program: Program; url: URL }> {
  const program = startProgram({ ROOM_PORT: '0' });
  const printed = await program.until(/No DISCORD_TOKEN is set.*Nothing leaves this computer\./s);
  const url = new URL(/practice room is open: (\S+)/.exec(printed)![1]!);
  return { program, url };
}

type Got = { status: number; type: string; body: string };

const get = (url: URL, path: string, headers: Record<string, string> = {}): Promise<Got> =>
  new Promise((resolve, reject) => {
    const asking = request({ host: url.hostname, port: url.port, path, headers }, (response) => {
      let body = '';
      response.setEncoding('utf8').on('data', (more: string) => (body += more));
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, type: String(response.headers['content-type']), body }),
      );
    });
    asking.on('error', reject).end();
  });

test('without a token the practice room opens, serves its page and ends on SIGTERM', async () => {
  const { program, url } = await practise();
  expect(url.hostname).toBe('127.0.0.1');
  expect(Number(url.port)).toBeGreaterThan(0);
  const page = await get(url, '/');
  expect(page).toMatchObject({ status: 200, type: 'text/html; charset=utf-8' });
  expect(page.body).toMatch(/^<!doctype html>/i);
  expect(await get(url, '/page.js')).toMatchObject({ status: 200, type: 'text/javascript; charset=utf-8' });
  expect(await get(url, '/page.css')).toMatchObject({ status: 200, type: 'text/css; charset=utf-8' });
  expect((await get(url, '/nothing-here')).status).toBe(404);
  const { code, ms } = await program.end('SIGTERM');
  expect(code).toBe(0);
  expect(ms).toBeLessThan(5_000);
  await expect(get(url, '/')).rejects.toThrow();
});

test('a foreign Host or Origin is refused, and nobody acts without the key of the page', async () => {
  const { url } = await practise();
  for (const host of ['club.example.org', `club.example.org:${url.port}`, '127.0.0.1:1', '0.0.0.0'])
    expect((await get(url, '/', { host })).status).toBe(403);
  expect((await get(url, '/', { host: url.host, origin: 'https://example.org' })).status).toBe(403);
  expect((await get(url, '/', { host: `localhost:${url.port}` })).status).toBe(200);
  expect((await get(url, '/room/state?as=Ines')).status).toBe(403);
  const [, key = ''] = /name="room-key" content="([^"]+)"/.exec((await get(url, '/')).body) ?? [];
  expect((await get(url, '/room/state?as=Ines', { 'x-room-key': key })).status).toBe(200);
});

test('a port that is taken is named, with what to do', async () => {
  const { url } = await practise();
  const second = startProgram({ ROOM_PORT: url.port });
  expect(await second.end()).toMatchObject({ code: 78 });
  expect(second.printed()).toContain(`ROOM_PORT: port ${url.port} is taken`);
  expect(second.printed()).not.toMatch(/\n\s+at /);
  expect((await get(url, '/')).status).toBe(200);
});
