import { ButtonStyle, ComponentType, MessageFlags } from 'discord.js';
import { expect, test } from 'vitest';
import type { Practice } from '../../src/room/practice.ts';
import type { WorldMessage } from '../../src/room/world-shapes.ts';
import { ERROR, named, openClub, titleOf } from '../set-up-club.ts';

/** A message of the bot as an earlier version of it may have left it, with one button. */
function leftBehind({ room }: Practice, customId: string): WorldMessage {
  const button = { type: ComponentType.Button, style: ButtonStyle.Secondary, label: 'Old', custom_id: customId };
  return room.world.messages.add({
    channelId: room.world.mainChannel().id,
    authorId: room.world.members.bot.id,
    flags: MessageFlags.IsComponentsV2,
    components: [
      { type: ComponentType.TextDisplay, content: 'A card of last year' },
      { type: ComponentType.ActionRow, components: [button] },
    ],
  });
}

test.each([
  ['another version', '0:card:aiptasia'],
  ['a later version', '2:card:aiptasia'],
  ['no version', 'card'],
  ['an act that is gone', '1:vote:aiptasia'],
  ['an act named like a property of every object', '1:constructor:aiptasia'],
  ['no act', '1:'],
  ['an entry that is gone', '1:card:no-such-animal'],
  ['an entry that is missing', '1:card'],
  ['a whole entry that is gone', '1:entry:no-such-animal'],
  ['first aid for an entry that is gone', '1:first-aid:no-such-animal'],
  ['a card to show that is gone', '1:show-card:no-such-animal'],
  ['a comparison of which one half is gone', '1:compare:aiptasia:no-such-animal'],
  ['a comparison without a second half', '1:show-pair:aiptasia'],
  ['a question that is gone', '1:cannot-tell:no-such-question'],
  ['an entry named like a property of every object', '1:card:__proto__'],
  ['somebody else’s id', 'x'.repeat(100)],
])('a button of %s gets a friendly private answer', async (_what, customId) => {
  const club = await openClub();
  const { room, lines } = club;
  const old = structuredClone(leftBehind(club, customId));
  const { replies, error } = await room.actor('Ana').press('Old');
  expect(error).toBeUndefined();
  expect(replies).toHaveLength(1);
  expect(replies[0]).toMatchObject({ private: true, to: 'Ana' });
  expect(replies[0]!.text).toContain('This button is out of date');
  expect(replies[0]!.text).toContain('/critter name');
  expect(room.world.messages.get(old.id)).toEqual(old);
  expect(lines.filter(({ level }) => level >= ERROR)).toEqual([]);
});

test('a button of the present version on an old message still works', async () => {
  const club = await openClub();
  leftBehind(club, '1:card:aiptasia');
  const { replies } = await club.room.actor('Ana').press('Old');
  expect(titleOf(replies[0]!)).toBe('Aiptasia (glass anemone) — Take it out');
});

test('buttons outlive a restart of the bot', async () => {
  const { room, restart } = await openClub();
  const ana = room.actor('Ana');
  await ana.slash('critter name', named('fireworm'));
  await restart();
  expect(titleOf((await ana.press('Red tufts…')).replies[0]!)).toBe('Bearded fireworm — Take it out');
  await restart();
  expect(titleOf((await ana.press('Whole entry')).replies[0]!)).toBe('Bearded fireworm, the whole entry');
});

test('a command that is registered but gone from the program is answered, not dropped', async () => {
  const { room, lines } = await openClub();
  const critter = room.world.commands.all().find(({ name }) => name === 'critter');
  const sub = { type: 1, name: 'photo', description: 'Gone' };
  room.world.commands.put({ ...critter!, options: [...(critter!.options ?? []), sub] }, null);
  const { replies, error } = await room.actor('Ana').slash('critter photo', []);
  expect(error).toBeUndefined();
  expect(replies).toMatchObject([{ private: true }]);
  expect(replies[0]!.text).toContain('Something went wrong on my side');
  const [line] = lines.filter(({ level }) => level >= ERROR);
  expect(replies[0]!.text).toContain(String(line!['ref']));
});

test('an option that does not fit what the program takes is answered with what was expected', async () => {
  const { room, lines } = await openClub();
  const critter = room.world.commands.all().find(({ name }) => name === 'critter');
  const options = critter!.options!.map((sub) => ({
    ...sub,
    options: sub.options!.map((option) => ({ ...option, max_length: 6000 })),
  }));
  room.world.commands.put({ ...critter!, options }, null);
  const { replies } = await room.actor('Ana').slash('critter name', named('w'.repeat(6000)));
  expect(replies).toMatchObject([{ private: true }]);
  expect(replies[0]!.text).toContain('I couldn’t use that');
  expect(replies[0]!.text).toContain('**critter**');
  expect(lines.filter(({ level }) => level >= ERROR)).toEqual([]);
});
