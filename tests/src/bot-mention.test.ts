import { Events, GatewayIntentBits } from 'discord.js';
import { expect, onTestFinished, test } from 'vitest';
import { asRead } from '../../src/room/as-read.ts';
import type { Practice } from '../../src/room/practice.ts';
import { linesOf, openClub, titleOf, WARN } from '../set-up-club.ts';

const BRISTLE = 'Common scavenging bristle worm — Leave it';

/** What the gateway hands to the bot, before anything of ours sees it. */
function heard({ bot }: Practice): { content?: string }[] {
  const events: { content?: string }[] = [];
  const note = ({ t, d }: { t: string; d: { content?: string } }) => {
    if (t === 'MESSAGE_CREATE') events.push(d);
  };
  const { client } = bot();
  client.on(Events.Raw, note);
  onTestFinished(() => void client.off(Events.Raw, note));
  return events;
}

test('a mention is answered for everybody, as a reply, and pings nobody', async () => {
  const { room } = await openClub();
  const ben = room.actor('Ben');
  const { replies, error } = await room.actor('Ana').say('@bot is a bristle worm bad? @Ben @everyone');
  expect(error).toBeUndefined();
  expect(replies).toHaveLength(1);
  expect(replies[0]).toMatchObject({ private: false, to: 'Ana', channelName: 'ask' });
  expect(titleOf(replies[0]!)).toBe(BRISTLE);
  expect(ben.sees()).toHaveLength(2);
  expect(room.world.pings).toEqual([]);
  expect(replies[0]!.buttons.map(({ label }) => label)).not.toContain('Show everyone');
  expect(await ben.press('Compare with…')).toMatchObject({ replies: [{ private: true, to: 'Ben' }] });
});

test('two names are compared, a name of several gets the question, nothing named gets help', async () => {
  const { room } = await openClub();
  const ana = room.actor('Ana');
  const asked = async (text: string) => (await ana.say(text)).replies[0]!;
  expect(titleOf(await asked('@bot aiptasia or majano?'))).toBe('Aiptasia (glass anemone) or Majano anemone?');
  const question = await asked('@bot I found a fireworm!');
  expect(question.text).toContain('is a name for several things');
  expect(question.private).toBe(false);
  expect(await room.actor('Ben').press('Red tufts…')).toMatchObject({ replies: [{ private: true, to: 'Ben' }] });
  expect(titleOf(await asked('@bot hello'))).toBe('Ask me about an animal');
  expect(titleOf(await asked('@bot'))).toBe('Ask me about an animal');
  expect((await asked('@bot what is a qwrtzlpf')).text).toContain('I have no entry called');
  expect(room.world.pings).toEqual([]);
});

test('what is not said to the bot never reaches it, and it stays silent', async () => {
  const club = await openClub();
  const { room } = club;
  const events = heard(club);
  const ana = room.actor('Ana');
  await ana.say('my bristle worm secret');
  await ana.say('@everyone @Ben aiptasia');
  await room.actor('Ben').say('@bot bristle worm');
  expect(events.map(({ content }) => content)).toEqual([
    '',
    '',
    `<@${room.world.members.bot.id}> bristle worm`,
    expect.any(String),
  ]);
  expect(ana.sees().filter(({ author }) => author === 'Reef club bot')).toHaveLength(1);
});

test('with mentions off the bot asks for no messages, gets none and says nothing', async () => {
  const club = await openClub({ mentions: false });
  const { room } = club;
  const events = heard(club);
  expect(club.bot().client.options.intents.has(GatewayIntentBits.GuildMessages)).toBe(false);
  room.world.messages.add({
    channelId: room.world.mainChannel().id,
    authorId: room.world.members.declare({ name: 'Ana' }).id,
    content: `<@${room.world.members.bot.id}> is a bristle worm bad?`,
    mentionIds: [room.world.members.bot.id],
  });
  await room.quiet(150);
  expect(events).toEqual([]);
  expect(room.actor('Ana').sees()).toHaveLength(1);
  const answered = await room.actor('Ana').slash('critter name', [{ name: 'critter', value: 'bristle worm' }]);
  expect(titleOf(answered.replies[0]!)).toBe(BRISTLE);
});

