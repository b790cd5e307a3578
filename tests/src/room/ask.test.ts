import { describe, expect, test } from 'vitest';
import { inTerminal, playLine, type PrintedAct } from '../../../src/room/ask.ts';
import type { Practice } from '../../../src/room/practice.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import { openClub } from '../../set-up-club.ts';

const REPLY_KEYS = ['author', 'buttons', 'channel', 'images', 'private', 'selects', 'text', 'to'];
const BRISTLE = 'Common scavenging bristle worm — Leave it';

/** Plays lines one after the other and gives what came of each. */
async function played(practice: Practice, ...lines: string[]): Promise<PrintedAct[]> {
  const acts: PrintedAct[] = [];
  for (const line of lines) acts.push((await playLine(practice, line))!);
  return acts;
}

const firstLine = ({ replies }: PrintedAct) => replies[0]?.text.split('\n')[0];
const keysOf = (value: object) => Object.keys(JSON.parse(JSON.stringify(value))).toSorted();

test('what is printed of an act has exactly its keys, and so has each reply', async () => {
  const club = await openClub();
  const [asked, typed, said, heard] = await played(
    club,
    '@ines /critter name critter:bristle worm',
    '@ines types /critter name critter:brist',
    '@ines says hello',
    '@ines says @bot aiptasia',
  );
  expect(keysOf(asked!)).toEqual(['act', 'error', 'replies']);
  expect(keysOf(typed!)).toEqual(['act', 'choices', 'error', 'replies']);
  expect(keysOf(said!)).toEqual(['act', 'error', 'replies']);
  for (const { replies } of [asked!, heard!]) {
    expect(replies).toHaveLength(1);
    expect(keysOf(replies[0]!)).toEqual(REPLY_KEYS);
  }
  expect(asked).toMatchObject({
    act: '@ines /critter name critter:bristle worm',
    error: null,
    replies: [{ channel: 'ask', author: 'Reef club bot', to: 'ines', private: true, selects: [], images: [] }],
  });
  expect(asked!.replies[0]!.buttons).toContain('Whole entry');
  expect(firstLine(asked!)).toBe(BRISTLE);
  expect(typed!.replies).toEqual([]);
  expect(typed!.choices).toContain(BRISTLE);
  expect(said).toEqual({ act: '@ines says hello', replies: [], error: null });
  expect(heard!.replies[0]).toMatchObject({ private: false, to: 'ines' });
});

