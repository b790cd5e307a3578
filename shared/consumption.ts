import { inversionsAtMost } from './inversions.ts';

/** `kitError`: what the test may be off by either way; taken as the half-width of a 95 % interval. */
export type MeasuredValue = { day: number; value: number; kitError: number };
export type ConsumptionInput = {
  readings: readonly MeasuredValue[];
  doses?: readonly { day: number; rise: number }[];
  /** `newWater`: the value of the water that came in; null when nobody knows. */
  waterChanges?: readonly { day: number; share: number; newWater: number | null }[];
};

export type Consumption =
  | { kind: 'not-enough'; why: 'one-reading' | 'one-moment' | 'water-changed'; readings: number }
  | {
      /** `unclear`: the interval holds zero, so nobody can say whether anything is used up. */
      kind: 'told' | 'unclear';
      /** Positive when it is used up. */
      perDay: number;
      low: number;
      high: number;
      /** Where the interval comes from: the spread of many readings, or what the tests may be off by. */
      by: 'spread' | 'kit-error';
      /** How many readings, at different moments, the estimate rests on, and over how many days. */
      readings: number;
      days: number;
    };

/** The chance with which an interval may miss. */
const MISS = 0.05;
/** When less than this share of the water is left from before, what was measured before tells nothing about what is after. */
const LEAST_LEFT = 0.25;

/**
 * What a tank uses up in a day, of a quantity that is measured now and then, while doses raise it and water changes mix it.
 *
 * With the rate k constant, v falls by k a day, a dose adds its rise, a change makes v into (1-f) v + f n. Let P be the product of
 * all (1-f) so far. Then u = v/P - (sum of rises/P and of f n/P, P after the change) falls on the straight line u = v0 - k T
 * with T = integral of dt/P. The slope of each pair of readings is an estimate of k, exact without errors; their median is
 * taken (Theil-Sen), so that up to 29 % of wrong readings do not carry it off.
 *
 * Interval, 95 % or a little more: the order statistics of the slopes that the exact distribution of Kendall's tau picks, where
 * readings suffice (five without a break); otherwise the kit errors of the pair that tells most, in quadrature.
 * A reading at the moment of a dose or change is taken as made before it. Readings of one moment are averaged. A change of
 * unknown water, or one that leaves less than a quarter of the old, breaks the series: no pair is taken across.
 *
 * Units: days, and any one unit for values, rises and errors; result in that unit a day.
 * Source: Theil H. (1950) Proc. K. Ned. Akad. Wet. A 53, 386-392, 521-525, 1397-1412; Sen P.K. (1968) J. Am. Stat. Assoc.
 * 63, 1379-1389 (both from memory). Error: the interval; a rate that itself changes is averaged over the time.
 *
 * @throws RangeError when a number is not finite, a kit error is negative or a share is outside 0-1.
 */
export function consumption({ readings, doses = [], waterChanges = [] }: ConsumptionInput): Consumption {
  const moments = averagedByMoment(readings);
  if (moments.length < 2)
    return { kind: 'not-enough', why: readings.length < 2 ? 'one-reading' : 'one-moment', readings: readings.length };
  const series = straightened(moments, doses, waterChanges).filter((points) => points.length > 1);
  const { slopes, leastHalfWidth } = slopesOf(series);
  if (slopes.length === 0) return { kind: 'not-enough', why: 'water-changed', readings: moments.length };
  const perDay = median(slopes);
  const sizes = series.map(({ length }) => length);
  const bounds = boundsBySpread(slopes, sizes) ?? boundsByKit(perDay, leastHalfWidth);
  const points = series.flat();
  return {
    kind: bounds.low > 0 || bounds.high < 0 ? 'told' : 'unclear',
    perDay,
    ...bounds,
    readings: points.length,
    days: Math.max(...points.map(({ day }) => day)) - Math.min(...points.map(({ day }) => day)),
  };
}

/** A reading on the straight line: `u` against `time`, with its error in units of u. */
type Point = { day: number; time: number; u: number; error: number };

