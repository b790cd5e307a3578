import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { consumption, type Consumption, type ConsumptionInput } from '../../shared/consumption.ts';
import { numberIn, readReference, textIn, toleranceOf, within } from '../reference/read-csv.ts';
import { played, type Played } from './consumption-tank.ts';

const estimate = (input: ConsumptionInput): Exclude<Consumption, { kind: 'not-enough' }> => {
  const found = consumption(input);
  if (found.kind === 'not-enough') throw new Error(`no estimate: ${found.why}`);
  return found;
};
const readings = (...pairs: [day: number, value: number][]) =>
  pairs.map(([day, value]) => ({ day, value, kitError: 0.3 }));

describe('worked cases', () => {
  const rows = readReference('dosing-worked').filter((row) => textIn(row, 'kind') === 'consumption');
  const inputOf = (text: string) =>
    Object.fromEntries(text.split('; ').map((pair) => pair.split('=') as [string, string]));

  test('there are two, W-55 and W-56', () => {
    expect(rows.map((row) => textIn(row, 'id'))).toEqual(['W-55', 'W-56']);
  });

  test.each(rows)('$id: $inputs gives $expected', (row) => {
    const given = inputOf(textIn(row, 'inputs'));
    const days = Number(given['days']);
    const { perDay } = estimate({
      readings: readings([0, Number(given['alk_first_dKH'])], [days, Number(given['alk_last_dKH'])]),
      doses: [{ day: days / 2, rise: Number(given['dosed_dKH_total']) }],
    });
    expect(within(perDay, numberIn(row, 'expected'), toleranceOf(row))).toBe(true);
  });
});

describe('by hand', () => {
  test('a change mixes: 8 falls to 7.5, a fifth of new water at 10 makes 8.0, and 7.6 is read a day and a half later', () => {
    // 8 - 0.5 × 1 = 7.5; 0.8 × 7.5 + 0.2 × 10 = 8.0; 8.0 - 0.4 = 7.6 after 0.8 days at 0.5 a day.
    const found = estimate({
      readings: readings([0, 8], [1.8, 7.6]),
      waterChanges: [{ day: 1, share: 0.2, newWater: 10 }],
    });
    expect(found.perDay).toBeCloseTo(0.5, 12);
  });

  test('a dose and a change at the moment of a reading come after it', () => {
    const found = estimate({ readings: readings([0, 8], [2, 8]), doses: [0, 2].map((day) => ({ day, rise: 1 })) });
    expect(found.perDay).toBeCloseTo(0.5, 12);
  });

  test('two readings: the interval is that of the two kit errors, 0.3 × √2 over 3 days', () => {
    const found = estimate({ readings: readings([0, 8.6], [3, 7.7]) });
    expect(found).toMatchObject({ kind: 'told', by: 'kit-error', readings: 2, days: 3 });
    expect(found.high - found.perDay).toBeCloseTo((0.3 * Math.SQRT2) / 3, 12);
    expect(found.perDay - found.low).toBeCloseTo((0.3 * Math.SQRT2) / 3, 12);
  });

  test('five readings: 98 % of the interval is between the outermost slopes (Kendall: 2 × 1/120 miss)', () => {
    const found = estimate({ readings: readings([0, 9], [1, 8.4], [2, 8.1], [3, 7.4], [4, 7]) });
    // The ten slopes: .6 .45 .533 .5 .3 .5 .4667 .7 .55 .4
    expect(found).toMatchObject({ by: 'spread', readings: 5 });
    expect(found.low).toBeCloseTo(0.3, 12);
    expect(found.high).toBeCloseTo(0.7, 12);
    expect(found.perDay).toBeCloseTo(0.5, 12);
  });

  test('readings of one moment are averaged', () => {
    const found = estimate({ readings: readings([0, 8.4], [0, 8.6], [1, 8]) });
    expect(found.perDay).toBeCloseTo(0.5, 12);
    expect(found.high - found.perDay).toBeCloseTo(Math.hypot(0.3, 0.3 / Math.SQRT2), 12);
  });
});

