import { request } from 'node:http';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { DEMO_MEMBERS, seedDemoClub } from '../../../src/room/demo-club.ts';
import { openRoom } from '../../../src/room/open-room.ts';
import { openPage } from '../../../src/room/page-api.ts';
import type { PageAct, PageAnswer, PageState } from '../../../src/room/page-shapes.ts';
import { startPageBot } from './page-bot.ts';

async function openDemo() {
  const folder = mkdtempSync(join(tmpdir(), 'room-page-'));
  writeFileSync(join(folder, 'index.html'), '<meta name="room-key" content="" />');
  const page = openPage({ folder, seed: seedDemoClub });
  const room = await openRoom({ extend: page.extend });
  seedDemoClub(room);
  onTestFinished(async () => {
    await room.close();
    rmSync(folder, { recursive: true });
  });
  const headers = { 'x-room-key': page.key, 'content-type': 'application/json' };
  const state = async (as: string) =>
    (await (await fetch(`${room.origin}/room/state?as=${as}`, { headers })).json()) as PageState;
  const post = (body: unknown) =>
    fetch(`${room.origin}/room/act`, {
      method: 'POST',
      headers,
      body: typeof body === 'string' ? body : JSON.stringify(body),
    });
  const play = async (act: PageAct) => (await (await post(act)).json()) as PageAnswer;
  return { room, key: page.key, state, post, play };
}

test('the page is served with the key of this start, and nothing is let in without it', async () => {
  const { room, key } = await openDemo();
  const served = await fetch(room.origin);
  expect(await served.text()).toContain(`content="${key}"`);
  expect(served.headers.get('content-security-policy')).toContain("default-src 'none'");
  for (const path of ['/room/state', '/room/events', '/room/act', `/room/state?key=${key}x`]) {
    expect((await fetch(room.origin + path)).status).toBe(403);
  }
  expect((await fetch(`${room.origin}/../package.json`)).status).toBe(404);
});

test('a foreign page is turned away even with the key', async () => {
  const { room, key } = await openDemo();
  const status = await new Promise<number | undefined>((resolve, reject) => {
    const headers = { 'x-room-key': key, origin: 'http://elsewhere.example' };
    request(`${room.origin}/room/state`, { headers }, (response) => {
      response.resume();
      resolve(response.statusCode);
    })
      .on('error', reject)
      .end();
  });
  expect(status).toBe(403);
});

test('the demo club is all there before anybody says a word', async () => {
  const { room, state } = await openDemo();
  const seen = await state('');
  expect(seen).toMatchObject({ club: 'Lagoon Reef Club', acting: 'Ines', modal: null });
  expect(seen.members.filter(({ bot }) => !bot).map(({ name }) => name)).toEqual(DEMO_MEMBERS.map(({ name }) => name));
  const photo = seen.messages.flatMap(({ attachments }) => attachments)[0];
  expect(photo).toMatchObject({ width: 480, height: 320 });
  expect(photo?.alt).toContain('worm');
  const picture = await fetch(room.origin + photo?.url);
  expect(picture.headers.get('content-type')).toBe('image/png');
  const times = seen.messages.filter(({ channelId }) => channelId === seen.channels[0]?.id).map(({ at }) => at);
  expect(times).toEqual([...times].sort());
  expect(new Date(times.at(-1) ?? '').getTime()).toBeLessThan(room.clock.now().getTime());
});

test.each([
  '{',
  '{}',
  '{"act":"fly"}',
  '{"act":"advance","ms":-5}',
  '{"act":"advance","ms":1e18}',
  '{"act":"say","as":"Ines"}',
])('an odd request is refused in words: %s', async (body) => {
  const { post, room } = await openDemo();
  const before = room.clock.now().getTime();
  const response = await post(body);
  expect(response.status).toBe(400);
  expect(((await response.json()) as PageAnswer).error).toContain('odd');
  expect(room.clock.now().getTime() - before).toBeLessThan(5_000);
});

test('a member does only what is on their own screen', async () => {
  const { room, state, play } = await openDemo();
  const endBot = await startPageBot(room);
  onTestFinished(endBot);
  const ask = (await state('Ines')).channels[0]?.id ?? '';
  await play({ act: 'slash', as: 'Ines', channel: ask, command: 'show private', options: [] });
  const secret = (await state('Ines')).messages.at(-1);
  expect(secret).toMatchObject({ private: true, content: 'A quiet word' });
  const id = secret?.id ?? '';
  expect((await state('Tom')).messages.map((message) => message.id)).not.toContain(id);
  expect((await play({ act: 'dismiss', as: 'Tom', message: id })).error).toBeDefined();
  expect((await play({ act: 'press', as: 'Tom', message: id, customId: 'any' })).error).toBeDefined();
  expect(
    (
      await play({
        act: 'say',
        as: 'Tom',
        channel: room.world.channels.directWith(room.world.members.named('Ines')!).id,
        text: 'hi',
      })
    ).error,
  ).toBe('Tom cannot see this place.');
  expect((await play({ act: 'say', as: 'Reef club bot', channel: ask, text: 'hi' })).error).toBeDefined();
  expect(await play({ act: 'dismiss', as: 'Ines', message: id })).toEqual({});
  expect((await state('Ines')).messages.map((message) => message.id)).not.toContain(id);
});

test('commands for curators are told to curators alone', async () => {
  const { room, state } = await openDemo();
  onTestFinished(await startPageBot(room));
  const names = async (as: string) => (await state(as)).commands.map(({ name }) => name);
  expect(await names('Maren')).toContain('settle');
  expect(await names('Tom')).not.toContain('settle');
  expect(await names('Tom')).toEqual(expect.arrayContaining(['show parts', 'find thing', 'Ask about this photo']));
});

test('a change is told on the open line', async () => {
  const { room, key, play, state } = await openDemo();
  const line = await fetch(`${room.origin}/room/events?key=${key}`);
  const reader = line.body!.getReader();
  const ask = (await state('Tom')).channels[0]?.id ?? '';
  await play({ act: 'say', as: 'Tom', channel: ask, text: 'anybody?' });
  let heard = '';
  while (!heard.includes('event: changed')) heard += new TextDecoder().decode((await reader.read()).value);
  expect(heard).toContain('event: changed');
  await reader.cancel();
});
