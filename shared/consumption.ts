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
/** Tests that follow each other so closely, in days, are one test repeated: their difference is the kit's alone. */
const ONE_TEST = 0.25;
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
 * Three or four readings that do not fit one another widen that interval, until it reaches every pair's own.
 * A reading at the moment of a dose or change is taken as made before it. Readings within six hours, with nothing done
 * between them, are averaged. A change of unknown water, or one that leaves less than a quarter of the old, breaks the
 * series: no pair is taken across.
 *
 * Units: days, and any one unit for values, rises and errors; result in that unit a day.
 * Source: Theil H. (1950) Proc. K. Ned. Akad. Wet. A 53, 386-392, 521-525, 1397-1412; Sen P.K. (1968) J. Am. Stat. Assoc.
 * 63, 1379-1389 (both from memory). Error: the interval; a rate that itself changes is averaged over the time.
 *
 * @throws RangeError when a number is not finite, a kit error is negative or a share is outside 0-1.
 */
export function consumption({ readings, doses = [], waterChanges = [] }: ConsumptionInput): Consumption {
  const stretches = straightened(readings, doses, waterChanges).map(oneOfRepeated);
  if (readings.length < 2) return { kind: 'not-enough', why: 'one-reading', readings: readings.length };
  const series = stretches.filter((points) => points.length > 1);
  const slopes = slopesOf(series);
  if (slopes.length === 0) {
    const why = stretches.filter((points) => points.length > 0).length > 1 ? 'water-changed' : 'one-moment';
    return { kind: 'not-enough', why, readings: readings.length };
  }
  const ranked = slopes.slice();
  const perDay = median(ranked);
  const sizes = series.map(({ length }) => length);
  const bounds = boundsBySpread(ranked, sizes) ?? boundsByKit(perDay, slopes, halfWidthsOf(series));
  const points = series.flat();
  return {
    kind: bounds.low > 0 || bounds.high < 0 ? 'told' : 'unclear',
    perDay,
    ...bounds,
    readings: points.length,
    days: Math.max(...points.map(({ day }) => day)) - Math.min(...points.map(({ day }) => day)),
  };
}

/** A reading on the straight line: `u` against `time`, with its error in units of u; `event` counts what was done before it. */
type Point = { day: number; time: number; u: number; error: number; event: number };

/** Repeated tests put together: on a straight line the mean of the values belongs to the mean of the times. */
function oneOfRepeated(points: readonly Point[]): Point[] {
  const tests: Point[][] = [];
  for (const point of points) {
    const [first] = tests.at(-1) ?? [];
    const isRepeated = first && point.event === first.event && point.day - first.day <= ONE_TEST;
    if (isRepeated) tests.at(-1)?.push(point);
    else tests.push([point]);
  }
  return tests.map((same) => {
    const [only] = same;
    if (only && same.length === 1) return only;
    const mean = (of: (point: Point) => number) => sum(same.map(of)) / same.length;
    return {
      event: same[0]?.event ?? 0,
      day: mean(({ day }) => day),
      time: mean(({ time }) => time),
      u: mean(({ u }) => u),
      error: Math.hypot(...same.map(({ error }) => error)) / same.length,
    };
  });
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
  let [left, added, time, day, event] = [1, 0, 0, happenings[0]?.day ?? 0, 0];
  for (const happening of happenings) {
    finite(happening.day);
    time += (happening.day - day) / left;
    day = happening.day;
    if ('reading' in happening) {
      const { value, kitError } = happening.reading;
      finite(value, kitError);
      if (kitError < 0) throw new RangeError(`kitError must not be negative, got ${kitError}`);
      stretches.at(-1)?.push({ day, time, u: value / left - added, error: kitError / left, event });
    } else if ('rise' in happening) {
      finite(happening.rise);
      added += happening.rise / left;
      event += 1;
    } else {
      const { share, newWater } = happening;
      if (!(share >= 0 && share <= 1)) throw new RangeError(`share must lie within 0 and 1, got ${share}`);
      if (share === 0) continue;
      left *= 1 - share;
      event += 1;
      if (newWater === null || left < LEAST_LEFT) {
        stretches.push([]);
        [left, added, time] = [1, 0, 0];
      } else added += (share * finite(newWater)) / left;
    }
  }
  return stretches;
}

