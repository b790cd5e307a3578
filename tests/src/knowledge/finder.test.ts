import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { createFinder } from '../../../src/knowledge/finder.ts';
import { indexKnowledge } from '../../../src/knowledge/knowledge-base.ts';
import { normaliseName } from '../../../src/knowledge/normalise.ts';
import { everyName, finder, loaded } from './real-base.ts';

const first = (typed: string) => finder.nearest(typed, 1)[0]?.target;

describe('exact', () => {
  test('every name and alias leads to its own entry, however it is written', () => {
    const astray = everyName.flatMap(({ text, kind, id }) =>
      [text, text.toUpperCase(), ` ${text}! `, text.replaceAll(' ', '  ')].filter((typed) => {
        const found = finder.exact(typed);
        return found?.kind !== kind || found.id !== id;
      }),
    );
    expect(astray).toEqual([]);
  });

  test('every entry id leads to its entry', () => {
    const astray = loaded.knowledge.critters.filter(({ id }) => finder.exact(id)?.id !== id).map(({ id }) => id);
    expect(astray).toEqual([]);
  });

  test('spaces do not count, an unknown name is undefined', () => {
    expect(finder.exact('bristleworm')).toEqual({ kind: 'critter', id: 'bristleworm-common' });
    expect(finder.exact('bristle worm')).toEqual({ kind: 'critter', id: 'bristleworm-common' });
    expect(finder.exact('garden gnome')).toBeUndefined();
    expect(finder.exact('')).toBeUndefined();
  });
});

describe('nearest', () => {
  test('every name and alias is nearest to its own entry', () => {
    const astray = everyName.filter(({ text, id }) => first(text)?.id !== id).map(({ text }) => text);
    expect(astray).toEqual([]);
  });

  test('the order of the words does not count', () => {
    const turned = everyName
      .filter(({ text }) => normaliseName(text).split(' ').length === 2)
      .map(({ text, id }) => ({ typed: normaliseName(text).split(' ').reverse().join(' '), id }))
      .filter(({ typed }) => !finder.exact(typed));
    expect(turned.length).toBeGreaterThan(300);
    expect(turned.filter(({ typed, id }) => first(typed)?.id !== id)).toEqual([]);
  });

  test.each([
    ['bristle worms', 'bristleworm-common'],
    ['crowns of thorns', 'crown-of-thorns'],
    ['astrina stars', 'asterina-harmless'],
    ['worm, bristle', 'bristleworm-common'],
    ['bristlewurm', 'bristleworm-common'],
    ['majanno', 'majano'],
  ])('%s is nearest to %s', (typed, id) => {
    expect(first(typed)?.id).toBe(id);
  });

  test('a name is offered once its first two thirds are typed', () => {
    const long = everyName.filter(({ text }) => normaliseName(text).length >= 10);
    const found = long.filter(({ text, id }) => {
      const name = normaliseName(text);
      return finder.nearest(name.slice(0, Math.ceil((name.length * 2) / 3)), 10).some(({ target }) => target.id === id);
    });
    expect(long.length).toBeGreaterThan(500);
    // Measured: every one. A new name may share its beginning with many others.
    expect(found.length / long.length).toBeGreaterThanOrEqual(0.98);
  });

  test('gives at most so many, each target once, best first', () => {
    for (const typed of ['crab', 'worm', 'anemone', 'a', 'bristle']) {
      const matches = finder.nearest(typed, 7);
      const keys = matches.map(({ target }) => `${target.kind} ${target.id}`);
      expect(matches.length).toBeLessThanOrEqual(7);
      expect(new Set(keys).size).toBe(keys.length);
      const scores = matches.map(({ score }) => score);
      expect(scores).toEqual([...scores].sort((one, other) => other - one));
    }
  });

  test('asking in between changes nothing', () => {
    const before = finder.nearest('flat wrm', 5);
    finder.nearest('something else entirely', 25);
    expect(finder.nearest('flat wrm', 5)).toEqual(before);
  });

  test('nothing typed, and an empty base, give nothing', () => {
    expect(finder.nearest('  !? ', 5)).toEqual([]);
    const empty = createFinder(
      indexKnowledge({
        format: 1,
        critters: [],
        corals: [],
        lookAlikes: [],
        sources: [],
        firstAid: [],
        ambiguousNames: [],
        parameters: [],
        reagents: [],
        fish: [],
        lifeCycles: [],
        plans: [],
        purposes: [],
        remedies: [],
        signs: [],
        chores: [],
      }),
    );
    expect(empty.nearest('crab', 5)).toEqual([]);
    expect(empty.exact('crab')).toBeUndefined();
  });
});

describe('names as hurried keepers type them', () => {
  const rows = readFileSync('tests/reference/typed-names.csv', 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .slice(1)
    .map((line) => /^(?<typed>.*),(?<entry>[a-z0-9-]+)$/.exec(line.trim())?.groups ?? {})
    .map(({ typed = '', entry = '' }) => ({
      typed,
      entry,
      found: finder.nearest(typed, 3).map(({ target }) => target.id),
    }));
  const missed = (most: number) =>
    rows.filter(({ entry, found }) => !found.slice(0, most).includes(entry)).map(({ typed }) => typed);

  test('the table has 200 rows and names real entries only', () => {
    expect(rows).toHaveLength(200);
    const known = new Set(everyName.map(({ id }) => id));
    expect(rows.filter(({ entry }) => !known.has(entry))).toEqual([]);
  });

  test('at least 95 % find the entry first and 98 % among three', () => {
    expect(missed(1).length, `not first: ${missed(1).join(', ')}`).toBeLessThanOrEqual(10);
    expect(missed(3).length, `not in three: ${missed(3).join(', ')}`).toBeLessThanOrEqual(4);
  });
});
