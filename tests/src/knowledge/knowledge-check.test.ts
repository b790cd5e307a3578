import { describe, expect, test } from 'vitest';
import { Critter } from '../../../src/knowledge/critter.ts';
import { checkLinks } from '../../../src/knowledge/knowledge-check.ts';
import type { CompiledKnowledge } from '../../../src/knowledge/knowledge-base.ts';
import { LookAlike } from '../../../src/knowledge/look-alike.ts';

const SENTENCE = 'It is a made-up animal of this test.';

function critter(id: string, changes: Partial<Critter> = {}): Critter {
  const entry = Critter.parse({
    name: `The ${id}`,
    scientificName: `Exemplum ${id}`,
    rank: 'species',
    group: 'worm',
    standing: 'harmless',
    verdict: 'keep',
    howOftenMet: 'rare',
    what: SENTENCE,
    know: SENTENCE,
    does: SENTENCE,
    matters: SENTENCE,
    now: SENTENCE,
    worry: SENTENCE,
    traits: {},
    sources: { smith: ['name', 'what', 'know', 'does', 'matters', 'now', 'worry'] },
  });
  return { ...entry, id, ...changes };
}

function pair(a: string, b: string) {
  const cost = { cost: 'low', because: 'nothing is lost' };
  const entry = LookAlike.parse({
    a,
    b,
    features: [{ feature: 'Colour', a: 'Red', b: 'Blue', check: 'Look through the glass.' }],
    aTakenForB: cost,
    bTakenForA: cost,
    sources: ['smith'],
  });
  return { ...entry, id: `${a}--${b}` };
}

const question = (id: string, critterId: string, names = [id]) => ({
  id,
  names,
  mode: 'ask' as const,
  question: 'Which of these is it?',
  answers: [{ says: 'This one', critter: critterId }],
});

const smith = { id: 'smith', cite: 'Smith 1999, On pebbles', short: 'Smith 1999', standing: 'published' as const };

const whole: CompiledKnowledge = {
  format: 1,
  critters: [critter('red-worm'), critter('blue-worm')],
  corals: [],
  lookAlikes: [pair('red-worm', 'blue-worm')],
  sources: [smith],
  firstAid: [],
  ambiguousNames: [question('worm', 'red-worm')],
  parameters: [],
  reagents: [],
  fish: [],
  lifeCycles: [],
  plans: [],
  purposes: [],
  remedies: [],
  signs: [],
  chores: [],
};

const check = (changes: Partial<CompiledKnowledge>) =>
  checkLinks({ ...whole, ...changes }, (kind, id) => `${kind}/${id}`);

describe('checkLinks', () => {
  test('has no complaint about entries that fit together', () => {
    expect(check({})).toEqual([]);
  });

  test('a critter that cites an unknown source', () => {
    const critters = [critter('red-worm', { sources: { smith: ['name'], jones: ['what'] } }), critter('blue-worm')];
    expect(check({ critters })).toEqual([
      {
        file: 'critter/red-worm',
        path: ['sources', 'jones'],
        message: expect.stringMatching(/^came the source "jones", expected an id of .*sources\.yaml/),
      },
    ]);
  });

  test('a pair that cites an unknown source', () => {
    expect(check({ lookAlikes: [{ ...pair('red-worm', 'blue-worm'), sources: ['smith', 'jones'] }] })).toEqual([
      { file: 'look-alike/red-worm--blue-worm', path: ['sources'], message: expect.stringContaining('"jones"') },
    ]);
  });

  test('a source that nothing cites', () => {
    const jones = { ...smith, id: 'jones' };
    expect(check({ sources: [smith, jones] })).toEqual([
      { file: 'source/jones', path: ['jones'], message: expect.stringContaining('"jones", which no entry cites') },
    ]);
  });

  test.each([
    ['the same alias', 'Pebble worm'],
    ['in the plural and in capitals', 'PEBBLE-WORMS'],
    ['as the name of the other', 'The red-worm'],
  ])('a name of two critters: %s', (_how, alias) => {
    const critters = [critter('red-worm', { aliases: ['pebble worm'] }), critter('blue-worm', { aliases: [alias] })];
    expect(check({ critters })).toEqual([
      {
        file: 'critter/blue-worm',
        path: ['aliases'],
        message: expect.stringMatching(new RegExp(`^came the name "${alias}", which red-worm has already`)),
      },
    ]);
  });

  test('a name of a critter and of a question, or of two questions', () => {
    expect(check({ critters: [critter('red-worm', { aliases: ['worm'] }), critter('blue-worm')] })).toEqual([
      {
        file: 'critter/red-worm',
        path: ['aliases'],
        message: expect.stringContaining('the question worm has already'),
      },
    ]);
    const ambiguousNames = [question('worm', 'red-worm'), question('wriggler', 'red-worm', ['worms'])];
    expect(check({ ambiguousNames })).toHaveLength(1);
  });

  test('a critter may repeat its own name', () => {
    expect(check({ critters: [critter('red-worm', { aliases: ['the red worm'] }), critter('blue-worm')] })).toEqual([]);
  });

  test('a pair with a critter that is not there', () => {
    expect(check({ lookAlikes: [pair('red-worm', 'gone-worm')] })).toEqual([
      {
        file: 'look-alike/red-worm--gone-worm',
        path: ['b'],
        message: 'came "gone-worm", expected the id of a critter',
      },
    ]);
  });

  test('a pair written the other way round as well', () => {
    expect(check({ lookAlikes: [pair('red-worm', 'blue-worm'), pair('blue-worm', 'red-worm')] })).toEqual([
      {
        file: 'look-alike/blue-worm--red-worm',
        path: ['a'],
        message: expect.stringMatching(/the other way round, expected each pair once/),
      },
    ]);
  });

  test('a pair of one critter, and a pair under another name', () => {
    expect(check({ lookAlikes: [pair('red-worm', 'red-worm')] }).map(({ message }) => message)).toContain(
      'came the same critter twice, expected two',
    );
    expect(check({ lookAlikes: [{ ...pair('red-worm', 'blue-worm'), id: 'worms' }] })).toEqual([
      { file: 'look-alike/worms', path: ['a'], message: 'came the file name worms, expected red-worm--blue-worm' },
    ]);
  });

  test('a hazard without first aid', () => {
    const hurts = [critter('red-worm', { humanHazards: ['cut'], caution: SENTENCE }), critter('blue-worm')];
    expect(check({ critters: hurts })).toEqual([
      { file: 'critter/red-worm', path: ['humanHazards'], message: expect.stringContaining('first-aid/cut.yaml') },
    ]);
    const firstAid = [
      {
        id: 'cut',
        kind: 'critter' as const,
        met: SENTENCE,
        now: SENTENCE,
        not: SENTENCE,
        source: 'Smith 1999',
        standing: 'published' as const,
      },
    ];
    expect(check({ critters: hurts, firstAid })).toEqual([]);
  });

  test('a question that leads to a critter that is not there', () => {
    expect(check({ ambiguousNames: [question('worm', 'gone-worm')] })).toEqual([
      {
        file: 'ambiguous-name/worm',
        path: ['answers'],
        message: 'came "gone-worm", expected the id of a critter',
      },
    ]);
  });

  test('several complaints come together', () => {
    const found = check({ sources: [], ambiguousNames: [question('worm', 'gone-worm')] });
    // Two critters and one pair cite the missing source; the question is the fourth.
    expect(found).toHaveLength(4);
  });
});
