import { Routes, SlashCommandBuilder } from 'discord.js';
import type { ChatInputCommandInteraction, Client } from 'discord.js';
import { expect, test } from 'vitest';
import type { RoomOptions } from '../../../src/room/room.ts';
import { roomWithBot } from './room-with-bot.ts';

const tank = new SlashCommandBuilder().setName('tank').setDescription('The tank').toJSON();

/** Starts `/tank` and hands the interaction over. */
async function asked(options: RoomOptions = {}, breaches?: 'expected') {
  let take: (interaction: ChatInputCommandInteraction) => void = () => {};
  const arrived = new Promise<ChatInputCommandInteraction>((resolve) => (take = resolve));
  const bot = {
    commands: [tank],
    onInteraction: async (interaction: unknown) => take(interaction as ChatInputCommandInteraction),
    ...(breaches ? { breaches } : {}),
  };
  const { room, client } = await roomWithBot(bot, options);
  const acting = room.actor('Ana').slash('tank', []);
  return { room, client, acting, interaction: await arrived };
}

const post = (client: Client, { id, token }: { id: string; token: string }, body: unknown) =>
  client.rest.post(Routes.interactionCallback(id, token), { body, auth: false });

test('a second first response is refused with 40060', async () => {
  const { client, interaction, acting } = await asked();
  await interaction.reply('once');
  await expect(post(client, interaction, { type: 4, data: { content: 'twice' } })).rejects.toMatchObject({
    code: 40060,
  });
  expect((await acting).replies.map(({ text }) => text)).toEqual(['once']);
});

test('an interaction that never was is unknown, 10062', async () => {
  const { client, interaction } = await asked({ firstResponseMs: 100 });
  const body = { type: 4, data: { content: 'x' } };
  await expect(post(client, { id: '123456789012345678', token: interaction.token }, body)).rejects.toMatchObject({
    code: 10062,
  });
  await expect(post(client, { id: interaction.id, token: 'no' }, body)).rejects.toMatchObject({ code: 10062 });
});

test('a first response that comes too late is unknown, 10062', async () => {
  const { interaction, acting } = await asked({ firstResponseMs: 150 });
  await new Promise((done) => setTimeout(done, 200));
  await expect(interaction.reply('late')).rejects.toMatchObject({ code: 10062 });
  expect((await acting).error).toMatch('did not answer');
});

test('a token can be used for 15 minutes of room time', async () => {
  const { room, interaction } = await asked();
  await interaction.reply('now');
  room.clock.advance(14 * 60_000);
  await interaction.editReply('later');
  room.clock.advance(2 * 60_000);
  await expect(interaction.editReply('too late')).rejects.toMatchObject({ code: 50027 });
  await expect(interaction.followUp('too late')).rejects.toMatchObject({ code: 50027 });
});

test('a deferred response carries nothing but the private flag', async () => {
  const { client, interaction, acting } = await asked({}, 'expected');
  await expect(post(client, interaction, { type: 5, data: { flags: 32768 } })).rejects.toMatchObject({ code: 50035 });
  await expect(post(client, interaction, { type: 5, data: { content: 'x' } })).rejects.toMatchObject({ code: 50035 });
  await post(client, interaction, { type: 5, data: { flags: 64 } });
  await interaction.webhook.send('done');
  expect((await acting).replies).toMatchObject([{ text: 'done', private: true }]);
});

test.each([
  { type: 6, why: 'no message to update' },
  { type: 7, why: 'no message to update' },
  { type: 8, why: 'nothing was being typed' },
  { type: 1, why: 'no such response' },
])('a command is not answered with type $type: $why', async ({ type }) => {
  const { client, interaction } = await asked({ firstResponseMs: 500 }, 'expected');
  await expect(post(client, interaction, { type, data: type === 8 ? { choices: [] } : {} })).rejects.toMatchObject({
    code: 50035,
  });
});

test('an interaction without a response has no @original yet', async () => {
  const { interaction } = await asked({ firstResponseMs: 300 });
  await expect(interaction.webhook.fetchMessage('@original')).rejects.toMatchObject({ code: 10062 });
});
