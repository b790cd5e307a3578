import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { STANDINGS_OF_SOURCES } from '../../../src/knowledge/source.ts';
import { loadKnowledge } from '../../../src/knowledge/knowledge.loader.ts';
import { longestDays, shortestDays, type Curve, type LifeCycleRow } from '../../../src/quarantine/life-cycle-days.ts';
import { readReference, textIn } from '../../reference/read-csv.ts';

const { knowledge } = loadKnowledge('knowledge');
const lifeCycles = new Map(knowledge.lifeCycles.map((each) => [each.id, each]));

function lifeCycle(id: string) {
  const found = lifeCycles.get(id);
  if (!found) throw new Error(`no life cycle ${id}`);
  return found;
}

const row = (temperatureC: number | null, lowDays: number | null, highDays: number | null): LifeCycleRow => ({
  temperatureC,
  lowDays,
  highDays,
  endpoint: 'made up for a test',
  source: 'common-practice',
  standing: 'published',
});
const line = (...rows: LifeCycleRow[]): Curve => ({ between: 'line', rows });
const step = (...rows: LifeCycleRow[]): Curve => ({ between: 'step', rows });
const days = (got: ReturnType<typeof shortestDays>) => (got.kind === 'days' ? got.days : undefined);

describe('between the published temperatures', () => {
  const curve = line(row(20, 10, 20), row(24, 6, 12), row(30, 3, 9));
  test.each([
    [20, 10, 20],
    [22, 8, 16],
    [24, 6, 12],
    [26, 5, 11],
    [30, 3, 9],
  ])('at %d °C the line gives %d to %d days', (temperatureC, shortest, longest) => {
    expect(days(shortestDays(curve, temperatureC))).toBe(shortest);
    expect(days(longestDays(curve, temperatureC))).toBe(longest);
  });
  test('a thermometer may be off by 0.5 °C: the warmer row counts for the shortest, the colder for the longest', () => {
    expect(days(shortestDays(curve, 23.5))).toBe(6);
    expect(days(shortestDays(curve, 23.4))).toBeCloseTo(6.6, 9);
    expect(days(longestDays(curve, 24.5))).toBe(12);
    expect(days(longestDays(curve, 24.6))).toBeCloseTo(11.7, 9);
  });
  test('rows used are told, with the weakest of their standings', () => {
    const mixed = line(row(20, 10, 20), { ...row(24, 6, 12), standing: 'common-practice' });
    expect(shortestDays(mixed, 22)).toMatchObject({ rows: mixed.rows, standing: 'common-practice' });
    expect(shortestDays(mixed, 20)).toMatchObject({ rows: [mixed.rows[0]], standing: 'published' });
  });
  test('of two works at one temperature the careful figure counts, at both ends', () => {
    const two = line(row(20, 10, 20), row(24, 6, 12), row(24, 7, 14));
    expect(days(shortestDays(two, 22))).toBe(8);
    expect(days(longestDays(two, 22))).toBe(17);
  });
});

describe('windows in steps', () => {
  const curve = step(row(24, 6, 8), row(25, 6, 7), row(28, 5, 6), row(28.4, 4, 5));
  test.each([
    [24, 8, 6],
    [24.2, 7, 6],
    [26, 6, 6],
    [27.8, 6, 6],
    // From here the next row but one lies within the error of the thermometer.
    [27.9, 5, 6],
    [28, 5, 5],
    [28.4, 5, 5],
  ])('at %d °C the latest day is %d by the row above, the earliest %d by the row below', (t, latest, earliest) => {
    expect(days(shortestDays(curve, t))).toBe(latest);
    expect(days(longestDays(curve, t))).toBe(earliest);
  });
});

