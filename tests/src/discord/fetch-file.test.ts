import { createServer, type RequestListener } from 'node:http';
import type { AddressInfo } from 'node:net';
import { expect, onTestFinished, test } from 'vitest';
import { fetchFile } from '../../../src/discord/fetch-file.ts';

async function serving(answer: RequestListener): Promise<string> {
  const server = createServer(answer);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}/photo.png`;
}

test('a file comes whole, up to the size allowed', async () => {
  const url = await serving((_, response) => response.end(Buffer.alloc(1_000, 7)));
  expect(await fetchFile(url, 1_000)).toEqual({ kind: 'fetched', bytes: Buffer.alloc(1_000, 7) });
  expect(await fetchFile(url, 999)).toEqual({ kind: 'too-large' });
});

test('a transfer without end is broken off', async () => {
  let sent = 0;
  const url = await serving((_, response) => {
    const more = () => {
      while (!response.destroyed && response.write(Buffer.alloc(65_536))) sent += 65_536;
    };
    response.on('drain', more);
    more();
  });
  expect(await fetchFile(url, 100_000)).toEqual({ kind: 'too-large' });
  expect(sent).toBeLessThan(50_000_000);
});

test.each<[string, RequestListener]>([
  ['a refusal', (_, response) => response.writeHead(403).end()],
  ['a redirect to elsewhere', (_, response) => response.writeHead(302, { location: 'http://127.0.0.1:1/' }).end()],
  ['a connection that breaks', (request) => request.socket.destroy()],
])('%s is no file', async (_what, answer) => {
  expect(await fetchFile(await serving(answer), 1_000)).toEqual({ kind: 'not-to-be-had' });
});
