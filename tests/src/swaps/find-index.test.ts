import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { writeCustomId } from '../../../src/discord/custom-id.ts';
import { CORAL_KINDS, GROWTH_FORMS } from '../../../src/knowledge/coral-words.ts';
import { findFilter, filterArgs, readFilter, type FindFilter } from '../../../src/swaps/find-filter.ts';
import { createFindIndex, type Found } from '../../../src/swaps/find-index.ts';
import { askedOf, isSettled, lightsOf, matches } from '../../../src/swaps/find-match.ts';
import { bookmarkArg, pageOf, readBookmark, type Bookmark } from '../../../src/swaps/find-page.ts';
import { LIGHTS, type Offer } from '../../../src/swaps/offer.ts';
import { knowledge } from '../../set-up-club.ts';
import { NOW, offerOf, TODAY } from './find-stage.ts';

const NAMES = ['green torch', 'torch', 'zoas', 'Teal acro', 'monti cap', 'something odd', 'pulsing xenia', 'acorpora'];
const orNull = <T>(values: readonly T[]) => fc.constantFrom(null, ...values);
const offers = fc
  .record({
    coral: orNull(['euphyllia', 'zoanthus', 'acropora', 'xenia-coral', 'montipora-plating']),
    name: fc.constantFrom(...NAMES),
    special: orNull(['teal tips', 'six years in my tank', 'rainbow']),
    colour: orNull(['green', 'teal', 'gold']),
    cutOn: orNull(['2026-11-28', '2026-11-15', '2026-06-01']),
    light: orNull(LIGHTS),
    give: fc.boolean(),
    area: orNull(['north side', 'old town', 'Northgate']),
  })
  .chain((details) =>
    fc
      .record({ memberId: fc.constantFrom('100', '101', '102'), left: fc.constantFrom(0, 1, 2) })
      .map((rest) => offerOf(details, rest)),
  );
const filters: fc.Arbitrary<FindFilter> = fc
  .record({
    text: fc.constantFrom('', '', 'torch', 'green torch', 'tael', 'teal', 'acropora', 'zoanthus', 'stony', 'six years', '♥'), // prettier-ignore
    light: orNull([...LIGHTS]),
    growth: orNull(GROWTH_FORMS),
    kind: orNull(CORAL_KINDS),
    area: fc.constantFrom('', '', 'north', 'town'),
    settled: fc.boolean(),
    free: fc.boolean(),
  })
  // Most choices are left open, otherwise hardly anything is found.
  .chain((filter) =>
    fc.subarray(['light', 'growth', 'kind', 'settled', 'free'] as const).map((kept) => {
      const open = { light: null, growth: null, kind: null, settled: false, free: false };
      return findFilter({
        ...filter,
        ...open,
        ...Object.fromEntries(kept.slice(0, 2).map((key) => [key, filter[key]])),
      });
    }),
  );
const numbered = (list: readonly Offer[], from = 1) => list.map((offer, at) => ({ ...offer, id: from + at }));
const without: ReadonlySet<string> = new Set();