describe('no data', () => {
  const curve = line(row(7, null, null), row(20, 10, 20), row(24, 6, 12), row(null, 1, 99));
  test.each([7, 15, 19.9, 24.1, 37, Number.NaN])('%d °C was not studied', (temperatureC) => {
    const noData = { kind: 'no-data', studied: [20, 24], temperatureC };
    expect(shortestDays(curve, temperatureC)).toEqual(noData);
    expect(longestDays(curve, temperatureC)).toEqual(noData);
  });
  test('one temperature holds for 1 °C to either side', () => {
    const one = line(row(25, 5, 6));
    for (const temperatureC of [24, 25, 26]) {
      expect(days(shortestDays(one, temperatureC))).toBe(5);
      expect(days(longestDays(one, temperatureC))).toBe(6);
    }
    for (const temperatureC of [23.9, 26.1])
      expect(shortestDays(one, temperatureC)).toEqual({ kind: 'no-data', studied: [25, 25], temperatureC });
  });
  test('a stage that is only told gives no figure, not even at its own temperature', () => {
    const noData = { kind: 'no-data', studied: null, temperatureC: 25 };
    expect(shortestDays({ between: 'not-at-all', rows: [row(25, 5, 6)] }, 25)).toEqual(noData);
  });
  test('a reading in °F meets the studied temperature', () => {
    expect(days(longestDays(curve, ((75.2 - 32) * 5) / 9))).toBe(12);
    expect(days(longestDays(curve, ((68 - 32) * 5) / 9))).toBe(20);
    expect(days(shortestDays(lifeCycle('neobenedenia-maturity'), ((71.6 - 32) * 5) / 9))).toBe(9);
    expect(days(shortestDays(lifeCycle('neobenedenia-maturity'), ((89.6 - 32) * 5) / 9))).toBe(5);
  });
});

/** A curve that falls, or stays, as it gets warmer; temperatures in tenths. */
const curves = fc
  .record({
    between: fc.constantFrom('line' as const, 'step' as const),
    tenths: fc.uniqueArray(fc.integer({ min: 150, max: 340 }), { minLength: 1, maxLength: 8 }),
    falls: fc.array(fc.tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 40 })), {
      minLength: 8,
      maxLength: 8,
    }),
  })
  .map(({ between, tenths, falls }): Curve => {
    let [low, high] = [1, 2];
    const rows = tenths
      .sort((a, b) => b - a)
      .map((tenth, index) => {
        const [fallOfLow = 0, fallOfHigh = 0] = falls[index] ?? [];
        [low, high] = [low + fallOfLow, high + fallOfHigh];
        return row(tenth / 10, low, high);
      });
    return { between, rows };
  });
const reading = fc.integer({ min: 100, max: 400 }).map((tenth) => tenth / 10);

describe('whatever the curve', () => {
  test('warmer never lengthens the shortest, colder never shortens the longest', () => {
    fc.assert(
      fc.property(curves, reading, reading, (curve, a, b) => {
        const [cold, warm] = [Math.min(a, b), Math.max(a, b)];
        const [early, late] = [days(shortestDays(curve, warm)), days(shortestDays(curve, cold))];
        if (early !== undefined && late !== undefined) expect(early).toBeLessThanOrEqual(late + 1e-9);
        const [atCold, atWarm] = [days(longestDays(curve, cold)), days(longestDays(curve, warm))];
        if (atCold !== undefined && atWarm !== undefined) expect(atCold).toBeGreaterThanOrEqual(atWarm - 1e-9);
      }),
      { numRuns: 2000 },
    );
  });
  test('nothing is said outside the studied temperatures, and always something inside', () => {
    fc.assert(
      fc.property(curves, reading, (curve, temperatureC) => {
        const studied = curve.rows.map((each) => each.temperatureC ?? Number.NaN);
        const around = studied.length === 1 ? 1 : 0;
        const inside =
          temperatureC >= Math.min(...studied) - around - 1e-9 && temperatureC <= Math.max(...studied) + around + 1e-9;
        expect(shortestDays(curve, temperatureC).kind).toBe(inside ? 'days' : 'no-data');
        expect(longestDays(curve, temperatureC).kind).toBe(inside ? 'days' : 'no-data');
      }),
      { numRuns: 2000 },
    );
  });
  test('a figure lies between those of its rows, and is never on the bold side of the line', () => {
    fc.assert(
      fc.property(curves, reading, (curve, temperatureC) => {
        const got = shortestDays({ ...curve, between: 'line' }, temperatureC);
        if (got.kind === 'no-data') return;
        const below = curve.rows.filter((each) => (each.temperatureC ?? 0) <= temperatureC);
        for (const each of below) expect(got.days).toBeLessThanOrEqual((each.lowDays ?? 0) + 1e-9);
        expect(got.days).toBeGreaterThanOrEqual(Math.min(...got.rows.map((each) => each.lowDays ?? 0)) - 1e-9);
      }),
    );
  });
});

