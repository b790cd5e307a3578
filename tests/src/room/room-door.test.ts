import { request } from 'node:http';
import { Routes } from 'discord.js';
import { WebSocket } from 'ws';
import { expect, onTestFinished, test } from 'vitest';
import { openRoom } from '../../../src/room/open-room.ts';
import type { RoomOptions } from '../../../src/room/room.ts';
import { roomWithBot } from './room-with-bot.ts';

async function opened(options: RoomOptions = {}) {
  const room = await openRoom(options);
  onTestFinished(() => room.close());
  return room;
}

const status = (port: number, path: string, headers: Record<string, string>) =>
  new Promise<number>((resolve, reject) => {
    const asking = request({ host: '127.0.0.1', port, path, headers }, (response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    });
    asking.on('error', reject).end();
  });

test('only the own Host and Origin get in', async () => {
  const { port } = await opened();
  const ask = (headers: Record<string, string>) => status(port, '/api/v10/gateway', headers);
  expect(await ask({ host: `127.0.0.1:${port}` })).toBe(200);
  expect(await ask({ host: `localhost:${port}`, origin: `http://localhost:${port}` })).toBe(200);
  expect(await ask({ host: 'club.example.org' })).toBe(403);
  expect(await ask({ host: `club.example.org:${port}` })).toBe(403);
  expect(await ask({ host: `127.0.0.1:${port + 1}` })).toBe(403);
  expect(await ask({ host: `127.0.0.1:${port}`, origin: 'https://example.org' })).toBe(403);
  expect(await ask({ host: `127.0.0.1:${port}`, origin: 'null' })).toBe(403);
});

test('the gateway refuses a foreign Origin too', async () => {
  const { port } = await opened();
  const outcome = (origin: string) =>
    new Promise((resolve) => {
      const socket = new WebSocket(`ws://127.0.0.1:${port}/gateway`, { origin });
      socket.on('open', () => resolve('open')).on('error', () => resolve('refused'));
      onTestFinished(() => socket.terminate());
    });
  expect(await outcome('https://example.org')).toBe('refused');
  expect(await outcome(`http://127.0.0.1:${port}`)).toBe('open');
});

test.each(['0.0.0.0', '::', '192.168.1.10', 'club.example.org'])('it does not open on %s', async (host) => {
  await expect(openRoom({ host })).rejects.toThrow(/this machine only/);
});

test('a request without a route is answered with 404 and remembered', async () => {
  const { room, client } = await roomWithBot({ breaches: 'expected' });
  await expect(client.rest.get(Routes.guildBans(room.world.guild.id))).rejects.toMatchObject({ status: 404 });
  expect(room.contract.breaches()).toMatchObject([
    { kind: 'unrouted', method: 'GET', path: `/guilds/${room.world.guild.id}/bans` },
  ]);
});

test('what cannot be read is refused, and the room goes on', async () => {
  const { port, apiUrl, origin, contract } = await opened();
  const headers = { authorization: 'Bot fine', 'content-type': 'application/json' };
  expect((await fetch(`${apiUrl}/v10/users/@me/channels`, { method: 'POST', headers, body: '{' })).status).toBe(400);
  expect(contract.breaches()).toMatchObject([{ kind: 'refused' }]);
  expect(await status(port, '//', { host: `127.0.0.1:${port}` })).toBe(404);
  expect((await fetch(`${origin}/attachments/%E0%A4%A`)).status).toBe(500);
  expect(await status(port, '/api/v10/gateway', { host: `127.0.0.1:${port}` })).toBe(200);
});

test('a refused token is answered with 401', async () => {
  const { port } = await opened();
  const host = `127.0.0.1:${port}`;
  expect(await status(port, '/api/v10/users/@me', { host })).toBe(401);
  expect(await status(port, '/api/v10/users/@me', { host, authorization: 'Bot refused' })).toBe(401);
  expect(await status(port, '/api/v10/users/@me', { host, authorization: 'Bot fine' })).toBe(200);
});

test('other paths are offered to what extends the room', async () => {
  const room = await opened({
    extend: async (_room, asked, response) => {
      if (asked.url !== '/room/hello') return false;
      response.end('hello');
      return true;
    },
  });
  expect(await (await fetch(`${room.origin}/room/hello`)).text()).toBe('hello');
  expect((await fetch(`${room.origin}/room/bye`)).status).toBe(404);
});

test('it closes at once, whoever is still connected', async () => {
  const room = await openRoom();
  await fetch(`${room.apiUrl}/v10/gateway`);
  const startedMs = performance.now();
  await room.close();
  expect(performance.now() - startedMs).toBeLessThan(1_000);
  await expect(fetch(`${room.apiUrl}/v10/gateway`)).rejects.toThrow();
});
