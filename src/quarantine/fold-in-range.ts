import type { HoldRange } from '../knowledge/plan.ts';
import type { Happened } from './fold-events.ts';
import { HOUR_MS, hoursAfter } from './fold-moment.ts';
import type { Touched } from './fold-rules.ts';
import type { Broken } from './plan-state.ts';

/** The limits that hold for this plan, from its data or from the label. */
export type Limits = { form?: string; low?: number; high?: number; stopAt?: number; stopAbove?: number };

export type InRange = {
  countedH: number;
  since: Date | null;
  reached: Date | null;
  restartedBy: { at: Date; says: string } | null;
  paused: string | null;
  repeatFrom: Date | null;
  broken: Broken[];
};

/** `in`: counts, and may begin the hold; `off`: counts but cannot begin it; `pause` and `low`: does not count; `far`: starts anew. */
type Judged = 'in' | 'off' | 'pause' | 'low' | 'far';
type At = { at: Date; value: number; judged: Judged };

/** The limits of a range, or null when they are a label's and no label was given. */
export function limitsOf(range: HoldRange, { started }: Happened): Limits | null {
  if (range.limits === 'label') {
    const label = started.copperLabel;
    return label ? { form: label.form, low: label.low, high: label.high, stopAbove: label.high } : null;
  }
  return {
    ...(range.reads === 'copper' ? { form: 'ionic' } : {}),
    ...(range.low === undefined ? {} : { low: range.low }),
    ...(range.high === undefined ? {} : { high: range.high }),
    ...(range.stopAt === undefined ? {} : { stopAt: range.stopAt }),
  };
}

/** The readings that a range is about: copper of the same form only, and only while the instrument was checked. */
export function readingsOf(range: HoldRange, limits: Limits, { readings, events }: Happened) {
  const { checkedBy } = range;
  const checks = events.filter((event) => event.kind === 'step-done' && event.step === checkedBy?.step);
  return readings.filter(
    ({ at, reading }) =>
      reading.parameter === range.reads &&
      (reading.parameter !== 'copper' || reading.form === limits.form) &&
      (!checkedBy || checks.some((check) => check.at <= at && hoursAfter(check.at, checkedBy.validH) >= at)),
  );
}

/** The newest reading that a range cannot count, and why; null where the newest one counts. */
export function uncounted(range: HoldRange, limits: Limits, happened: Happened): { at: Date; says: string } | null {
  const last = happened.readings.findLast(({ reading }) => reading.parameter === range.reads);
  if (!last || readingsOf(range, limits, happened).includes(last)) return null;
  const { reading, at, value } = last;
  return {
    at,
    says:
      reading.parameter === 'copper' && reading.form !== limits.form
        ? `A reading of ${reading.form} copper does not count here: this plan goes by ${limits.form ?? 'another'} copper, and the numbers of the forms are never compared. Look at the kit, and at form: when you note it.`
        : `The ${range.reads} reading of ${value} does not count: the instrument was not checked in the ${(range.checkedBy?.validH ?? 0) / 24} days before it. Check it, note that step, then measure again.`,
  };
}

/**
 * Counts the time between readings in range.
 *
 * Time after a reading counts until it is stale, and only if the reading that follows is in range too. One low reading with a good
 * repeat in time changes nothing; without it the time since the last good reading does not count; two low ones with no good one
 * between start the hold anew, and so does one that lies far off.
 */
export function inRange(
  range: HoldRange,
  limits: Limits,
  happened: Happened,
  from: Date,
  neededH: number,
  touched: readonly Touched[],
): InRange {
  const state: InRange = {
    countedH: 0,
    since: null,
    reached: null,
    restartedBy: null,
    paused: null,
    repeatFrom: null,
    broken: [],
  };
  const restarts = touched.filter(({ at, rule }) => rule.does === 'restart' && at >= from);
  const points = readingsOf(range, limits, happened)
    .filter(({ at }) => at >= from)
    .map(({ at, value }): At => ({ at, value, judged: judge(range, limits, value) }));
  let good: At | null = null;
  let lows: At[] = [];
  const count = (until: Date) => {
    if (!good || state.reached) return;
    const stale = hoursAfter(good.at, range.staleAfterH);
    const hours = ((stale < until ? stale : until).getTime() - good.at.getTime()) / HOUR_MS;
    if (state.countedH + hours >= neededH) state.reached = hoursAfter(good.at, neededH - state.countedH);
    state.countedH = Math.min(neededH, state.countedH + hours);
  };
  const startAnew = (at: Date, says: string) => {
    if (state.since) state.broken.push({ at, of: range.reads, says });
    if (state.since) state.restartedBy = { at, says };
    Object.assign(state, { countedH: 0, since: null, reached: null });
    good = null;
    lows = [];
  };
  let next = 0;
  for (const point of points) {
    for (let restart = restarts[next]; restart && restart.at <= point.at; restart = restarts[++next])
      startAnew(restart.at, restart.says);
    // What was reached is over: the copper comes out, the salinity goes up.
    if (state.reached) continue;
    if (point.judged === 'far') startAnew(point.at, `a reading of ${point.value} was too far off`);
    else if (point.judged === 'low') {
      if (!state.since) continue;
      lows.push(point);
      const weight = lows.length + (lows[0] && lows[0].value <= (range.countsTwiceAtMost ?? -1) ? 1 : 0);
      if (weight >= range.lowReadings)
        startAnew(point.at, `${point.value} was below the range, and no good reading came between`);
    } else if (point.judged === 'pause') {
      good = null;
      lows = [];
    } else if (state.since || point.judged === 'in') {
      const low = lows[0];
      const repeatedInTime = !low || hoursAfter(low.at, range.repeatWithinH) >= point.at;
      if (repeatedInTime) count(point.at);
      if (low)
        state.broken.push({
          at: low.at,
          of: range.reads,
          says: repeatedInTime
            ? 'one low reading, put right by a good repeat'
            : 'one low reading without a good repeat in time; the hours since the last good reading do not count',
        });
      state.since ??= point.at;
      good = point;
      lows = [];
    }
  }
  for (const restart of restarts.slice(next)) startAnew(restart.at, restart.says);
  if (lows.length === 0) count(happened.now);
  const waiting = lows.at(-1);
  if (waiting) state.repeatFrom = hoursAfter(waiting.at, range.repeatAfterH);
  if (!state.reached) state.paused = whyPaused(range, state, good, lows, points.at(-1), happened.now);
  return state;
}

function judge(range: HoldRange, limits: Limits, value: number): Judged {
  if (limits.low !== undefined && value < limits.low) return 'low';
  if (range.restartAbove !== undefined && value > range.restartAbove) return 'far';
  if (range.pauseAbove !== undefined && value > range.pauseAbove) return 'pause';
  if (range.pauseBelow !== undefined && value < range.pauseBelow) return 'pause';
  return limits.high !== undefined && value > limits.high ? 'off' : 'in';
}

function whyPaused(
  range: HoldRange,
  { since }: InRange,
  good: At | null,
  lows: readonly At[],
  last: At | undefined,
  now: Date,
): string | null {
  if (!since) return 'It begins with the first reading in range.';
  if (lows.length > 0) return 'The last reading was low. Repeat it with the same method before you change anything.';
  if (last?.judged === 'pause')
    return `The last reading, ${last.value}, is ${last.value < (range.pauseBelow ?? -Infinity) ? 'below' : 'above'} the limit. Time counts again from the next good one.`;
  if (good && hoursAfter(good.at, range.staleAfterH) < now)
    return `The last reading is older than ${range.staleAfterH} hours. Time counts again from the next good one.`;
  return null;
}