describe('what the club knows', () => {
  const told = readReference('life-cycles');
  const STANDING = new Map([
    ['published', 'published'],
    ['common practice', 'common-practice'],
    ['from memory', 'from-memory'],
  ]);
  const numberOrNull = (text: string) => (text === '' ? null : Number(text));

  test('every row of the list stands in its entry, and no entry has another', () => {
    expect(told).toHaveLength(143);
    for (const each of told) {
      const entry = lifeCycle(textIn(each, 'entry'));
      const inWords = textIn(each, 'told_in_words');
      expect(entry.rows[Number(textIn(each, 'row')) - 1], textIn(each, 'entry')).toMatchObject({
        temperatureC: inWords === 'temperature' ? null : numberOrNull(textIn(each, 'temperature_C')),
        lowDays: numberOrNull(textIn(each, 'duration_low_days')),
        highDays: inWords === 'high' ? null : numberOrNull(textIn(each, 'duration_high_days')),
      });
    }
    const rows = knowledge.lifeCycles.reduce((sum, each) => sum + each.rows.length, 0);
    expect(rows).toBe(told.length);
  });
  test('what is counted with is what the list lets be counted with', () => {
    for (const each of told) {
      const expected = { yes: 'line', step: 'step', no: 'not-at-all' }[textIn(each, 'interpolate')];
      const { between, rows } = lifeCycle(textIn(each, 'entry'));
      const counted = rows[Number(textIn(each, 'row')) - 1];
      const counts = counted?.temperatureC !== null && (counted?.lowDays !== null || counted.highDays !== null);
      // A row that is only told may stand beside a curve where it has nothing to count with.
      if (counts) expect(between, textIn(each, 'entry')).toBe(expected);
    }
  });
  test('no standing is better than in the list, and one is lower because no work was looked at', () => {
    const rank = (standing: string | undefined) => STANDINGS_OF_SOURCES.findIndex((each) => each === standing);
    const lowered = told.filter((each) => {
      const standing = lifeCycle(textIn(each, 'entry')).rows[Number(textIn(each, 'row')) - 1]?.standing;
      const inList = STANDING.get(textIn(each, 'status'));
      expect(rank(standing)).toBeGreaterThanOrEqual(rank(inList));
      return standing !== inList;
    });
    expect(lowered.map((each) => textIn(each, 'entry'))).toEqual(['uronema-free-living']);
  });
  test.each(knowledge.lifeCycles.filter(({ between }) => between !== 'not-at-all').map((each) => [each.id, each]))(
    '%s never rises as it gets warmer',
    (_id, { rows }) => {
      const counted = rows
        .filter((each) => each.temperatureC !== null)
        .sort((a, b) => (a.temperatureC ?? 0) - (b.temperatureC ?? 0));
      for (const end of ['lowDays', 'highDays'] as const) {
        const figures = counted.flatMap((each) => each[end] ?? []);
        expect(figures).toEqual([...figures].sort((a, b) => b - a));
      }
    },
  );
  test('15 °C gives no data in any curve of a reef parasite', () => {
    const atFifteen = knowledge.lifeCycles.filter((each) => days(longestDays(each, 15)) !== undefined);
    // Eggs of a fluke of farmed fish were studied in water that cold.
    expect(atFifteen.map(({ id }) => id)).toEqual(['benedenia-first-hatch']);
    expect(longestDays(lifeCycle('neobenedenia-last-hatch'), 15)).toMatchObject({ kind: 'no-data', studied: [22, 32] });
    expect(shortestDays(lifeCycle('neobenedenia-first-hatch'), 15).kind).toBe('no-data');
  });
  // Barton et al. 2019: 64 days at 24 °C, 38 at 27 °C; the days between are worked out by hand.
  test.each([
    [24, 64],
    [25, 55.33],
    [25.5, 51],
    [26, 46.67],
    [27, 38],
  ])('at %d °C a generation of the Acropora flatworm takes %d days', (temperatureC, expected) => {
    expect(days(longestDays(lifeCycle('prosthiostomum-generation'), temperatureC))).toBeCloseTo(expected, 2);
  });
  test('nobody saw the last cysts open at 20 and 25 °C, so there is no longest time', () => {
    const tomont = lifeCycle('cryptocaryon-tomont');
    expect(longestDays(tomont, 25)).toEqual({ kind: 'no-data', studied: [30, 30], temperatureC: 25 });
    expect(days(shortestDays(tomont, 27))).toBeCloseTo(6.8, 9);
  });
  test('no plan takes a limit from cysts of which only many, not the first and the last, were seen to open', () => {
    // Wherever a plan names a curve: in steps, runs or holds.
    const taken = [...JSON.stringify(knowledge.plans).matchAll(/"lifeCycle":"([^"]+)"/g)].map(([, id]) => id);
    expect(taken).not.toContain('cryptocaryon-tomont');
  });
});