describe('repeated and contradictory readings', () => {
  test('within six hours they are one test, at the mean of their times', () => {
    const found = estimate({ readings: readings([0, 8.4], [0.2, 8.6], [1.1, 8]) });
    expect(found).toMatchObject({ readings: 2, days: 1 });
    expect(found.perDay).toBeCloseTo(0.5, 12);
    expect(consumption({ readings: readings([0, 8], [0.2, 7.6]) })).toMatchObject({ why: 'one-moment' });
  });

  test('before and after a dose they are two', () => {
    const found = estimate({ readings: readings([0, 8], [0.1, 9]), doses: [{ day: 0.05, rise: 1.05 }] });
    expect(found).toMatchObject({ readings: 2 });
    expect(found.perDay).toBeCloseTo(0.5, 9);
  });

  test('three that contradict each other widen the interval until it holds what each pair could be', () => {
    const agreeing = estimate({ readings: readings([0, 9], [3, 7.5], [6, 6]) });
    const contradicting = estimate({ readings: readings([0, 9], [3, 8.7], [6, 6]) });
    expect(agreeing.perDay).toBeCloseTo(contradicting.perDay, 12);
    expect(agreeing.high - agreeing.low).toBeCloseTo((2 * 0.3 * Math.SQRT2) / 6, 12);
    // Slopes 0.1, 0.9 and 0.5: the outer ones are off by 0.4, that is 2.83 of their half-width 0.1414.
    expect(contradicting.high - contradicting.low).toBeCloseTo(((2 * 0.3 * Math.SQRT2) / 6) * (0.4 / 0.1414214), 5);
  });
});

describe('says honestly when it cannot tell', () => {
  test.each<[string, ConsumptionInput, string]>([
    ['no reading', { readings: [] }, 'one-reading'],
    ['one reading', { readings: readings([0, 8]) }, 'one-reading'],
    ['two at one moment', { readings: readings([0, 8], [0, 8.2]) }, 'one-moment'],
    [
      'a change of unknown water between',
      { readings: readings([0, 8], [4, 7]), waterChanges: [{ day: 2, share: 0.1, newWater: null }] },
      'water-changed',
    ],
    [
      'nearly all water new',
      { readings: readings([0, 8], [4, 7]), waterChanges: [{ day: 2, share: 1, newWater: 8 }] },
      'water-changed',
    ],
  ])('%s', (_name, input, why) => {
    expect(consumption(input)).toMatchObject({ kind: 'not-enough', why });
  });

  test('a fall within the kit error is unclear, and stays so when it turns out to be a rise', () => {
    expect(consumption({ readings: readings([0, 8], [1, 7.8]) })).toMatchObject({ kind: 'unclear' });
    expect(consumption({ readings: readings([0, 8], [1, 8.2]) })).toMatchObject({ kind: 'unclear' });
  });

  test('a rise beyond it is told, as negative consumption', () => {
    expect(estimate({ readings: readings([0, 8], [1, 9]) })).toMatchObject({ kind: 'told', perDay: -1 });
  });

  test('pairs on both sides of an unknown change count, none across it', () => {
    const found = estimate({
      readings: readings([0, 8], [1, 7.5], [2, 9.9], [3, 9.4]),
      waterChanges: [{ day: 1.5, share: 0.5, newWater: null }],
    });
    expect(found.perDay).toBeCloseTo(0.5, 12);
    expect(found).toMatchObject({ readings: 4, days: 3, by: 'kit-error' });
  });

  test.each([
    { readings: [{ day: 0, value: Number.NaN, kitError: 0 }] },
    { readings: [{ day: Number.POSITIVE_INFINITY, value: 1, kitError: 0 }] },
    { readings: [{ day: 0, value: 1, kitError: -1 }] },
    { readings: readings([0, 1], [1, 2]), waterChanges: [{ day: 0, share: 1.2, newWater: 1 }] },
    { readings: readings([0, 1], [1, 2]), doses: [{ day: 0, rise: Number.NaN }] },
  ])('a mistake of the caller is thrown: %j', (input) => {
    expect(() => consumption(input)).toThrow(RangeError);
  });
});

describe('without errors', () => {
  test('the rate is found exactly, whatever was dosed and changed', () => {
    const day = fc.double({ min: 0, max: 30, noNaN: true });
    const amount = fc.double({ min: 0.01, max: 2, noNaN: true });
    const tank = fc.record({
      days: fc.uniqueArray(fc.integer({ min: 0, max: 60 }), { minLength: 2, maxLength: 15 }),
      perDay: fc.double({ min: -1, max: 2, noNaN: true }),
      doses: fc.array(fc.record({ day, rise: amount }), { maxLength: 10 }),
      changes: fc.array(fc.record({ day, share: fc.double({ min: 0.01, max: 0.2, noNaN: true }), newWater: amount }), {
        maxLength: 5,
      }),
    });
    fc.assert(
      fc.property(tank, ({ days, perDay, doses, changes }) => {
        const at = days.map((half) => half / 2 + 0.013);
        const input = { readings: withoutErrors(at, perDay, doses, changes), doses, waterChanges: changes };
        expect(estimate(input).perDay).toBeCloseTo(perDay, 6);
      }),
      { numRuns: 300 },
    );
  });
});

