import type { LifeCycle } from '../knowledge/life-cycle.ts';
import type { ByTemperature, Run } from '../knowledge/plan.ts';
import type { Happened, ReadingAt } from './fold-events.ts';
import type { GapAt } from './fold-run.ts';
import { longestDays, shortestDays } from './life-cycle-days.ts';
import { PRAZIQUANTEL_CURVES, praziquantelWindows } from './praziquantel-windows.ts';

export type LifeCycles = ReadonlyMap<string, LifeCycle>;
export type Span = { coldestC: number; warmestC: number };

const WEEK_H = 168;
/** The last dose lies a day after the last hatch, so that the larva sits on a fish. */
const DAYS_AFTER_HATCH = 1;

const isTemperature = ({ reading }: ReadingAt) => reading.parameter === 'temperature';

const spanOf = (values: readonly number[]): Span | null =>
  values.length === 0 ? null : { coldestC: Math.min(...values), warmestC: Math.max(...values) };

/** The coldest and the warmest reading since the start, or null without any. */
export function temperatureSpan({ readings }: Happened, until?: Date): Span | null {
  const asked = readings.filter((each) => isTemperature(each) && (until === undefined || each.at <= until));
  return spanOf(asked.map(({ value }) => value));
}

/**
 * The coldest and the warmest reading of an interval. The last reading before it still holds at its beginning; where nobody
 * had measured by its end, the first reading after it stands in.
 */
function spanWithin(temperatures: readonly ReadingAt[], from: Date, to: Date): Span | null {
  const before = temperatures.findLast(({ at }) => at <= from);
  const within = temperatures.filter(({ at }) => at > from && at <= to);
  const known = before ? [before, ...within] : within;
  const after = known.length === 0 ? temperatures.find(({ at }) => at > to) : undefined;
  return spanOf((after ? [after] : known).map(({ value }) => value));
}

/** The lowest mean of the readings of any week since the start; null without any reading. */
export function coldestWeek({ readings, started }: Happened, until: Date): number | null {
  const weeks = new Map<number, number[]>();
  for (const each of readings) {
    if (!isTemperature(each) || each.at > until) continue;
    const week = Math.floor((each.at.getTime() - started.at.getTime()) / (WEEK_H * 3_600_000));
    weeks.set(week, [...(weeks.get(week) ?? []), each.value]);
  }
  const means = [...weeks.values()].map((values) => values.reduce((sum, each) => sum + each, 0) / values.length);
  return means.length === 0 ? null : Math.min(...means);
}

/** Days that follow from a life cycle; null where nobody has studied this temperature. Nothing is guessed beyond it. */
export function daysBy(by: ByTemperature, span: Span, lifeCycles: LifeCycles): number | null {
  const curve = lifeCycles.get(by.lifeCycle);
  if (!curve) return null;
  const first = by.take === 'shortest' ? shortestDays(curve, span.warmestC) : longestDays(curve, span.coldestC);
  const warmestStudied = first.kind === 'no-data' ? first.studied?.[1] : undefined;
  const told =
    warmestStudied !== undefined &&
    by.take === 'longest' &&
    span.coldestC > warmestStudied &&
    span.coldestC <= (by.holdsUpToC ?? -Infinity)
      ? longestDays(curve, warmestStudied)
      : first;
  return told.kind === 'days' ? told.days + by.addDays : null;
}

/**
 * The gap of a run, turn by turn, at this tank's temperature; null where there is no data or no reading.
 *
 * How early a dose may come follows from the coldest reading up to the dose before, so that water that cools afterwards never
 * pushes a promised date back. How late it may come follows from the warmest reading between the two. How long the whole run
 * lasts follows from the coldest reading so far.
 */
export function turnGaps(run: Run, happened: Happened, lifeCycles: LifeCycles): GapAt {
  const { by: follows, first = [], firstLatest = [], ...gap } = run.gap;
  const { cold, leastTotalH = 0 } = run;
  const temperatures = happened.readings.filter(isTemperature);
  const fixed = { ...gap, first, firstLatest, times: run.times, leastTotalH };
  if (follows === undefined) {
    if (!cold) return () => fixed;
    return (_anchor, by) =>
      (temperatureSpan(happened, by)?.coldestC ?? Infinity) < cold.belowC
        ? { ...fixed, leastTotalH: Math.max(leastTotalH, cold.leastTotalH) }
        : fixed;
  }
  const maturity = lifeCycles.get(PRAZIQUANTEL_CURVES.maturity);
  const lastHatch = lifeCycles.get(PRAZIQUANTEL_CURVES.lastHatch);
  if (!maturity || !lastHatch) return () => null;
  return (anchor, by) => {
    const promised = spanWithin(temperatures, happened.started.at, anchor);
    const between = spanWithin(temperatures, anchor, by);
    const whole = spanWithin(temperatures, happened.started.at, by);
    if (!promised || !between || !whole) return null;
    const coldestC = Math.min(promised.coldestC, between.warmestC);
    const windows = praziquantelWindows({ maturity, lastHatch }, { coldestC, warmestC: between.warmestC });
    const hatched = longestDays(lastHatch, whole.coldestC);
    if (windows.kind === 'no-data' || hatched.kind === 'no-data') return null;
    const { earliestDays, latestDays } = windows.gap;
    return {
      ...fixed,
      earliestH: earliestDays * 24,
      // The first day of the window leaves the most room before new eggs.
      plannedH: earliestDays * 24,
      latestH: latestDays * 24,
      // Doses that came early within the grace do not ask for another one.
      leastTotalH: (hatched.days + DAYS_AFTER_HATCH) * 24 - (run.times - 1) * gap.graceH,
    };
  };
}