test.each(['SendMessages', 'ReadMessageHistory'] as const)(
  'without %s the asker gets the answer in a direct message that names the permission',
  async (missing) => {
    const { room, lines } = await openClub();
    const name = missing === 'SendMessages' ? 'Send Messages' : 'Read Message History';
    room.world.setBotPermissions('ask', { deny: [missing] });
    await room.quiet(50);
    const { replies, error } = await room.actor('Ana').say('@bot is a bristle worm bad?');
    expect(error).toBeUndefined();
    expect(replies).toHaveLength(1);
    const direct = room.world.channels.get(replies[0]!.channelId)!;
    expect(direct).toMatchObject({ type: 1, recipientId: room.world.members.named('Ana')!.id });
    const [notice = '', title] = linesOf(replies[0]!.text);
    expect(asRead(notice)).toContain('I may not answer in #ask');
    expect(notice).toContain(`**${name}**`);
    expect(title).toBe(`## ${BRISTLE}`);
    expect(room.actor('Ben').sees()).toHaveLength(1);
    expect(room.world.pings).toEqual([]);
    const warnings = lines.filter(({ level }) => level >= WARN);
    expect(warnings).toMatchObject([{ missing: [name] }]);
    expect(await room.actor('Ana').press('Compare with…')).toMatchObject({ replies: [{ private: true }] });
    room.world.setBotPermissions('ask', { allow: [missing] });
    await room.quiet(50);
    expect((await room.actor('Ana').say('@bot aiptasia')).replies).toMatchObject([{ channelName: 'ask' }]);
  },
);

test('both missing permissions are named at once', async () => {
  const { room } = await openClub();
  room.world.setBotPermissions('ask', { deny: ['SendMessages', 'ReadMessageHistory'] });
  await room.quiet(50);
  const { replies } = await room.actor('Ana').say('@bot bristle worm');
  expect(replies[0]!.text).toContain('**Send Messages, Read Message History**');
});

test('where direct messages are closed too, the log says so once and the bot goes on', async () => {
  const { room, lines } = await openClub();
  room.actor('Petra', { name: 'Petra', dmClosed: true });
  room.world.setBotPermissions('ask', { deny: ['SendMessages'] });
  await room.quiet(50);
  const refused = room.requests.next(({ path, status }) => path.endsWith('/messages') && status === 403);
  room.world.messages.add({
    channelId: room.world.mainChannel().id,
    authorId: room.world.members.named('Petra')!.id,
    content: `<@${room.world.members.bot.id}> bristle worm`,
    mentionIds: [room.world.members.bot.id],
  });
  await refused;
  await room.quiet();
  expect(room.world.messages.all()).toHaveLength(1);
  expect(lines.filter(({ level }) => level >= WARN).map(({ msg }) => msg)).toEqual([
    'cannot answer in this channel: permissions are missing',
    'a mention could not be answered',
  ]);
  const { replies } = await room.actor('Ana').slash('critter name', [{ name: 'critter', value: 'bristle worm' }]);
  expect(titleOf(replies[0]!)).toBe(BRISTLE);
});

test('other bots, and replies that only notify, are no question', async () => {
  const { room } = await openClub();
  const { bot } = room.world.members;
  const channelId = room.world.mainChannel().id;
  const { id } = room.world.members.declare({ name: 'Ana' });
  room.world.messages.add({ channelId, authorId: id, content: 'thanks, bristle worm', mentionIds: [bot.id] });
  room.world.messages.add({ channelId, authorId: bot.id, content: `<@${bot.id}> worm`, mentionIds: [bot.id] });
  await room.quiet(150);
  expect(room.world.messages.all()).toHaveLength(2);
});