/** Follows the water from event to event, as it happens. */
function withoutErrors(
  days: readonly number[],
  perDay: number,
  doses: readonly { day: number; rise: number }[],
  changes: readonly { day: number; share: number; newWater: number }[],
) {
  return days.map((day) => {
    const events = [...doses, ...changes].filter((event) => event.day < day).sort((one, other) => one.day - other.day);
    let [value, now] = [8, 0];
    for (const event of events) {
      value -= perDay * (event.day - now);
      value = 'rise' in event ? value + event.rise : (1 - event.share) * value + event.share * event.newWater;
      now = event.day;
    }
    return { day, value: value - perDay * (day - now), kitError: 0.3 };
  });
}

/** How often the interval holds the true rate, and how far the estimate is off in the middle (root of the mean square). */
function measured(tank: Played, runs = 1_000) {
  const found = Array.from({ length: runs }, (_, n) => estimate(played(tank, 17 + n * 7_919)));
  const held = found.filter(({ low, high }) => low <= tank.perDay && tank.perDay <= high).length / runs;
  const error = Math.sqrt(found.reduce((total, { perDay }) => total + (perDay - tank.perDay) ** 2, 0) / runs);
  return { held, error };
}

describe('simulated tanks', () => {
  const dose = { rise: 0.7, every: 1 };
  const change = { share: 0.1, every: 7, newWater: 8.5 };
  const tanks: [string, Played, mostError: number][] = [
    ['two readings', { readings: 2, every: 4, perDay: 0.7, kitError: 0.4 }, 0.08],
    ['three readings', { readings: 3, every: 3, perDay: 0.7, kitError: 0.4 }, 0.06],
    ['four readings, dosed and changed', { readings: 4, every: 3, perDay: 0.7, kitError: 0.4, dose, change }, 0.05],
    ['five readings', { readings: 5, every: 2, perDay: 0.7, kitError: 0.4, dose }, 0.05],
    ['eight readings, dosed', { readings: 8, every: 3, perDay: 0.7, kitError: 0.4, dose }, 0.02],
    ['twelve, dosed and changed', { readings: 12, every: 3, perDay: 0.7, kitError: 0.4, dose, change }, 0.01],
    [
      'a month of big changes',
      { readings: 12, every: 3, perDay: 0.7, kitError: 0.4, dose, change: { ...change, share: 0.2 } },
      0.015,
    ],
  ];
  test.each(tanks)('%s: the interval holds the truth in 93 % or more of 1,000', (_name, tank, mostError) => {
    const { held, error } = measured(tank);
    expect(held).toBeGreaterThanOrEqual(0.93);
    expect(error).toBeLessThan(mostError);
  });

  // One reading in five is wrong by 1 to 3 dKH: seven kit errors on average.
  const gross = { gross: 0.2, grossSize: 2 };
  test.each<[string, Played, number]>([
    ['eight readings', { readings: 8, every: 3, perDay: 0.7, kitError: 0.3, dose, ...gross }, 0.09],
    [
      'twelve readings and changes',
      { readings: 12, every: 3, perDay: 0.7, kitError: 0.3, dose, change, ...gross },
      0.05,
    ],
  ])(
    '%s with 20 %% gross errors: the same, and nearer than the straight line of least squares',
    (_name, tank, most) => {
      const { held, error } = measured(tank);
      expect(held).toBeGreaterThanOrEqual(0.93);
      expect(error).toBeLessThan(most);
      expect(error).toBeLessThan(0.6 * leastSquaresError(tank));
    },
  );
});

/** What a plain straight line would be off by, given what is dosed; it knows of no changes. */
function leastSquaresError(tank: Played, runs = 1_000): number {
  const plain: Played = { ...tank };
  delete plain.change;
  const errors = Array.from({ length: runs }, (_, n) => {
    const { readings: points, doses = [] } = played(plain, 17 + n * 7_919);
    const level = points.map(({ day, value }) => ({
      x: day,
      y: value - doses.filter((each) => each.day < day).reduce((total, { rise }) => total + rise, 0),
    }));
    const [meanX, meanY] = (['x', 'y'] as const).map(
      (axis) => level.reduce((total, point) => total + point[axis], 0) / level.length,
    ) as [number, number];
    const up = level.reduce((total, { x, y }) => total + (x - meanX) * (y - meanY), 0);
    const down = level.reduce((total, { x }) => total + (x - meanX) ** 2, 0);
    return -up / down - tank.perDay;
  });
  return Math.sqrt(errors.reduce((total, error) => total + error ** 2, 0) / runs);
}