/** The slope of every pair within a stretch. */
const slopesOf = (series: readonly (readonly Point[])[]) =>
  ofPairs(series, (one, other) => (one.u - other.u) / (other.time - one.time));

/** The half-width of every such slope by the kit errors of both; worked out only where the spread does not tell. */
const halfWidthsOf = (series: readonly (readonly Point[])[]) =>
  ofPairs(series, (one, other) => Math.hypot(one.error, other.error) / (other.time - one.time));

/** A figure of every pair within a stretch, the earlier reading first. */
function ofPairs(series: readonly (readonly Point[])[], figure: (one: Point, other: Point) => number): Float64Array {
  const figures = new Float64Array(sum(series.map(({ length }) => (length * (length - 1)) / 2)));
  let count = 0;
  for (const points of series)
    points.forEach((other, at) => {
      for (let before = 0; before < at; before += 1) {
        const one = points[before];
        if (one) figures[count++] = figure(one, other);
      }
    });
  return figures;
}

type Bounds = { low: number; high: number; by: 'spread' | 'kit-error' };

/**
 * The r-th slope from either end, with the greatest r whose interval still misses in at most one of twenty; null when even
 * the outermost slopes miss more often.
 */
function boundsBySpread(slopes: Float64Array, sizes: readonly number[]): Bounds | null {
  const atMost = inversionsAtMost(sizes);
  const r = atMost.findIndex((chance) => 2 * chance > MISS);
  const [low, high] = [atRank(slopes, r - 1), atRank(slopes, slopes.length - r)];
  return low === undefined || high === undefined ? null : { low, high, by: 'spread' };
}

/** The half-width of the pair that tells most, times how far the worst pair is off in units of its own. */
function boundsByKit(perDay: number, slopes: Float64Array, halfWidths: Float64Array): Bounds {
  const misfits = slopes.map((slope, at) => Math.abs(slope - perDay) / (halfWidths[at] || Number.EPSILON));
  // Without a kit error, readings either fit one another or say nothing about how far they are off.
  const stretched = halfWidths.every((width) => width === 0) ? 1 : Math.max(1, ...misfits);
  const halfWidth = Math.min(...halfWidths) * stretched;
  return { low: perDay - halfWidth, high: perDay + halfWidth, by: 'kit-error' };
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

function median(values: Float64Array): number {
  const middle = (values.length - 1) / 2;
  const upper = atRank(values, Math.ceil(middle)) ?? Number.NaN;
  return Number.isInteger(middle) ? upper : ((atRank(values, Math.floor(middle)) ?? Number.NaN) + upper) / 2;
}

/**
 * The value that would stand at a rank if they were in order; the values change places. Of hundreds of slopes three or four
 * are looked at, and to order all of them would be half of the work.
 *
 * Source: Hoare C.A.R. (1961) Algorithm 65: Find, Communications of the ACM 4, 321-322 (from memory).
 */
function atRank(values: Float64Array, rank: number): number | undefined {
  const at = (index: number) => values[index] ?? Number.NaN;
  let [first, last] = [0, values.length - 1];
  while (first < last && rank >= first && rank <= last) {
    const pivot = at(rank);
    let [up, down] = [first, last];
    while (up <= down) {
      while (at(up) < pivot) up += 1;
      while (at(down) > pivot) down -= 1;
      if (up > down) break;
      const moved = at(up);
      values[up] = at(down);
      values[down] = moved;
      up += 1;
      down -= 1;
    }
    if (down < rank) first = up;
    if (rank < up) last = down;
  }
  return values[rank];
}

function finite(...values: readonly number[]): number {
  const odd = values.find((value) => !Number.isFinite(value));
  if (odd !== undefined) throw new RangeError(`days, values and rises must be finite numbers, got ${odd}`);
  return values[0] ?? 0;
}
