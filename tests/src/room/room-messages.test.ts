import {
  AttachmentBuilder,
  ContainerBuilder,
  GatewayIntentBits,
  MessageFlags,
  Routes,
  SlashCommandBuilder,
  ThreadAutoArchiveDuration,
} from 'discord.js';
import type { Message, TextChannel } from 'discord.js';
import { expect, test } from 'vitest';
import type { Room } from '../../../src/room/open-room.ts';
import { roomWithBot } from './room-with-bot.ts';

const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8BQDwAEhQGAhKmMIQAAAABJRU5ErkJggg==',
  'base64',
);

async function channelOf(
  client: Awaited<ReturnType<typeof roomWithBot>>['client'],
  room: Room,
  name = 'ask',
): Promise<TextChannel> {
  const channel = await client.channels.fetch(room.world.channels.named(name)?.id ?? '');
  if (!channel?.isTextBased() || channel.isDMBased() || channel.isThread() || channel.isVoiceBased())
    throw new Error('a text channel was expected');
  return channel as TextChannel;
}

test('content arrives when the bot is mentioned and is held back when it is not', async () => {
  const heard: string[] = [];
  const { room } = await roomWithBot({
    onMessage: async (message) => {
      heard.push(message.content);
      if (message.content) await message.reply('heard');
    },
  });
  const ana = room.actor('Ana');
  expect(await ana.say('just talking')).toEqual({ replies: [] });
  const { replies } = await ana.say('@bot what is this');
  await expect.poll(() => heard).toEqual(['', `<@${room.world.members.bot.id}> what is this`]);
  expect(replies).toMatchObject([{ text: 'heard', to: 'Ana' }]);
});

test('direct messages carry content, and need the intent', async () => {
  const onMessage = (message: Message) => message.reply(`you said ${message.content}`);
  const { room } = await roomWithBot({
    onMessage,
    intents: [GatewayIntentBits.Guilds, GatewayIntentBits.DirectMessages],
  });
  expect((await room.actor('Ana').say('hello', { channel: 'dm' })).replies).toMatchObject([
    { text: 'you said hello', channelName: '@Ana' },
  ]);
  expect(room.actor('Bo').sees()).toEqual([]);

  const deaf = await roomWithBot({ onMessage }, { firstResponseMs: 200 });
  expect((await deaf.room.actor('Ana').say('hello', { channel: 'dm' })).error).toMatch('did not answer');
});

test('a direct message reaches whoever takes them; others are refused with 50007', async () => {
  const { room, client } = await roomWithBot({});
  room.actor('Ana');
  room.actor('Di', { name: 'Di', dmClosed: true });
  const send = async (name: string) =>
    (await client.users.fetch(room.world.members.named(name)?.id ?? '')).send('due today');
  await send('Ana');
  expect(room.actor('Ana').sees()).toMatchObject([{ text: 'due today', to: 'Ana' }]);
  await expect(send('Di')).rejects.toMatchObject({ code: 50007, status: 403 });
});

test('permissions of a channel are kept: 50013 where the bot may not, 50001 where it cannot see', async () => {
  const { room, client } = await roomWithBot({});
  const swap = await channelOf(client, room, 'swap');
  const kept = await swap.send('still allowed');

  room.world.setBotPermissions('swap', { deny: ['SendMessages', 'CreatePrivateThreads', 'AddReactions'] });
  await expect(swap.send('no')).rejects.toMatchObject({ code: 50013, status: 403 });
  await expect(swap.threads.create({ name: 'no', type: 12 })).rejects.toMatchObject({ code: 50013 });
  await expect(kept.react('🐟')).rejects.toMatchObject({ code: 50013 });

  room.world.setBotPermissions('swap', { allow: ['SendMessages'], deny: ['ReadMessageHistory'] });
  await swap.send('yes');
  await expect(swap.messages.fetch({ message: kept.id, force: true })).rejects.toMatchObject({ code: 50013 });
  expect(await client.rest.get(Routes.channelMessages(swap.id))).toEqual([]);

  room.world.setBotPermissions('swap', { deny: ['ViewChannel'] });
  await expect(swap.send('no')).rejects.toMatchObject({ code: 50001, status: 403 });
  expect(
    room.world.permissionsOf(room.world.members.bot, room.world.channels.named('swap') ?? room.world.mainChannel()),
  ).toBe(0n);
  await expect.poll(() => swap.permissionsFor(client.user)?.has('ViewChannel')).toBe(false);
});

