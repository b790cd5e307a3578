import { unionisedAmmonia } from '../../shared/ammonia.ts';
import type { Limit, Plan } from '../knowledge/plan.ts';
import { URGENCIES } from '../knowledge/sign.ts';
import type { Happened, ReadingAt } from './fold-events.ts';
import { phaseOf } from './fold-holds.ts';
import { HOUR_MS, hoursAfter } from './fold-moment.ts';
import type { Alarm, HoldState } from './plan-state.ts';

/** Full sea water, where nobody measured the salinity; low salinity has a slightly larger poisonous part. */
const ASSUMED_SALINITY = 35;
const AMMONIA_UNITS = { 'mg/L NH3-N': 'NH3-N', 'mg/L NH3': 'NH3', 'mg/L NH4': 'NH4' } as const;
/** So much weighs the same nitrogen as NH3: 17.031 / 14.007, and 17.031 / 18.039. */
const AS_NH3 = { 'mg/L NH3-N': 1.2159, 'mg/L NH3': 1, 'mg/L NH4': 0.9441 } as const;
/** A daily reading holds for a day and a quarter; after that it is unknown. */
const STALE_AFTER_H = 30;
/** Keeps a change of exactly the limit from counting as more, after °F. */
const EPSILON = 1e-6;

type Measured = { at: Date; value: number };

/** What the newest readings ask for; of several limits on one quantity the worst alone. */
export function limitAlarms(plan: Plan, happened: Happened, holds: readonly HoldState[]): Alarm[] {
  const series = seriesBy(happened);
  const worst = new Map<Limit['reads'], Alarm>();
  for (const limit of plan.limits) {
    const { reads, urgency, says, during, forH } = limit;
    if (during && phaseOf(plan, holds, during.hold) !== during.is) continue;
    const measured = series(reads);
    const last = measured.at(-1);
    if (!last || !(isPast(limit, last) || changedTooFast(limit, measured))) continue;
    const since = measured.slice(measured.findLastIndex((each) => !isPast(limit, each)) + 1)[0];
    if (forH !== undefined && since && hoursAfter(since.at, forH) > last.at) continue;
    const known = worst.get(reads);
    if (!known || URGENCIES.indexOf(urgency) < URGENCIES.indexOf(known.urgency))
      worst.set(reads, { at: last.at, urgency, about: reads, says });
  }
  return [...worst.values()];
}

/**
 * From when on the water was inside every limit for as long as the plan asks, at `at` or after it; null where the newest reading
 * is still past a limit. What nobody measured is not held against a plan.
 */
export function waterGoodFrom({ limits, waterGoodH }: Plan, happened: Happened, at: Date): Date | null {
  if (waterGoodH === undefined) return at;
  const series = seriesBy(happened);
  const spells = limits
    .filter(({ during, forH, changes }) => !during && forH === undefined && !changes)
    .flatMap((limit) => {
      const measured = series(limit.reads);
      return measured.flatMap((each, index) => {
        if (!isPast(limit, each)) return [];
        const next = measured[index + 1];
        const until = next && Math.max(next.at.getTime(), hoursAfter(each.at, waterGoodH).getTime());
        return [{ from: each.at, until: until === undefined ? null : new Date(until) }];
      });
    })
    .sort((a, b) => a.from.getTime() - b.from.getTime());
  let good: Date = at;
  for (const { from, until } of spells) {
    if (from > good || (until && until <= good)) continue;
    if (!until) return null;
    good = until;
  }
  return good;
}

const isPast = ({ atLeast, above, atMost, below }: Limit, { value }: Measured): boolean =>
  value >= (atLeast ?? Infinity) ||
  value > (above ?? Infinity) ||
  value <= (atMost ?? -Infinity) ||
  value < (below ?? -Infinity);

function changedTooFast({ changes }: Limit, measured: readonly Measured[]): boolean {
  const last = measured.at(-1);
  if (!changes || !last) return false;
  const { by, withinH, to } = changes;
  return measured.slice(0, -1).some(({ at, value }) => {
    const periods = Math.max(1, (last.at.getTime() - at.getTime()) / HOUR_MS / withinH);
    const up = last.value - value;
    const moved = to === 'up' ? up : to === 'down' ? -up : Math.abs(up);
    return moved > by * periods + EPSILON;
  });
}