test('the text is what a reader sees: no marks, no escapes, no invisible characters', async () => {
  const club = await openClub();
  const [, shown] = await played(club, '@ines /critter name critter:*bold* @everyone_x #1', '@ines says @bot aiptasia');
  const [unknown] = await played(club, '@ines /critter name critter:*qwrtz* @everyone_x #1');
  expect(firstLine(unknown!)).toBe('I have no entry called “*qwrtz* @everyone_x #1”');
  expect(shown!.replies[0]!.text).not.toMatch(/\*\*|^#|^-#|\\/m);
});

test('a line that cannot be understood, and an act that cannot be played, are told in error', async () => {
  const club = await openClub();
  const errors = (await played(club, 'hello', '@ines press Nothing', '@ines /critter', '@ines /critter name')).map(
    ({ error }) => error,
  );
  expect(errors).toEqual([
    expect.stringContaining('came "hello", expected @NAME'),
    'there is no button "Nothing"; the newest message with buttons has: none',
    expect.stringContaining('"/critter" needs a subcommand; there are: name, compare'),
    'this is still needed: critter',
  ]);
  expect(await playLine(club, '')).toBeNull();
  expect(await playLine(club, '# remark')).toBeNull();
  const [wrong, empty, form, menu] = await played(
    club,
    '@ines /critter name critr:worm',
    '@ines says',
    '@ines fill A = b',
    '@ines menu Ask',
  );
  expect(wrong!.error).toBe('there is no option "critr"; there are: critter');
  expect(empty!.error).toBe('there is nothing to say');
  expect(form!.error).toBe('no form is open');
  expect(menu!.error).toBe('there is no message to use that on');
});

test('restart keeps buttons working, and the database', async () => {
  const club = await openClub();
  const acts = await played(
    club,
    '@ines /critter name critter:fireworm',
    'restart',
    '@ines press Red tufts…',
    'restart',
    '@ines press Compare with…',
    '@tom says @bot aiptasia',
  );
  expect(acts.map(({ error }) => error)).toEqual(acts.map(() => null));
  expect(acts[1]).toEqual({ act: 'restart', replies: [], error: null });
  expect(firstLine(acts[2]!)).toBe('Bearded fireworm — Take it out');
  expect(firstLine(acts[4]!)).toMatch(/^Bearded fireworm or /);
  expect(firstLine(acts[5]!)).toBe('Aiptasia (glass anemone) — Take it out');
  expect(club.lines.map(({ msg }) => msg).filter((msg) => /cut off/.test(msg))).toEqual([]);
});

test('the clock steps and jumps, and the bot answers at every hour', async () => {
  const clock = createRoomClock(new Date('2026-12-01T19:00:00Z'));
  const club = await openClub({ clock });
  const minute = () => clock.now().toISOString().slice(0, 16);
  const asked = async () => firstLine((await playLine(club, '@ines /critter name critter:bristle worm'))!);
  expect(await asked()).toBe(BRISTLE);
  for (const [line, now] of [
    ['clock +3d', '2026-12-04T19:00'],
    ['clock +1h30m', '2026-12-04T20:30'],
    ['clock +52w', '2027-12-03T20:30'],
    ['clock 2028-02-29T23:59Z', '2028-02-29T23:59'],
    ['clock 2026-12-01T19:00Z', '2026-12-01T19:00'],
  ] as const) {
    expect(await playLine(club, line)).toEqual({ act: line, replies: [], error: null });
    expect(minute()).toBe(now);
    expect(await asked()).toBe(BRISTLE);
  }
  expect((await playLine(club, '@ines press Whole entry'))!.replies).toHaveLength(1);
});

test('members are declared with what the club knows of them', async () => {
  const club = await openClub();
  await played(club, 'member maren curator zone=Europe/Berlin locale=de', 'member petra dm-closed');
  const { members, roles } = club.room.world;
  expect(members.named('maren')).toMatchObject({ zone: 'Europe/Berlin', locale: 'de', dmClosed: false });
  expect(members.named('maren')!.roleIds.map((id) => roles.get(id)?.name)).toEqual(['curator']);
  expect(members.named('petra')).toMatchObject({ dmClosed: true });
});

test.each(['member @', 'clock +99999999999999w'])('"%s" is told and does not throw', async (line) => {
  const club = await openClub();
  expect((await playLine(club, line))!.error).toMatch(/expected/);
  expect((await playLine(club, '@ines /critter name critter:aiptasia'))!.replies).toHaveLength(1);
});

test('a member with an accent can act, and nobody takes the name by which the bot is called', async () => {
  const club = await openClub();
  expect((await playLine(club, 'member Inês'))!.error).toBeNull();
  expect((await playLine(club, '@Inês /critter name critter:aiptasia'))!.replies).toMatchObject([{ to: 'Inês' }]);
  expect((await playLine(club, '@bot says hello'))!.error).not.toBeNull();
  expect((await playLine(club, '@Inês says @bot aiptasia'))!.replies).toHaveLength(1);
});

describe('in the terminal', () => {
  test('a reply names who sees it, and lists its buttons', async () => {
    const club = await openClub();
    const [asked, typed, wrong] = await played(
      club,
      '@ines /critter name critter:aiptasia',
      '@ines types /critter name critter:aipt',
      '@ines sings',
    );
    const lines = inTerminal(asked!).split('\n');
    expect(lines[0]).toBe('> @ines /critter name critter:aiptasia');
    expect(lines[1]).toBe('  Reef club bot to ines in #ask, only ines can see it:');
    expect(lines[2]).toBe('    Aiptasia (glass anemone) — Take it out');
    expect(lines.at(-1)).toMatch(/^ {4}\[Compare with .*\] \[First aid\] \[Whole entry\] \[Show everyone\]$/);
    expect(inTerminal(typed!)).toContain('\n    Aiptasia (glass anemone) — Take it out');
    expect(inTerminal(wrong!)).toContain('\n  not answered: came the act "sings"');
  });
});
