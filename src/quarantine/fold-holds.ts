import type { During, Hold, Plan } from '../knowledge/plan.ts';
import { clearDays } from './fold-clear-days.ts';
import { elapsed } from './fold-elapsed.ts';
import type { Happened } from './fold-events.ts';
import { inRange, limitsOf } from './fold-in-range.ts';
import { DAY_MS, hoursAfter, later, type Moment } from './fold-moment.ts';
import type { Touched } from './fold-rules.ts';
import { daysBy, type LifeCycles, type Span } from './fold-temperature.ts';
import type { Because, Broken, HoldState } from './plan-state.ts';

export type HoldFold = { state: HoldState; broken: Broken[] };

/** Standing and source of a part of a plan, beside the words for this very date. */
export const because = (
  part: Pick<Because, 'why' | 'standing'> & { source?: string | undefined },
  reason: string,
): Because => ({
  reason,
  why: part.why,
  standing: part.standing,
  ...(part.source === undefined ? {} : { source: part.source }),
});

/** How far one hold has come. `from` is null when what it is counted from has no date. */
export function foldHold(
  hold: Hold,
  happened: Happened,
  from: Moment | null,
  touched: readonly Touched[],
  span: Span | null,
  lifeCycles: LifeCycles,
): HoldFold {
  // A run gives no moment where nobody has studied the temperature that was read.
  const isUnstudied = from === null && span !== null && hold.from !== 'start' && 'run' in hold.from;
  const needed = isUnstudied ? null : hold.daysBy && span ? daysBy(hold.daysBy, span, lifeCycles) : hold.days;
  const empty: HoldState = {
    ...because(hold, ''),
    id: hold.id,
    name: hold.name,
    kind: hold.kind,
    needed,
    counted: 0,
    unknownDays: 0,
    since: null,
    reached: null,
    endsEarliest: null,
    endsOn: null,
    restartedBy: null,
    paused: null,
    repeatFrom: null,
  };
  if (needed === null)
    return stopped(empty, 'No data: nobody has studied this at the temperature of this tank. Ask a vet.');
  if (!from) return stopped(empty, 'It has no date yet, because what it is counted from has none.');
  if (hold.kind === 'clear-days') return foldClearDays(hold, empty, happened, from, touched, Math.ceil(needed));
  if (hold.kind === 'elapsed') return foldElapsed(empty, happened, from, touched, needed);
  return foldInRange(hold, empty, happened, from, touched, needed);
}

const stopped = (state: HoldState, paused: string): HoldFold => ({
  state: { ...state, paused, reason: paused },
  broken: [],
});

function foldClearDays(
  hold: Hold,
  empty: HoldState,
  happened: Happened,
  from: Moment,
  touched: readonly Touched[],
  needed: number,
): HoldFold {
  const { days } = happened;
  const told = clearDays(happened, from, needed, touched, hold.eating);
  const began = told.restartedBy
    ? `${days.dateOf(told.since)}, when ${told.restartedBy.says}`
    : `${days.dateOf(told.since)}, the day of ${from.says}`;
  const unknown =
    told.unknown === 0 || told.reached
      ? ''
      : ` ${told.unknown === 1 ? '1 day without a check-in does' : `${told.unknown} days without a check-in do`} not count.`;
  const heldUp = touched.some(({ rule }) => rule.does === 'extend') ? ' Days after a weak sign are held up.' : '';
  return {
    state: {
      ...empty,
      needed,
      counted: told.counted,
      unknownDays: told.unknown,
      since: days.startOf(told.since + 1),
      reached: told.reached,
      endsEarliest: days.startOf(told.endDay),
      endsOn: days.dateOf(told.endDay),
      restartedBy: told.restartedBy,
      reason: `${needed} clear days counted from the day after ${began}. ${told.counted} are clear.${unknown}${heldUp}`,
    },
    broken: told.restartedBy ? [{ ...told.restartedBy, of: hold.id }] : [],
  };
}

function foldElapsed(
  empty: HoldState,
  { now, days }: Happened,
  from: Moment,
  touched: readonly Touched[],
  needed: number,
): HoldFold {
  const told = elapsed(from, needed, touched, now);
  return {
    state: {
      ...empty,
      counted: told.counted,
      since: told.since,
      reached: told.reached,
      endsEarliest: told.end,
      endsOn: days.dateOf(days.dayOf(told.end)),
      restartedBy: told.restartedBy,
      reason: `${needed} days of 24 hours, counted from ${told.restartedBy ? `the moment when ${told.restartedBy.says}` : from.says}.`,
    },
    broken: told.restartedBy ? [{ ...told.restartedBy, of: empty.id }] : [],
  };
}

function foldInRange(
  { range, id }: Hold,
  empty: HoldState,
  happened: Happened,
  from: Moment,
  touched: readonly Touched[],
  needed: number,
): HoldFold {
  const limits = range && limitsOf(range, happened);
  if (!limits) return stopped(empty, 'Without the label there is no range and no clock. Ask a vet.');
  if (from.projected) return stopped(empty, 'It begins later.');
  const told = inRange(range, limits, happened, from.at, needed * 24, touched);
  const end = told.reached ?? hoursAfter(happened.now, needed * 24 - told.countedH);
  const toCome = told.since ? '' : ', which is still to come';
  const anew = told.restartedBy ? ` It began anew: ${told.restartedBy.says}.` : '';
  return {
    state: {
      ...empty,
      counted: (told.countedH * 3_600_000) / DAY_MS,
      since: told.since,
      reached: told.reached,
      endsEarliest: end,
      endsOn: happened.days.dateOf(happened.days.dayOf(end)),
      restartedBy: told.restartedBy,
      paused: told.paused,
      repeatFrom: told.repeatFrom,
      reason: `${needed} days in range, counted from the first reading in range${toCome}.${anew}`,
    },
    broken: told.broken.map((each) => ({ ...each, of: id })),
  };
}

/** A hold that is asked for only after a late sign: whether it is. */
export function isAskedFor(
  { ifSignWithin }: Hold,
  { signs, days, now }: Happened,
  other: HoldState | undefined,
): boolean {
  if (!ifSignWithin) return true;
  const last = signs.filter(({ effect }) => effect === 'infectious').at(-1);
  if (!last || !other?.endsEarliest) return false;
  const end = other.reached ?? later(now, other.endsEarliest);
  return days.dayOf(last.at) >= days.dayOf(end) - ifSignWithin.days;
}

/** Whether a hold lies ahead, counts or is over. One that a late sign asks for prolongs the other. */
export function phaseOf(plan: Plan, holds: readonly HoldState[], id: string): During['is'] | null {
  const state = holds.find((each) => each.id === id);
  if (!state) return null;
  if (!state.reached) return state.since ? 'counting' : 'before';
  const prolonged = plan.holds.some(
    (each) => each.ifSignWithin?.hold === id && holds.some((other) => other.id === each.id && !other.reached),
  );
  return prolonged ? 'counting' : 'over';
}

/** What belongs to the option that counts. */
export const belongsTo = (option: string | null) => (part: { option?: string | undefined }) =>
  part.option === undefined || part.option === option;

/** The option of a plan that was chosen at the start; the first is the standard one. */
export const chosenOption = (plan: Plan, chosen: string | undefined) =>
  plan.options.find(({ id }) => id === chosen) ?? plan.options[0];