/** The readings that limits of one kind are about, worked out once. */
function seriesBy({ readings }: Happened): (reads: Limit['reads']) => readonly Measured[] {
  const known = new Map<Limit['reads'], readonly Measured[]>();
  return (reads) => {
    const old = known.get(reads);
    if (old) return old;
    const fresh = seriesOf(reads, readings);
    known.set(reads, fresh);
    return fresh;
  };
}

function seriesOf(reads: Limit['reads'], readings: readonly ReadingAt[]): Measured[] {
  if (reads !== 'nh3' && reads !== 'ammonia') return readings.filter(({ reading }) => reading.parameter === reads);
  const judged = judgedAmmonia(readings);
  if (reads === 'nh3') return judged.flatMap(({ at, nh3 }) => (nh3 === null ? [] : [{ at, value: nh3 }]));
  // The limits on all of the ammonia hold only while the newest reading cannot be judged better.
  const last = judged.at(-1);
  return last?.nh3 === null ? [{ at: last.at, value: last.total }] : [];
}

/** What is missing to judge the newest ammonia reading; null where it is judged, is nothing, or there is none. */
export function missingForAmmonia(
  limits: readonly Limit[],
  { readings }: Happened,
): { at: Date; missing: readonly ('ph' | 'temperature')[] } | null {
  const lowest = Math.min(...limits.filter(({ reads }) => reads === 'nh3').map(({ atLeast }) => atLeast ?? Infinity));
  const last = judgedAmmonia(readings).at(-1);
  // Less in all than the least of the limits on a part of it needs no judging.
  if (!last || last.nh3 !== null || last.missing.length === 0 || last.total < lowest) return null;
  return { at: last.at, missing: last.missing };
}

type Judged = { at: Date; total: number; nh3: number | null; missing: readonly ('ph' | 'temperature')[] };

/** Worked out once for one list of readings, since several limits and what is due ask for it. */
const JUDGED = new WeakMap<readonly ReadingAt[], Judged[]>();

/** Every ammonia reading, as un-ionised ammonia where pH and temperature were measured near it. */
function judgedAmmonia(readings: readonly ReadingAt[]): Judged[] {
  const known = JUDGED.get(readings);
  if (known) return known;
  const judged = judgeAmmonia(readings);
  JUDGED.set(readings, judged);
  return judged;
}

function judgeAmmonia(readings: readonly ReadingAt[]): Judged[] {
  const of = (parameter: string) => readings.filter(({ reading }) => reading.parameter === parameter);
  const [phs, temperatures, salinities] = [of('ph'), of('temperature'), of('salinity')];
  return readings.flatMap(({ at, reading }): Judged[] => {
    if (reading.parameter !== 'ammonia') return [];
    const [ph, temperatureC] = [nearest(phs, at), nearest(temperatures, at)];
    const total = reading.value * AS_NH3[reading.unit];
    if (ph === null || temperatureC === null) {
      const missing = [
        ...(ph === null ? ['ph' as const] : []),
        ...(temperatureC === null ? ['temperature' as const] : []),
      ];
      return [{ at, total, nh3: null, missing }];
    }
    const told = unionisedAmmonia({
      totalMgPerL: reading.value,
      unit: AMMONIA_UNITS[reading.unit],
      ph,
      temperatureC,
      practicalSalinity: salinities.findLast((each) => each.at <= at)?.value ?? ASSUMED_SALINITY,
    });
    return [{ at, total, nh3: told.kind === 'ammonia' ? told.nh3MgPerL : null, missing: [] }];
  });
}

/** The last reading before an instant, or else the first one after it, if it is fresh enough to go with it. */
function nearest(readings: readonly ReadingAt[], at: Date): number | null {
  const index = readings.findLastIndex((each) => each.at <= at);
  const [last, next] = [readings[index], readings[index + 1]];
  const before = last && hoursAfter(last.at, STALE_AFTER_H) >= at ? last : undefined;
  const after = next && hoursAfter(at, STALE_AFTER_H) >= next.at ? next : undefined;
  return (before ?? after)?.value ?? null;
}