test('files keep their bytes and alt texts, and are read out in their place', async () => {
  const plate = () => new AttachmentBuilder(PNG, { name: 'plate.png', description: 'Six arms, one of them short' });
  const { room } = await roomWithBot({
    commands: [new SlashCommandBuilder().setName('plate').setDescription('A plate').toJSON()],
    onInteraction: async (interaction) => {
      if (!interaction.isChatInputCommand()) return;
      const gallery = new ContainerBuilder()
        .addTextDisplayComponents((text) => text.setContent('above'))
        .addMediaGalleryComponents((items) =>
          items.addItems((item) => item.setURL('attachment://plate.png').setDescription('A star')),
        )
        .addTextDisplayComponents((text) => text.setContent('below'));
      await interaction.reply({ components: [gallery], files: [plate()], flags: MessageFlags.IsComponentsV2 });
      await interaction.followUp({
        content: 'and',
        files: [plate(), new AttachmentBuilder(Buffer.from('a,b'), { name: 'log.csv' })],
      });
    },
  });
  const { replies } = await room.actor('Ana').slash('plate', []);
  expect(replies.map(({ text }) => text)).toEqual([
    'above\n[image: A star]\nbelow',
    'and\n[image: Six arms, one of them short]\n[file: log.csv]',
  ]);
  expect(replies[0]?.images).toMatchObject([{ name: 'plate.png', alt: 'A star', bytes: PNG.length }]);
  const served = await fetch(replies[0]?.images[0]?.url ?? '');
  expect(served.headers.get('content-type')).toBe('image/png');
  expect(Buffer.from(await served.arrayBuffer()).equals(PNG)).toBe(true);
});

test('one nonce makes one message for some minutes, and a new one afterwards', async () => {
  const { room, client } = await roomWithBot({});
  const ask = await channelOf(client, room);
  const send = () => ask.send({ content: 'due', nonce: 'rem:1:1', enforceNonce: true });
  const [first, second] = [await send(), await send()];
  expect(second.id).toBe(first.id);
  room.clock.advance(10 * 60_000);
  expect((await send()).id).not.toBe(first.id);
  expect((await ask.send({ content: 'due', nonce: 'rem:1:1' })).id).not.toBe(first.id);
});

test('only those whom allowed_mentions lets through are notified', async () => {
  const { room, client } = await roomWithBot({});
  const ids = ['Ana', 'Bo'].map((name) => (room.actor(name), room.world.members.named(name)?.id ?? ''));
  const ask = await channelOf(client, room);
  const content = ids.map((id) => `<@${id}>`).join(' ');
  await ask.send({ content, allowedMentions: { parse: [] } });
  expect(room.world.pings).toEqual([]);
  const sent = await ask.send({ content, allowedMentions: { users: [ids[0] ?? ''] } });
  expect(room.world.pings).toMatchObject([{ messageId: sent.id, memberIds: [ids[0]] }]);
  expect([...sent.mentions.users.keys()]).toEqual([ids[0]]);
});

test('threads open at a message or by themselves, archive, and reopen when written in', async () => {
  const { room, client } = await roomWithBot({});
  const ask = await channelOf(client, room);
  const question = await ask.send('which worm?');
  const thread = await question.startThread({
    name: 'the worm',
    autoArchiveDuration: ThreadAutoArchiveDuration.OneDay,
  });
  expect(thread.id).toBe(question.id);
  await thread.send('in here');
  expect(
    room
      .actor('Ana')
      .sees()
      .map(({ channelName, text }) => `${channelName}: ${text}`),
  ).toEqual(['ask: which worm?', 'the worm: in here']);

  await thread.setArchived(true);
  expect(room.world.channels.get(thread.id)?.thread?.archived).toBe(true);
  await thread.send('once more');
  expect(room.world.channels.get(thread.id)?.thread?.archived).toBe(false);
  await expect(thread.setLocked(true)).rejects.toMatchObject({ code: 50013 });

  const secret = await ask.threads.create({ name: 'committee', type: 12 });
  await secret.send('between us');
  room.actor('Ana');
  await secret.members.add(room.world.members.named('Ana')?.id ?? '');
  const seen = (name: string) =>
    room
      .actor(name)
      .sees()
      .some(({ text }) => text === 'between us');
  expect([seen('Ana'), seen('Bo')]).toEqual([true, false]);
});

test('times and names are read in the zone and words of the reader', async () => {
  const { room, client } = await roomWithBot({});
  room.clock.set(new Date('2026-03-01T12:00:00Z'));
  const ana = room.actor('Ana', { name: 'Ana', zone: 'America/New_York', locale: 'en-GB' });
  const at = Date.parse('2026-03-04T12:00:00Z') / 1000;
  await (
    await channelOf(client, room)
  ).send(`<t:${at}:t> is <t:${at}:R> for <@${room.world.members.named('Ana')?.id}>, see </tank:123456789012345678>`);
  expect(ana.sees()[0]?.text).toBe('07:00 is in 3 days for @Ana, see /tank');
});
