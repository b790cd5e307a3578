import { createServer as createHttp } from 'node:http';
import { createServer as createTcp, type AddressInfo, type Server } from 'node:net';
import { expect, onTestFinished, test } from 'vitest';
import { callbacks, named } from '../set-up-club.ts';
import { freePort, roomForPrograms, startProgram, temporaryFolder, TOKEN } from '../set-up-program.ts';

async function listening(server: Server): Promise<number> {
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => void server.close());
  return (server.address() as AddressInfo).port;
}

const LIST = /^GET \/applications\/\d+\/commands/;

test('a login whose registration failed leaves no second bot behind', async () => {
  const room = await roomForPrograms();
  room.faults.add({ match: LIST, kind: 'hang-up', when: 'before-commit', times: 3 });
  const program = startProgram({ DISCORD_TOKEN: TOKEN, DISCORD_API: room.apiUrl });
  await program.until(/Trying again/);
  room.faults.clear();
  await room.quiet(100);
  expect(room.gateway.connected()).toBe(false);
  await program.until(/Ready in/);
  expect((await room.actor('Ana').slash('critter name', named('aiptasia'))).replies).toHaveLength(1);
  await room.quiet(100);
  expect(callbacks(room)).toHaveLength(1);
}, 20_000);

test('SIGTERM ends a login that nobody answers', async () => {
  const server = createHttp(() => undefined);
  const port = await listening(server);
  onTestFinished(() => server.closeAllConnections());
  const program = startProgram({ DISCORD_TOKEN: TOKEN, DISCORD_API: `http://127.0.0.1:${port}/api` });
  await new Promise((resolve) => server.once('request', resolve));
  const ended = program.end('SIGTERM');
  const late = new Promise((resolve) => setTimeout(() => resolve('still running'), 5_000));
  expect(await Promise.race([ended, late])).toMatchObject({ code: 0 });
});

test('SIGTERM ends a login whose gateway says nothing', async () => {
  const silent = createTcp(() => undefined);
  const gateway = `ws://127.0.0.1:${await listening(silent)}`;
  const limit = { total: 1000, remaining: 1000, reset_after: 1, max_concurrency: 1 };
  const api = createHttp((_request, response) => {
    response.setHeader('content-type', 'application/json');
    response.end(JSON.stringify({ url: gateway, shards: 1, session_start_limit: limit }));
  });
  const port = await listening(api);
  const program = startProgram({ DISCORD_TOKEN: TOKEN, DISCORD_API: `http://127.0.0.1:${port}/api` });
  await new Promise((resolve) => silent.once('connection', resolve));
  const ended = program.end('SIGTERM');
  const late = new Promise((resolve) => setTimeout(() => resolve('still running'), 5_000));
  expect(await Promise.race([ended, late])).toMatchObject({ code: 0 });
});

test.each([/^GET \/gateway\/bot/, LIST])('an outage of Discord at the start (%s) is waited for', async (match) => {
  const room = await roomForPrograms();
  room.faults.add({ match, kind: 'server-error', status: 503, when: 'before-commit', times: 10 });
  const program = startProgram({ DISCORD_TOKEN: TOKEN, DISCORD_API: room.apiUrl });
  await program.until(/Trying again/);
  expect(program.printed()).not.toContain('The login failed');
  expect(await program.end('SIGTERM')).toMatchObject({ code: 0 });
});

test('while the connection is gone, the health endpoint says so', async () => {
  const room = await roomForPrograms();
  const port = await freePort();
  const program = startProgram({ DISCORD_TOKEN: TOKEN, DISCORD_API: room.apiUrl, HEALTH_PORT: String(port) });
  await program.until(/Ready in/);
  const status = async () => (await fetch(`http://127.0.0.1:${port}/readyz`)).status;
  room.gateway.drop('drop');
  await expect.poll(status, { interval: 20, timeout: 450 }).toBe(503);
  await expect.poll(status, { interval: 50, timeout: 5_000 }).toBe(200);
});

test('a health port that is taken is named, and the next start has nothing to report', async () => {
  const room = await roomForPrograms();
  const env = { DISCORD_TOKEN: TOKEN, DISCORD_API: room.apiUrl, DATA_DIR: temporaryFolder() };
  const program = startProgram({ ...env, HEALTH_PORT: String(room.port) });
  expect((await program.end()).code).toBeGreaterThan(0);
  expect(program.printed()).toContain(`HEALTH_PORT: port ${room.port} is taken`);
  expect(program.printed()).not.toMatch(/\n\s+at /);
  const next = startProgram(env);
  await next.until(/Ready in/);
  expect(next.printed()).not.toContain('cut off');
});

test('the log says when the connection is lost and when it is back, and not when it is closed on purpose', async () => {
  const room = await roomForPrograms();
  const program = startProgram({ DISCORD_TOKEN: TOKEN, DISCORD_API: room.apiUrl });
  await program.until(/Ready in/);
  room.gateway.drop('drop');
  await program.until(/the connection to Discord was lost/);
  await program.until(/the connection to Discord is back/);
  expect(await program.end('SIGTERM')).toMatchObject({ code: 0 });
  expect(program.printed().match(/was lost/g)).toHaveLength(1);
});
