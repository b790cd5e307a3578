import type { LifeCycle } from '../knowledge/life-cycle.ts';
import { STANDINGS_OF_SOURCES } from '../knowledge/source.ts';

export type LifeCycleRow = LifeCycle['rows'][number];

/** How long a stage lasts at a temperature, or that nobody has studied it there. */
export type StageDays =
  | { kind: 'days'; days: number; rows: readonly LifeCycleRow[]; standing: LifeCycleRow['standing'] }
  | { kind: 'no-data'; studied: readonly [lowC: number, highC: number] | null; temperatureC: number };

/** What of a life cycle is needed to count with it. */
export type Curve = Pick<LifeCycle, 'between' | 'rows'>;

/** A tank's thermometer may be off by so much. */
const THERMOMETER_C = 0.5;
/** A stage studied at one temperature is taken to hold this far to either side. */
const AROUND_ONE_C = 1;
/** Readings come from °F too, and a studied temperature must not be missed by a rounding error. */
const ROUNDED = 1e6;

/**
 * The shortest a stage may last at the warmest reading: what must be done by then is done in time.
 *
 * - `line`: linear between the published temperatures, from `lowDays`.
 * - `step`: the rows are windows of an act; this is its latest day, `highDays` of the row at or above the reading.
 * - `not-at-all`: never any figure.
 *
 * Within 0.5 °C below a published temperature that row counts, because thermometers are off by as much. A stage studied at one
 * temperature holds 1 °C to either side. Nothing is said outside the studied temperatures; `studied` is null where no row may be
 * counted with. `standing` is the weakest of the rows used.
 *
 * Units: °C in, days out, not rounded.
 */
export function shortestDays(lifeCycle: Curve, warmestC: number): StageDays {
  return daysAt(lifeCycle, lifeCycle.between === 'step' ? 'highDays' : 'lowDays', warmestC, 1);
}

/**
 * The longest a stage may last at the coldest reading: what has to wait for its end waits long enough.
 *
 * The mirror of {@link shortestDays}: `line` from `highDays`; `step` gives the earliest day of the window, `lowDays` of the row
 * at or below the reading; within 0.5 °C above a published temperature that row counts.
 */
export function longestDays(lifeCycle: Curve, coldestC: number): StageDays {
  return daysAt(lifeCycle, lifeCycle.between === 'step' ? 'lowDays' : 'highDays', coldestC, -1);
}

/** A row that can be counted with; `along` grows towards the careful side: warmer for the shortest, colder for the longest. */
type Point = { along: number; days: number; row: LifeCycleRow };

function daysAt(
  { between, rows }: Curve,
  end: 'lowDays' | 'highDays',
  temperatureC: number,
  careful: 1 | -1,
): StageDays {
  const sorted: Point[] = rows.flatMap((row) => {
    const { temperatureC: studiedC, [end]: days } = row;
    return between === 'not-at-all' || studiedC === null || days === null
      ? []
      : [{ along: studiedC * careful, days, row }];
  });
  sorted.sort((a, b) => a.along - b.along || (b.days - a.days) * careful);
  // Where two works studied one temperature, the careful figure of them stands.
  const points = sorted.filter(({ along }, index) => sorted[index + 1]?.along !== along);
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return { kind: 'no-data', studied: null, temperatureC };

  const at = (Math.round(temperatureC * ROUNDED) / ROUNDED) * careful;
  const around = first.along === last.along ? AROUND_ONE_C : 0;
  if (!(at >= first.along - around && at <= last.along + around)) {
    const [a, b] = [first.along * careful, last.along * careful];
    return { kind: 'no-data', studied: [Math.min(a, b), Math.max(a, b)], temperatureC };
  }

  const near = points.findLast(({ along }) => along >= at && along <= at + THERMOMETER_C);
  if (near) return told(near.days, [near.row]);
  const [before, after] = [points.findLast(({ along }) => along <= at), points.find(({ along }) => along >= at)];
  if (!before || !after) return told(last.days, [last.row]);
  if (between === 'step') return told(after.days, [after.row]);
  const share = (at - before.along) / (after.along - before.along);
  return told(before.days + (after.days - before.days) * share, [before.row, after.row]);
}

function told(days: number, rows: readonly LifeCycleRow[]): StageDays {
  const weakest = Math.max(...rows.map(({ standing }) => STANDINGS_OF_SOURCES.indexOf(standing)));
  return { kind: 'days', days, rows, standing: STANDINGS_OF_SOURCES[weakest] ?? 'from-memory' };
}
