import type { Happened } from './fold-events.ts';
import type { Touched } from './fold-rules.ts';
import type { Moment } from './fold-moment.ts';

export type ClearDays = {
  counted: number;
  unknown: number;
  since: number;
  reached: Date | null;
  /** The local day on which it ends if every day from now on is clear. */
  endDay: number;
  restartedBy: { at: Date; says: string } | null;
};

/**
 * Counts clear days: local days after the day it began, with a check-in, without a sign that restarts it, and outside the days
 * that a weak sign holds up. A day without a check-in is unknown; it breaks nothing and counts for nothing.
 *
 * The day on which something restarts it never counts, so a sign on day 20 leaves day 21 as the first of a new count.
 */
export function clearDays(
  { events, days, now }: Happened,
  from: Moment,
  needed: number,
  touched: readonly Touched[],
  eating: boolean,
): ClearDays {
  const today = days.dayOf(now);
  const begun = days.dayOf(from.at);
  let since = begun;
  let restartedBy: ClearDays['restartedBy'] = null;
  const heldUp = new Set<number>();
  for (const { at, rule, says } of touched) {
    const day = days.dayOf(at);
    if (rule.does === 'extend') {
      for (let held = day; held < day + (rule.days ?? 0); held += 1) heldUp.add(held);
    } else if (day >= since) {
      since = day;
      restartedBy = { at, says };
    }
  }
  const checkedIn = new Map<number, Date>();
  if (!from.projected) {
    for (const event of events) {
      if (event.kind !== 'check-in' || (eating && event.appetite !== 'normal')) continue;
      const day = days.dayOf(event.at);
      if (day > since && !heldUp.has(day) && !checkedIn.has(day)) checkedIn.set(day, event.at);
    }
  }
  const known = [...checkedIn].sort(([a], [b]) => a - b);
  const last = known[needed - 1];
  let unknown = 0;
  for (let day = since + 1; day < today; day += 1) if (!checkedIn.has(day) && !heldUp.has(day)) unknown += 1;

  let left = needed - known.length;
  let endDay = last?.[0] ?? Math.max(today, since) - 1;
  while (left > 0) {
    endDay += 1;
    if (endDay > since && !checkedIn.has(endDay) && !heldUp.has(endDay)) left -= 1;
  }
  return {
    counted: Math.min(known.length, needed),
    unknown: from.projected ? 0 : unknown,
    since,
    reached: last?.[1] ?? null,
    endDay,
    restartedBy,
  };
}
