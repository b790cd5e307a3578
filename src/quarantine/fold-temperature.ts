import type { LifeCycle } from '../knowledge/life-cycle.ts';
import type { ByTemperature, Run } from '../knowledge/plan.ts';
import type { Happened } from './fold-events.ts';
import type { TurnGap } from './fold-run.ts';
import { longestDays, shortestDays } from './life-cycle-days.ts';
import { PRAZIQUANTEL_CURVES, praziquantelWindows } from './praziquantel-windows.ts';

export type LifeCycles = ReadonlyMap<string, LifeCycle>;
export type Span = { coldestC: number; warmestC: number };

/** The coldest and the warmest reading since the start, or null without any. */
export function temperatureSpan({ readings }: Happened): Span | null {
  const values = readings.filter(({ reading }) => reading.parameter === 'temperature').map(({ value }) => value);
  return values.length === 0 ? null : { coldestC: Math.min(...values), warmestC: Math.max(...values) };
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

/** The gap of a run at this tank's temperature; null where there is no data or no reading. */
export function turnGap(run: Run, span: Span | null, lifeCycles: LifeCycles): TurnGap | null {
  const { by, ...gap } = run.gap;
  if (by === undefined) return { ...gap, times: run.times };
  const maturity = lifeCycles.get(PRAZIQUANTEL_CURVES.maturity);
  const lastHatch = lifeCycles.get(PRAZIQUANTEL_CURVES.lastHatch);
  if (!span || !maturity || !lastHatch) return null;
  const windows = praziquantelWindows({ maturity, lastHatch }, span);
  if (windows.kind === 'no-data') return null;
  const { earliestDays, latestDays } = windows.gap;
  // The first day of the window leaves the most room before new eggs.
  return {
    earliestH: earliestDays * 24,
    plannedH: earliestDays * 24,
    latestH: latestDays * 24,
    graceH: gap.graceH,
    times: run.times + windows.extraDoses,
  };
}