describe('the index', () => {
  test('finds exactly what matches, whatever came, changed and went before', () => {
    fc.assert(
      fc.property(
        fc.array(offers, { maxLength: 25 }),
        fc.array(offers, { maxLength: 10 }),
        filters,
        (first, changed, filter) => {
          const index = createFindIndex(knowledge());
          const now = new Map<number, Offer>();
          for (const offer of numbered(first)) now.set(offer.id, offer);
          for (const offer of now.values()) index.put(offer);
          for (const offer of numbered(changed)) {
            if (offer.left === 0) now.delete(offer.id);
            else now.set(offer.id, offer);
            index.put(offer.left === 0 ? { ...offer, state: 'withdrawn' } : offer);
          }
          const asked = askedOf(filter, knowledge());
          const blocked = new Set(['101']);
          const found = index.search(asked, { now: NOW, day: TODAY, mark: Infinity, without: blocked });
          const right = [...now.values()].filter((offer) => offer.memberId !== '101' && matches(asked, offer, knowledge(), TODAY)); // prettier-ignore
          expect(found.map(({ offer }) => offer.id).toSorted((a, b) => a - b)).toEqual(right.map(({ id }) => id).toSorted((a, b) => a - b)); // prettier-ignore
        },
      ),
      { numRuns: 150 },
    );
  });

  test('holds every choice of a filter against what an offer says', () => {
    fc.assert(
      fc.property(fc.array(offers, { maxLength: 25 }), filters, (list, filter) => {
        const index = createFindIndex(knowledge());
        for (const offer of numbered(list)) index.put(offer);
        const found = index.search(askedOf(filter, knowledge()), { now: NOW, day: TODAY, mark: Infinity, without });
        for (const { offer } of found) {
          const { details } = offer;
          if (filter.free) expect(details.give).toBe(true);
          if (filter.settled && details.cutOn !== null) expect(['2026-11-15', '2026-06-01']).toContain(details.cutOn);
          if (filter.light && details.light) expect(details.light).toBe(filter.light);
          if (filter.area === 'north') expect(details.area?.toLowerCase()).toMatch(/north/);
          if (filter.growth && details.coral) expect(knowledge().corals.get(details.coral)?.growthForm).toBe(filter.growth); // prettier-ignore
          if (filter.kind && details.coral) expect(knowledge().corals.get(details.coral)?.kind).toBe(filter.kind);
        }
      }),
      { numRuns: 150 },
    );
  });

  test('puts the exact coral first, settled before fresh, the newest first, and what is all promised last', () => {
    const index = createFindIndex(knowledge());
    const torch = { coral: 'euphyllia', name: 'Torch' };
    const list = [
      offerOf({ ...torch, cutOn: TODAY }, { id: 1 }),
      offerOf(torch, { id: 2 }),
      offerOf({ coral: 'acropora', name: 'Acro', special: 'like a torch coral' }, { id: 3 }),
      offerOf(torch, { id: 4 }),
      offerOf(torch, { id: 5, left: 0 }),
      offerOf(torch, { id: 6, expiresAt: NOW }),
      offerOf({ ...torch, name: 'Zoas', coral: 'zoanthus' }, { id: 7 }),
    ];
    for (const offer of list) index.put(offer);
    const asked = askedOf(findFilter({ text: 'Torch' }), knowledge());
    const found = index.search(asked, { now: NOW, day: TODAY, mark: Infinity, without });
    expect(found.map(({ offer }) => offer.id)).toEqual([4, 2, 1, 3, 5]);
  });

  test.each([
    ['2026-11-15', 14, true],
    ['2026-11-16', 14, false],
    ['2026-11-29', 0, true],
    [null, 14, true],
  ])('cut on %s and healing in %d days counts as settled today: %s', (cutOn, healsInDays, settled) => {
    expect(isSettled({ cutOn, healsInDays }, TODAY)).toBe(settled);
  });

  test('takes the light of the books where its member said none', () => {
    expect(lightsOf({ light: 'low' }, { lightPar: [200, 450] })).toEqual(['low']);
    expect(lightsOf({ light: null }, { lightPar: [200, 450] })).toEqual(['high']);
    expect(lightsOf({ light: null }, { lightPar: [50, 150] })).toEqual(['low', 'medium']);
    expect(lightsOf({ light: null }, undefined)).toEqual([]);
  });
});

/** Turns all pages, doing something between one and the next, and gives back the numbers shown. */
function turned(search: (mark: number) => Found[], between: (turn: number) => void, newest: () => number): number[][] {
  const mark = newest();
  const pages: number[][] = [];
  let bookmark: Bookmark | null = null;
  for (let turn = 0; turn < 100; turn += 1) {
    const page = pageOf(search(mark), bookmark);
    pages.push(page.shown.map(({ offer }) => offer.id));
    const last = page.shown.at(-1);
    if (!last || page.after === 0) return pages;
    // The way of a button: written into its id and read again.
    bookmark = readBookmark(bookmarkArg({ way: 'after', tier: last.tier, id: last.offer.id, mark, day: TODAY }));
    expect(bookmark).not.toBeNull();
    between(turn);
  }
  throw new Error('the pages never end');
}

