import type { Run } from '../knowledge/plan.ts';
import type { PlanEvent } from './plan-event.ts';
import { HOUR_MS, hoursAfter, later, type Moment } from './fold-moment.ts';
import type { Touched } from './fold-rules.ts';
import { isInDays } from './fold-words.ts';
import type { Broken } from './plan-state.ts';

/** The gap between two turns at this tank's temperature, and what the run has to come to. */
export type TurnGap = {
  earliestH: number;
  plannedH: number;
  latestH: number;
  graceH: number;
  /** Planned gaps between the first turns, where they differ. */
  first: readonly number[];
  firstLatest: readonly number[];
  times: number;
  leastTotalH: number;
};
/** The gap between a turn done at one instant and what comes by another; null where there is no data. */
export type GapAt = (anchor: Date, by: Date) => TurnGap | null;

export type RunFold = {
  /** Turns that count since turn 0. */
  done: Date[];
  /** Turn 0: the start, or what began the run anew. */
  zero: Moment;
  /** From which the next turn's gap is counted. */
  anchor: Moment;
  /** The gap from there on. */
  gap: TurnGap;
  needed: number;
  /** Turns go on until a hold is reached, and it is not. */
  needsMore: boolean;
  /** No turn was ever done. */
  untouched: boolean;
  completed: Date | null;
  broken: Broken[];
};

/** Whether an event is a turn of the run: the run's own event, or a step done under the run's id or that of any of its turns. */
export function isTurn(run: Run, event: PlanEvent): boolean {
  if (event.kind !== 'step-done') return event.kind === run.by;
  return event.step === run.id || new RegExp(`^${run.id}-\\d+$`).test(event.step);
}

/** Hours from the turn before to this one, as planned. */
export const plannedGapH = ({ plannedH, first }: TurnGap, turn: number): number =>
  first[Math.max(0, turn - 2)] ?? plannedH;

/** Hours from the turn before up to which this one is on time. */
export const latestGapH = ({ latestH, firstLatest }: TurnGap, turn: number): number =>
  firstLatest[Math.max(0, turn - 2)] ?? latestH;

/** A hold until which turns go on: when it was reached, and when it may be at the earliest. */
export type Until = { reached: Date | null; expected: Date | null };

/**
 * Counts turns in a row; null where there is no data for the temperature. Every limit is counted from the turn really done
 * before, in elapsed hours. A late turn of a run that restarts becomes turn 0 (or turn 1, where the first turn is one itself);
 * an early one moves the clock on and does not count.
 */
export function foldRun(
  run: Run,
  gapAt: GapAt,
  from: Moment,
  now: Date,
  events: readonly PlanEvent[],
  touched: readonly Touched[],
  hold: Until | null,
): RunFold | null {
  const until = hold?.reached ?? null;
  const begins = gapAt(from.at, later(from.at, now));
  if (!begins) return null;
  const state: RunFold = {
    done: [],
    zero: from,
    anchor: from,
    gap: begins,
    needed: begins.times,
    needsMore: run.untilHold !== undefined,
    untouched: true,
    completed: null,
    broken: [],
  };
  if (from.projected) return { ...state, needed: turnsNeeded(run, state, hold, now) };
  const firstIsTurn = run.firstH !== undefined;
  const restart = (at: Date, says: string, counts: boolean) => {
    state.zero = { at, projected: false, says };
    state.done = counts ? [at] : [];
    state.completed = null;
  };
  const marks = [
    ...events.filter((event) => event.at >= from.at && isTurn(run, event)).map(({ at }) => ({ at, says: null })),
    ...touched.filter(({ at, rule }) => rule.does === 'restart' && at >= from.at).map(({ at, says }) => ({ at, says })),
  ].sort((a, b) => a.at.getTime() - b.at.getTime());
  for (const { at, says } of marks) {
    if (says !== null) {
      restart(at, says, false);
      state.broken.push({ at, of: run.id, says });
      continue;
    }
    const turn: Moment = { at, projected: false, says: `the ${run.title.toLowerCase()} before` };
    if (state.completed && at > state.completed) {
      // A move or a dip after the end changes nothing, but a later limit is counted from it.
      state.anchor = turn;
      continue;
    }
    const gap = gapAt(state.anchor.at, at);
    if (!gap) return null;
    state.gap = gap;
    // The first turn is bound to nothing before it, at the start and after something began the run anew.
    const first = firstIsTurn && state.done.length === 0 && (state.untouched || state.zero.at > state.anchor.at);
    const hours = (at.getTime() - state.anchor.at.getTime()) / HOUR_MS;
    if (first) restart(at, `${run.title} 1`, true);
    else if (hours > latestGapH(gap, state.done.length + 1) + gap.graceH) {
      const limit = latestGapH(gap, state.done.length + 1);
      const wrong = `${run.title}: ${lateWords(hours, limit)}`;
      state.broken.push({ at, of: run.id, says: wrong });
      if (run.late === 'restarts') restart(at, `a late ${run.title.toLowerCase()}`, firstIsTurn);
      else state.done.push(at);
    } else if (hours < gap.earliestH - gap.graceH) {
      const wrong = `${run.title}: ${hoursWords(hours)} hours after the one before, too early to count`;
      state.broken.push({ at, of: run.id, says: wrong });
    } else state.done.push(at);
    state.untouched = false;
    state.anchor = turn;
    if (isOver(run, state, until)) state.completed ??= until ? later(at, until) : at;
  }
  if (!state.completed) {
    const gap = gapAt(state.anchor.at, later(state.anchor.at, now));
    if (!gap) return null;
    state.gap = gap;
  }
  // A hold may be reached after the last turn.
  if (!state.completed && isOver(run, state, until))
    state.completed = until ? later(state.anchor.at, until) : state.anchor.at;
  state.needed = turnsNeeded(run, state, hold, now);
  state.needsMore = run.untilHold !== undefined && !state.completed;
  return state;
}

