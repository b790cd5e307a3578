import { expect, test } from 'vitest';
import { adviceOf } from '../../src/critters/advice.ts';
import { doublesOf } from '../../src/critters/rule-out.ts';
import type { Critter } from '../../src/knowledge/critter.ts';
import type { SeenMessage } from '../../src/room/room.ts';
import { knowledge, linesOf, named, openClub, titleOf } from '../set-up-club.ts';

const labels = (message: SeenMessage | undefined) => (message?.buttons ?? []).map(({ label }) => label);

test('a name gets a private card: name and advice first, buttons below', async () => {
  const { room } = await openClub();
  const base = knowledge();
  const ana = room.actor('Ana');
  const { replies, error } = await ana.slash('critter name', named('bristle worm'));
  expect(error).toBeUndefined();
  expect(replies).toHaveLength(1);
  const [card] = replies;
  expect(card).toMatchObject({ private: true, to: 'Ana', channelName: 'ask', edited: false });
  expect(titleOf(card!)).toBe('Common scavenging bristle worm — Leave it');
  expect(linesOf(card!.text).at(-1)).toBe('-# entry bristleworm-common');
  const doubles = doublesOf(base, base.critters.get('bristleworm-common')!);
  expect(doubles.length).toBeGreaterThan(2);
  expect(labels(card)).toEqual([
    ...doubles.map(({ other }) => `Compare with ${other.name}`),
    'First aid',
    'Whole entry',
    'Show everyone',
  ]);
  expect(room.actor('Ben').sees()).toEqual([]);
  expect(room.world.pings).toEqual([]);
});

test('every entry has a card that Discord takes, with its name and advice first, and every button answers', async () => {
  const { room } = await openClub({ settleMs: 1 });
  const base = knowledge();
  const ana = room.actor('Ana');
  for (const critter of base.critters.values()) {
    const { replies } = await ana.slash('critter name', named(critter.id));
    expect(titleOf(replies[0]!)).toBe(`${critter.name} — ${adviceOf(critter)}`);
    expect(replies[0]!.buttons).toHaveLength(doublesOf(base, critter).length + (critter.humanHazards.length ? 3 : 2));
  }
  const most = [...base.critters.values()].toSorted((one, other) => partsOf(other) - partsOf(one)).slice(0, 6);
  for (const critter of most) {
    const { replies } = await ana.slash('critter name', named(critter.id));
    for (const { customId } of replies[0]!.buttons) {
      const pressed = await ana.pressExactly(replies[0]!.id, customId!);
      expect(pressed.error).toBeUndefined();
      expect(pressed.replies).toHaveLength(1);
    }
  }

  function partsOf(critter: Critter): number {
    return doublesOf(base, critter).length * 10 + critter.humanHazards.length;
  }
}, 30_000);

test('Compare with … answers privately beside the card and edits nothing', async () => {
  const { room } = await openClub();
  const ana = room.actor('Ana');
  const { replies } = await ana.slash('critter name', named('bristleworm-common'));
  const cardBefore = structuredClone(replies[0]);
  const compared = await ana.press('Compare with Bearded fireworm');
  expect(compared.replies).toHaveLength(1);
  expect(compared.replies[0]).toMatchObject({ private: true, to: 'Ana', edited: false });
  expect(compared.replies[0]!.id).not.toBe(cardBefore!.id);
  expect(titleOf(compared.replies[0]!)).toBe('Common scavenging bristle worm or Bearded fireworm?');
  expect(labels(compared.replies[0])).toEqual([
    'Card: Common scavenging bristle worm',
    'Card: Bearded fireworm',
    'Show everyone',
  ]);
  expect(ana.sees()[0]).toEqual(cardBefore);
  expect(titleOf((await ana.press('Card: Bearded fireworm')).replies[0]!)).toBe('Bearded fireworm — Take it out');
});

test('Show everyone posts the card for all, says who showed it and pings nobody', async () => {
  const { room } = await openClub();
  const ana = room.actor('*Ana* @everyone');
  await ana.slash('critter name', named('aiptasia'));
  const { replies } = await ana.press('Show everyone');
  expect(replies).toHaveLength(1);
  expect(replies[0]).toMatchObject({ private: false });
  const shown = room.actor('Ben').sees();
  expect(shown).toHaveLength(1);
  expect(linesOf(shown[0]!.text).slice(0, 2)).toEqual([
    '## Aiptasia (glass anemone) — Take it out',
    '-# Shown to everyone by \\*Ana\\* @\u200beveryone',
  ]);
  expect(labels(shown[0])).not.toContain('Show everyone');
  expect(room.world.pings).toEqual([]);
  const byBen = await room.actor('Ben').press('Compare with…');
  expect(byBen.replies).toMatchObject([{ private: true, to: 'Ben' }]);
});