describe('pages', () => {
  test('show everything that is there from first to last once, and nothing that has gone, whatever comes and goes', () => {
    const happenings = fc.array(fc.record({ add: fc.array(offers, { maxLength: 3 }), drop: fc.array(fc.nat(40), { maxLength: 4 }) }), { maxLength: 8 }); // prettier-ignore
    fc.assert(
      fc.property(fc.array(offers, { minLength: 6, maxLength: 30 }), happenings, filters, (list, turns, filter) => {
        const index = createFindIndex(knowledge());
        const there = new Map<number, Offer>();
        const goneAt = new Map<number, number>();
        let next = 1;
        const add = (offer: Offer) => {
          const one = { ...offer, id: next++ };
          there.set(one.id, one);
          index.put(one);
        };
        list.forEach(add);
        const asked = askedOf(filter, knowledge());
        let turnsDone = 0;
        const pages = turned(
          (mark) => index.search(asked, { now: NOW, day: TODAY, mark, without }),
          (turn) => {
            turnsDone = turn + 1;
            turns[turn]?.add.forEach(add);
            for (const id of turns[turn]?.drop ?? []) {
              if (there.delete(id)) goneAt.set(id, turn);
              index.drop(id);
            }
          },
          index.newest,
        );
        const shown = pages.flat();
        expect(new Set(shown).size).toBe(shown.length);
        const left = [...there.values()].filter((offer) => matches(asked, offer, knowledge(), TODAY)).map(({ id }) => id); // prettier-ignore
        expect(left.filter((id) => !shown.includes(id))).toEqual([]);
        pages.forEach((page, at) => {
          for (const id of page) expect(goneAt.get(id) ?? turnsDone).toBeGreaterThanOrEqual(Math.min(at, turnsDone));
        });
      }),
      { numRuns: 200 },
    );
  });

  test('lead back the same way, and say when the one they were named by has gone', () => {
    const found = Array.from({ length: 12 }, (_, at) => ({ offer: offerOf({}, { id: 12 - at }), tier: 0 }));
    const mark = { mark: 12, day: TODAY, tier: 0 };
    const ids = ({ shown }: { shown: readonly Found[] }) => shown.map(({ offer }) => offer.id);
    const second = pageOf(found, { ...mark, way: 'after', id: 8 });
    expect(second).toMatchObject({ before: 5, after: 2, gone: false });
    expect(ids(second)).toEqual([7, 6, 5, 4, 3]);
    expect(ids(pageOf(found, { ...mark, way: 'before', id: 7 }))).toEqual([12, 11, 10, 9, 8]);
    expect(ids(pageOf(found, { ...mark, way: 'from', id: 7 }))).toEqual([7, 6, 5, 4, 3]);
    const without8 = found.filter(({ offer }) => offer.id !== 8);
    expect(pageOf(without8, { ...mark, way: 'after', id: 8 })).toMatchObject({ before: 4, gone: true });
    expect(ids(pageOf(found, { ...mark, way: 'after', id: 1 }))).toEqual([]);
  });

  test.each(['', 'x', '9.0.0.0.0', '0.0.0.0', '0.-1.0.0.0', '0.0.zzzzzzzzz.0.0', '0.0.0.0.é'])(
    'a bookmark %s is none',
    (word) => {
      expect(readBookmark(word)).toBeNull();
    },
  );
});

test('a filter comes back from a button as it went in, and fits into one', () => {
  const biggest = { way: 'before', tier: 15, id: 2_000_000_000, mark: 2_000_000_000, day: '2126-01-01' } as const;
  fc.assert(
    fc.property(filters, fc.string({ maxLength: 80 }), fc.string({ maxLength: 80 }), (choices, text, area) => {
      const filter = findFilter({ ...choices, text, area });
      expect(readFilter(filterArgs(filter))).toEqual(filter);
      const full = findFilter({ ...choices, text: `${'a'.repeat(90)}${text}`, area: 'b'.repeat(90) });
      expect(writeCustomId('frag-find-one', [bookmarkArg(biggest), ...filterArgs(full)]).length).toBeLessThanOrEqual(
        100,
      );
    }),
  );
});
