import { expect, test } from 'vitest';
import { createIdentifier } from '../../../src/identification/identify.ts';
import { describedFrom } from '../../../src/identification/described.ts';
import type { Sighting } from '../../../src/identification/session.ts';
import { createFinder } from '../../../src/knowledge/finder.ts';
import { carriedFrom } from '../../../src/opinions/carried-sighting.ts';
import { knowledge } from '../../set-up-club.ts';

const { read } = createIdentifier(knowledge(), createFinder(knowledge()));
const TEXT = 'brown worm, two corals died beside it and it stung my hand';
const sighting: Sighting = {
  id: 7,
  memberId: 'ana',
  guildId: 'guild',
  text: TEXT,
  described: describedFrom(read(TEXT), { near: 'zoanthus', since: 'new rock' }),
  answers: [{ question: 'sizeMm', option: '1' }],
};

test('words that were left as they are go along as they were understood', () => {
  const { id, described, answers } = sighting;
  expect(carriedFrom(sighting, `${TEXT}\n`, () => expect.unreachable('nothing was to be read'))).toEqual({
    id,
    described,
    answers,
  });
});

test('words that were changed are read anew; surroundings, answers and told harm stay', () => {
  expect(sighting.described).toMatchObject({ alarm: true, hurt: [expect.any(String)] });
  const { described, answers } = carriedFrom(sighting, 'green slug', read);
  expect(described.observations).toEqual(describedFrom(read('green slug'), { near: null, since: null }).observations);
  expect(described).toMatchObject({ near: 'zoanthus', since: 'new rock', alarm: true, hurt: sighting.described.hurt });
  expect(answers).toEqual(sighting.answers);
});

test('harm that is told for the first time in the form counts as well', () => {
  const calm: Sighting = {
    ...sighting,
    text: 'worm',
    described: describedFrom(read('worm'), { near: null, since: null }),
  };
  expect(calm.described.alarm).toBe(false);
  expect(carriedFrom(calm, TEXT, read).described).toMatchObject({ alarm: true, hurt: sighting.described.hurt });
});
