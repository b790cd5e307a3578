import { Routes, SlashCommandBuilder } from 'discord.js';
import { expect, test } from 'vitest';
import { roomWithBot } from './room-with-bot.ts';

const SEND = /^POST \/channels\/\d+\/messages$/;

async function sending() {
  const { room, client } = await roomWithBot({});
  const route = Routes.channelMessages(room.world.mainChannel().id);
  const send = (body: object = { content: 'due' }) => client.rest.post(route, { body });
  return { room, client, send, count: () => room.world.messages.all().length };
}

test('429 is waited for and the message is sent once', async () => {
  const { room, send, count } = await sending();
  room.faults.add({ match: SEND, kind: 'rate-limit', when: 'before-commit', times: 1, ms: 300 });
  const startedMs = performance.now();
  await send();
  expect(performance.now() - startedMs).toBeGreaterThanOrEqual(300);
  expect(count()).toBe(1);
  expect(
    room.requests
      .all()
      .slice(-2)
      .map(({ status }) => status),
  ).toEqual([429, 200]);
});

test('500 before the message is kept is retried to one message', async () => {
  const { room, send, count } = await sending();
  room.faults.add({ match: SEND, kind: 'server-error', when: 'before-commit', times: 2 });
  await send();
  expect(count()).toBe(1);
});

test('500 after the message is kept makes two, unless a nonce holds them together', async () => {
  const { room, send, count } = await sending();
  const fault = { match: SEND, kind: 'server-error', when: 'after-commit', times: 1 } as const;
  room.faults.add(fault);
  await send();
  expect(count()).toBe(2);
  room.faults.add(fault);
  await send({ content: 'due', nonce: 'n1', enforce_nonce: true });
  expect(count()).toBe(3);
  expect(room.faults.left()).toEqual([]);
});

test('a hang-up after the message is kept leaves the sender in the dark', async () => {
  const { room, send, count } = await sending();
  room.faults.add({ match: SEND, kind: 'hang-up', when: 'after-commit', times: 1 });
  await expect(send()).rejects.toMatchObject({ code: 'UND_ERR_SOCKET' });
  expect(count()).toBe(1);
  await send();
  expect(count()).toBe(2);
});

test('refusals carry the code they are given', async () => {
  const { room, send, count } = await sending();
  room.faults.add({ match: SEND, kind: 'forbidden', when: 'before-commit', times: 1, code: 50278 });
  await expect(send()).rejects.toMatchObject({ status: 403, code: 50278 });
  room.faults.add({ match: SEND, kind: 'not-found', when: 'before-commit', times: 1, code: 10003 });
  await expect(send()).rejects.toMatchObject({ status: 404, code: 10003 });
  expect(count()).toBe(0);
});

test('a delayed first response can miss its three seconds', async () => {
  const { room } = await roomWithBot(
    {
      commands: [new SlashCommandBuilder().setName('tank').setDescription('The tank').toJSON()],
      onInteraction: async (interaction) => {
        if (interaction.isChatInputCommand())
          await expect(interaction.reply('late')).rejects.toMatchObject({ code: 10062 });
      },
    },
    { firstResponseMs: 150 },
  );
  room.faults.add({ match: /callback$/, kind: 'delay', when: 'before-commit', times: 1, ms: 250 });
  const late = room.requests.next(({ path }) => path.endsWith('callback'));
  expect((await room.actor('Ana').slash('tank', [])).error).toMatch('did not answer');
  expect((await late).status).toBe(404);
});

test('one 401 makes the client give its token up', async () => {
  const { room, client, send } = await sending();
  room.faults.add({ match: SEND, kind: 'unauthorized', when: 'before-commit', times: 1 });
  await expect(send()).rejects.toMatchObject({ status: 401 });
  await expect(client.rest.get(Routes.user('@me'))).rejects.toThrow(/token/i);
});