test('Show everyone of a comparison too', async () => {
  const { room } = await openClub();
  const ana = room.actor('Ana');
  await ana.slash('critter compare', [...named('aiptasia'), { name: 'with', value: 'majano' }]);
  const { replies } = await ana.press('Show everyone');
  expect(linesOf(replies[0]!.text).slice(0, 2)).toEqual([
    '## Aiptasia (glass anemone) or Majano anemone?',
    '-# Shown to everyone by Ana',
  ]);
  expect(room.actor('Ben').sees()).toHaveLength(1);
});

test('First aid comes whole and private, and the line that says who decides stands in it', async () => {
  const { room } = await openClub();
  const ana = room.actor('Ana');
  await ana.slash('critter name', named('bristleworm-common'));
  const { replies } = await ana.press('First aid');
  expect(replies).toMatchObject([{ private: true }]);
  expect(titleOf(replies[0]!)).toBe('First aid: Common scavenging bristle worm');
  const rows = knowledge().firstAid;
  expect(replies[0]!.text).toContain(rows.get('irritant-bristles')!.now);
  expect(replies[0]!.text).toContain('not medical advice');
});

test('a name of several animals puts the question; an answer opens the card, "None of these" the careful act', async () => {
  const { room } = await openClub();
  const ana = room.actor('Ana');
  const question = knowledge().ambiguousNames.find(({ id }) => id === 'fireworm')!;
  const asked = await ana.slash('critter name', named('fire worm'));
  expect(asked.replies[0]!.text).toContain(question.question);
  expect(asked.replies[0]!.text).toContain(question.safety);
  expect(labels(asked.replies[0])).toEqual([
    ...question.answers.map(({ says }) => says),
    "None of these, or I can't see",
  ]);
  const card = await ana.press('Red tufts…');
  expect(card.replies).toMatchObject([{ private: true }]);
  expect(titleOf(card.replies[0]!)).toBe('Bearded fireworm — Take it out');
  const careful = await ana.press('None of these…');
  expect(careful.replies[0]!.text).toContain('isolate, photograph and ask');
  expect(careful.replies[0]!.text).toContain(question.safety);
  expect(labels(careful.replies[0])).toContain('Bearded fireworm');
});

test('what is offered while typing: at most 25, each with its advice, each leading to its card', async () => {
  const { room } = await openClub();
  const ana = room.actor('Ana');
  for (const typed of [
    '',
    ' ',
    'w',
    'wor',
    'bristle',
    'anemone',
    'zoa',
    'a'.repeat(100),
    'ключ',
    '\ud800',
    '@everyone',
  ]) {
    const { choices, error } = await ana.autocomplete('critter name', named(typed));
    expect(error).toBeUndefined();
    expect(choices!.length).toBeLessThanOrEqual(25);
    expect(new Set(choices!.map(({ value }) => value)).size).toBe(choices!.length);
  }
  const { choices } = await ana.autocomplete('critter compare', [
    ...named('aiptasia'),
    { name: 'with', value: 'maja' },
  ]);
  expect(choices![0]).toEqual({ name: 'Majano anemone — Take it out', value: 'majano' });
  const [first] = (await ana.autocomplete('critter name', named('brist'))).choices!;
  const { replies } = await ana.slash('critter name', named(String(first!.value)));
  expect(titleOf(replies[0]!)).toBe(first!.name);
});

test('/critter compare: two names side by side, the same one twice, one that is not there', async () => {
  const { room } = await openClub();
  const ana = room.actor('Ana');
  const compare = async (one: string, other: string) =>
    (await ana.slash('critter compare', [...named(one), { name: 'with', value: other }])).replies[0]!;
  const pair = await compare('bearded fireworm', 'bristle worm');
  expect(pair.private).toBe(true);
  expect(titleOf(pair)).toBe('Bearded fireworm or Common scavenging bristle worm?');
  expect(pair.text).toContain('What a mistake costs');
  expect(titleOf(await compare('aiptasia', 'glass anemone'))).toBe('Those are the same entry');
  expect((await compare('aiptasia', 'qqqqqqqq')).text).toContain('I have no entry called “qqqqqqqq”');
  expect((await compare('fireworm', 'aiptasia')).text).toContain('is a name for several things');
  expect((await compare('aiptasia', 'diatoms')).text).toContain('Nobody has written these two up as look-alikes');
});

test('it answers in a direct message with the bot, and a server command is the same there', async () => {
  const { room } = await openClub();
  const ana = room.actor('Ana');
  ana.goTo('dm');
  const { replies, error } = await ana.slash('critter name', named('aiptasia'));
  expect(error).toBeUndefined();
  expect(titleOf(replies[0]!)).toBe('Aiptasia (glass anemone) — Take it out');
  expect((await ana.press('Whole entry')).replies).toHaveLength(1);
});