function averagedByMoment(readings: readonly MeasuredValue[]): MeasuredValue[] {
  const byDay = new Map<number, MeasuredValue[]>();
  for (const reading of readings) {
    finite(reading.day, reading.value, reading.kitError);
    if (reading.kitError < 0) throw new RangeError(`kitError must not be negative, got ${reading.kitError}`);
    byDay.set(reading.day, [...(byDay.get(reading.day) ?? []), reading]);
  }
  return [...byDay]
    .sort(([one], [other]) => one - other)
    .map(([day, same]) => ({
      day,
      value: sum(same.map(({ value }) => value)) / same.length,
      kitError: Math.hypot(...same.map(({ kitError }) => kitError)) / same.length,
    }));
}

type Happening = { day: number } & (
  { reading: MeasuredValue } | { rise: number } | { share: number; newWater: number | null }
);

/** The readings on straight lines, one for each stretch that no unknown or nearly whole change breaks. */
function straightened(
  readings: readonly MeasuredValue[],
  doses: NonNullable<ConsumptionInput['doses']>,
  waterChanges: NonNullable<ConsumptionInput['waterChanges']>,
): Point[][] {
  // The sort keeps the order of what has the same day: a reading first.
  const happenings: Happening[] = [
    ...readings.map((reading) => ({ day: reading.day, reading })),
    ...doses,
    ...waterChanges,
  ].sort((one, other) => one.day - other.day);
  const stretches: Point[][] = [[]];
  let [left, added, time, day] = [1, 0, 0, happenings[0]?.day ?? 0];
  for (const happening of happenings) {
    finite(happening.day);
    time += (happening.day - day) / left;
    day = happening.day;
    if ('reading' in happening) {
      const { value, kitError } = happening.reading;
      stretches.at(-1)?.push({ day, time, u: value / left - added, error: kitError / left });
    } else if ('rise' in happening) {
      finite(happening.rise);
      added += happening.rise / left;
    } else {
      const { share, newWater } = happening;
      if (!(share >= 0 && share <= 1)) throw new RangeError(`share must lie within 0 and 1, got ${share}`);
      if (share === 0) continue;
      left *= 1 - share;
      if (newWater === null || left < LEAST_LEFT) {
        stretches.push([]);
        [left, added, time] = [1, 0, 0];
      } else added += (share * finite(newWater)) / left;
    }
  }
  return stretches;
}

/** The slope of every pair within a stretch, in order, and the half-width by kit errors of the pair that tells most. */
function slopesOf(series: readonly (readonly Point[])[]): { slopes: Float64Array; leastHalfWidth: number } {
  const slopes = new Float64Array(sum(series.map(({ length }) => (length * (length - 1)) / 2)));
  let [count, leastHalfWidth] = [0, Number.POSITIVE_INFINITY];
  for (const points of series)
    for (const [at, other] of points.entries())
      for (const one of points.slice(0, at)) {
        const apart = other.time - one.time;
        slopes[count] = (one.u - other.u) / apart;
        count += 1;
        leastHalfWidth = Math.min(leastHalfWidth, Math.hypot(one.error, other.error) / apart);
      }
  return { slopes: slopes.sort(), leastHalfWidth };
}

type Bounds = { low: number; high: number; by: 'spread' | 'kit-error' };

/**
 * The r-th slope from either end, with the greatest r whose interval still misses in at most one of twenty; null when even
 * the outermost slopes miss more often.
 */
function boundsBySpread(slopes: Float64Array, sizes: readonly number[]): Bounds | null {
  const atMost = inversionsAtMost(sizes);
  const r = atMost.findIndex((chance) => 2 * chance > MISS);
  const [low, high] = [slopes[r - 1], slopes[slopes.length - r]];
  return low === undefined || high === undefined ? null : { low, high, by: 'spread' };
}

const boundsByKit = (perDay: number, halfWidth: number): Bounds => ({
  low: perDay - halfWidth,
  high: perDay + halfWidth,
  by: 'kit-error',
});

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

function median(sorted: Float64Array): number {
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? Number.NaN) + (sorted[Math.ceil(middle)] ?? Number.NaN)) / 2;
}

function finite(...values: readonly number[]): number {
  const odd = values.find((value) => !Number.isFinite(value));
  if (odd !== undefined) throw new RangeError(`days, values and rises must be finite numbers, got ${odd}`);
  return values[0] ?? 0;
}