/** Hours as one says them; where a whole number would hide what went wrong, with a tenth. */
const hoursWords = (hours: number): string => String(Math.round(hours * 10) / 10);

/** "9.2 days after the one before, later than 8"; in hours where the limit is one of hours, or days would hide it. */
function lateWords(hours: number, limitH: number): string {
  const days = Math.round(hours / 2.4) / 10;
  const inDays = isInDays(limitH) && days > limitH / 24;
  return inDays
    ? `${days} days after the one before, later than ${limitH / 24}`
    : `${hoursWords(hours)} hours after the one before, later than ${limitH}`;
}

function isOver(run: Run, { done, zero, gap }: RunFold, until: Date | null): boolean {
  const last = done.at(-1);
  if (!last || done.length < gap.times) return false;
  // Turns that stopped long before the hold was over did not go on until then.
  if (run.untilHold !== undefined && !(until && hoursAfter(last, gap.latestH + gap.graceH) >= until)) return false;
  return (last.getTime() - zero.at.getTime()) / HOUR_MS >= gap.leastTotalH;
}

/** More turns than anybody plans for. */
const MOST_TURNS = 40;

/** How many turns it takes from where it stands, if the next ones are done as planned. */
function turnsNeeded(run: Run, fold: RunFold, hold: Until | null, now: Date): number {
  const { done, zero, anchor, completed, gap } = fold;
  if (completed) return done.length;
  let turns = Math.max(gap.times, done.length);
  const zeroIsTurn = run.firstH !== undefined && done.length === 0;
  const soFarMs = zeroIsTurn ? 0 : anchor.at.getTime() - zero.at.getTime();
  const totalMs = (count: number) =>
    soFarMs + gap.plannedH * (count - Math.max(done.length, zeroIsTurn ? 1 : 0)) * HOUR_MS;
  while (totalMs(turns) < gap.leastTotalH * HOUR_MS) turns += 1;
  return run.untilHold === undefined ? turns : Math.max(turns, turnsUntil(run, fold, hold, now));
}

/** The number of the turn after which none is planned before the hold may be reached. */
function turnsUntil(run: Run, { done, anchor, untouched, gap }: RunFold, hold: Until | null, now: Date): number {
  const end = hold?.reached ?? hold?.expected;
  // Without an end in sight there is always one more.
  if (!end) return done.length + 1;
  let turn = done.length;
  let at = anchor.at;
  // One that came too early moved the clock on and reaches no end.
  let counted = done.at(-1);
  while (turn < MOST_TURNS && (!counted || hoursAfter(counted, gap.latestH + gap.graceH) < end)) {
    turn += 1;
    const isFirst = turn === 1 && run.firstH !== undefined && untouched;
    at = later(hoursAfter(at, isFirst ? (run.firstH ?? 0) : plannedGapH(gap, turn)), now);
    counted = at;
  }
  return turn;
}
