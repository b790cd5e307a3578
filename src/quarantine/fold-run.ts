import type { Run } from '../knowledge/plan.ts';
import type { PlanEvent } from './plan-event.ts';
import { HOUR_MS, hoursAfter, type Moment } from './fold-moment.ts';
import type { Touched } from './fold-rules.ts';
import type { Broken } from './plan-state.ts';

/** The gap between two turns at this tank's temperature. */
export type TurnGap = { earliestH: number; plannedH: number; latestH: number; graceH: number; times: number };

export type RunFold = {
  /** Turns that count since turn 0. */
  done: Date[];
  /** Turn 0: the start, or what began the run anew. */
  zero: Moment;
  /** From which the next turn's gap is counted. */
  anchor: Moment;
  needed: number;
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

/**
 * Counts turns in a row. Every limit is counted from the turn really done before, in elapsed hours. A late turn of a run that
 * restarts becomes turn 0 (or turn 1, where the first turn is one itself); an early one moves the clock on and does not count.
 */
export function foldRun(
  run: Run,
  gap: TurnGap,
  from: Moment,
  events: readonly PlanEvent[],
  touched: readonly Touched[],
  until: Date | null,
): RunFold {
  const state: RunFold = {
    done: [],
    zero: from,
    anchor: from,
    needed: gap.times,
    untouched: true,
    completed: null,
    broken: [],
  };
  if (from.projected) return state;
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
    if (state.completed && at > state.completed) {
      // A move or a dip after the end changes nothing, but a later limit is counted from it.
      state.anchor = { at, projected: false, says: `the ${run.title.toLowerCase()} before` };
      continue;
    }
    const first = firstIsTurn && state.untouched;
    const hours = (at.getTime() - state.anchor.at.getTime()) / HOUR_MS;
    if (first) restart(at, `${run.title} 1`, true);
    else if (hours > gap.latestH + gap.graceH) {
      state.broken.push({
        at,
        of: run.id,
        says: `${run.title}: ${Math.round(hours)} hours after the one before, later than ${gap.latestH}`,
      });
      if (run.late === 'restarts') restart(at, `a late ${run.title.toLowerCase()}`, firstIsTurn);
      else state.done.push(at);
    } else if (hours < gap.earliestH - gap.graceH) {
      state.broken.push({
        at,
        of: run.id,
        says: `${run.title}: ${Math.round(hours)} hours after the one before, too early to count`,
      });
    } else state.done.push(at);
    state.untouched = false;
    state.anchor = { at, projected: false, says: `the ${run.title.toLowerCase()} before` };
    if (isOver(run, gap, state, until)) state.completed ??= later(at, until);
  }
  // A hold may be reached after the last turn.
  if (!state.completed && isOver(run, gap, state, until)) state.completed = later(state.anchor.at, until);
  state.needed = turnsNeeded(run, gap, state);
  return state;
}

const later = (at: Date, until: Date | null) => (until && until > at ? until : at);

function isOver(run: Run, gap: TurnGap, { done, zero }: RunFold, until: Date | null): boolean {
  const last = done.at(-1);
  if (!last || done.length < gap.times) return false;
  // Turns that stopped long before the hold was over did not go on until then.
  if (run.untilHold !== undefined && !(until && hoursAfter(last, gap.latestH + gap.graceH) >= until)) return false;
  return (last.getTime() - zero.at.getTime()) / HOUR_MS >= (run.leastTotalH ?? 0);
}

/** How many turns it takes from where it stands, if the next ones are done as planned. */
function turnsNeeded(run: Run, gap: TurnGap, { done, zero, anchor, completed }: RunFold): number {
  if (completed) return done.length;
  let turns = Math.max(gap.times, done.length + (run.untilHold === undefined ? 0 : 1));
  const total = (count: number) =>
    hoursAfter(anchor.at, gap.plannedH * (count - done.length)).getTime() - zero.at.getTime();
  while (total(turns) < (run.leastTotalH ?? 0) * HOUR_MS) turns += 1;
  return turns;
}
