import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isGrave, lookUp } from '../../../src/knowledge/look-up.ts';
import { normaliseName } from '../../../src/knowledge/normalise.ts';
import { anyText } from './any-text.ts';
import { base, everyName, finder, loaded } from './real-base.ts';

const ask = (typed: string) => lookUp(base, finder, typed);
const tight = (text: string) => normaliseName(text).replaceAll(' ', '');

describe('a name of the base', () => {
  test('finds its entry, under every name that means one animal', () => {
    const names = everyName.filter(({ kind }) => kind === 'critter');
    const astray = names.filter(({ text, id }) => {
      const found = ask(text);
      return found.kind !== 'found' || found.critter.id !== id;
    });
    expect(astray).toEqual([]);
  });

  test('asks back where it means several', () => {
    for (const question of loaded.knowledge.ambiguousNames.filter(({ mode }) => mode !== 'whole-query-only'))
      for (const name of question.names) expect(ask(` ${name} `)).toEqual({ kind: 'question', question, typed: name });
  });

  test('an everyday word is read as the first answer, and says so', () => {
    const everyday = loaded.knowledge.ambiguousNames.filter(
      ({ mode, answers }) => mode === 'whole-query-only' && answers.some((answer) => 'critter' in answer),
    );
    expect(everyday.length).toBeGreaterThan(5);
    for (const { names, answers } of everyday)
      for (const name of names) {
        const found = ask(name);
        const ids = answers.flatMap((answer) => ('critter' in answer ? answer.critter : []));
        expect(found).toMatchObject({ kind: 'read-as', critter: { id: ids[0] }, everyday: true });
        const others = found.kind === 'read-as' ? found.others.map(({ id }) => id) : [];
        expect(others).toEqual(ids.slice(1));
      }
  });
});

describe('a name that is not in the base', () => {
  test('is never taken for an everyday word that is spelt nearly like it', () => {
    const everyday = loaded.knowledge.ambiguousNames.filter(({ mode }) => mode === 'whole-query-only');
    const slips = everyday
      .flatMap(({ names }) => names)
      .flatMap((name) => [...name].map((_letter, at) => without(name, at)))
      .filter((typed) => !finder.exact(typed));
    expect(slips.length).toBeGreaterThan(50);
    for (const typed of slips) expect(ask(typed), typed).not.toMatchObject({ everyday: true });
  });

  test('with a slip in it is read as an ordinary entry, told as typed', () => {
    expect(ask(' bristlewrm ')).toMatchObject({
      kind: 'read-as',
      critter: { id: 'bristleworm-common' },
      typed: 'bristlewrm',
    });
  });

  test.each(['xyzzyq plugh', 'garden gnome', 'toaster', 'q'])('%s gives at most three of the nearest', (typed) => {
    const found = ask(typed);
    expect(found.kind).toBe('not-there');
    expect(found.kind === 'not-there' ? found.nearest.length : 99).toBeLessThanOrEqual(3);
    expect(found.kind === 'not-there' ? found.typed : '').toBe(typed);
  });

  test.each(['', '   ', '?!', '🦀', '海星'])('%j is nothing typed', (typed) => {
    expect(ask(typed)).toEqual({ kind: 'nothing-typed' });
  });

  test('of four letters or fewer is never read as anything', () => {
    const short = fc.stringMatching(/^[a-z]{1,4}$/).filter((typed) => !finder.exact(typed));
    const nearShort = fc
      .constantFrom(...everyName.map(({ text }) => tight(text)).filter((name) => name.length <= 5))
      .chain((name) => slipIn(name))
      .filter((typed) => tight(typed).length <= 4 && !finder.exact(typed));
    fc.assert(
      fc.property(fc.oneof(short, nearShort), (typed) => {
        expect(['not-there', 'nothing-typed']).toContain(ask(typed).kind);
      }),
      { numRuns: 400 },
    );
  });

  test('leads to at most three, whatever is typed', () => {
    fc.assert(
      fc.property(anyText(120), (typed) => {
        const found = ask(typed);
        if (found.kind === 'not-there') expect(found.nearest.length).toBeLessThanOrEqual(3);
        if (found.kind === 'read-as') expect(found.others.length).toBeLessThanOrEqual(2);
      }),
    );
  });
});

describe('an entry whose advice is to act today', () => {
  const urgent = loaded.knowledge.critters.filter(({ verdict }) => verdict === 'urgent');
  const names = urgent.flatMap(({ name, aliases }) => [name, ...aliases]).filter((name) => tight(name).length >= 5);

  test('is grave, and there are names to try', () => {
    expect(urgent.length).toBeGreaterThan(20);
    expect(names.length).toBeGreaterThan(100);
    expect(urgent.every(isGrave)).toBe(true);
  });

  /** Nothing was taken for granted: no entry, or one whose name begins with exactly what was typed. */
  function expectNoReading(typed: string) {
    const found = ask(typed);
    const kinds = found.kind === 'read-as' ? [found.critter.name, ...found.critter.aliases] : [];
    const halfTyped = kinds.some((name) => tight(name).startsWith(tight(typed)));
    const urgentRead = 'critter' in found && found.critter.verdict === 'urgent';
    expect(urgentRead, `${typed} was read as an act-today entry`).toBe(false);
    expect(halfTyped ? 'not-there' : found.kind, typed).toMatch(/^(not-there|question)$/);
  }

  test('is never read from a name with a letter missing, or two swapped, at any place', () => {
    const slips = names
      .map((name) => name.toLowerCase())
      .flatMap((name) => [...name].map((_letter, at) => (at % 2 === 0 ? without : swapped)(name, at)))
      .filter((typed) => !finder.exact(typed));
    expect(slips.length).toBeGreaterThan(1_500);
    for (const typed of slips) expectNoReading(typed);
  });

  test('is never read from a name with any one slip', () => {
    const slips = fc
      .constantFrom(...names.map((name) => name.toLowerCase()))
      .chain(slipIn)
      .filter((typed) => !finder.exact(typed));
    fc.assert(fc.property(slips, expectNoReading), { numRuns: 1_000 });
  });

  test('is offered when its name has a slip in it', () => {
    for (const typed of ['blue ringed octapus', 'cone snaill', 'marine velvat']) {
      const found = ask(typed);
      expect(found.kind === 'not-there' ? found.nearest.map(({ verdict }) => verdict) : []).toContain('urgent');
    }
  });
});

const without = (name: string, at: number) => name.slice(0, at) + name.slice(at + 1);
const swapped = (name: string, at: number) =>
  name.slice(0, at) + (name[at + 1] ?? '') + (name[at] ?? '') + name.slice(at + 2);

/** A name with one letter dropped, added, changed, or swapped with its neighbour. */
function slipIn(name: string): fc.Arbitrary<string> {
  const place = fc.nat({ max: name.length - 1 });
  const letter = fc.stringMatching(/^[a-z]$/);
  return fc.oneof(
    place.map((at) => without(name, at)),
    place.map((at) => swapped(name, at)),
    fc.tuple(place, letter).map(([at, added]) => name.slice(0, at) + added + name.slice(at)),
    fc.tuple(place, letter).map(([at, changed]) => name.slice(0, at) + changed + name.slice(at + 1)),
  );
}
