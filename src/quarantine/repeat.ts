import type { Plan } from '../knowledge/plan.ts';
import { localDays } from './fold-days.ts';
import { isTurn } from './fold-run.ts';
import { HOUR_MS } from './fold-moment.ts';
import type { PlanEvent } from './plan-event.ts';

/** Two turns of one run are never so close together: a finger that pressed twice is. */
const SAME_PRESS_H = 1 / 6;

/**
 * Whether an event says only what was noted already, so that a button pressed twice does no harm: "all well" again on one local
 * day, a step done again on it, a turn of a run again within ten minutes. What was undone can be noted anew, and after a sign a
 * second "all well" says something new.
 */
export function isRepeat(plan: Plan, events: readonly PlanEvent[], event: PlanEvent, zone: string): boolean {
  const { dayOf } = localDays(zone);
  const undone = new Set(events.flatMap((each) => (each.kind === 'undone' ? [each.eventId] : [])));
  const standing = events.filter(({ id }) => !undone.has(id));
  const sameDay = standing.filter(({ at }) => dayOf(at) === dayOf(event.at));
  if (event.kind === 'check-in') {
    if (event.signs.length > 0) return false;
    const last = sameDay
      .filter(({ kind }) => kind === 'check-in' || kind === 'sign-seen' || kind === 'death')
      .reduce<PlanEvent | null>((a, b) => (a && a.at > b.at ? a : b), null);
    return last?.kind === 'check-in' && last.signs.length === 0 && last.appetite === event.appetite;
  }
  const run = plan.runs.find((each) => isTurn(each, event));
  if (run)
    return standing.some(
      (each) => isTurn(run, each) && Math.abs(each.at.getTime() - event.at.getTime()) <= SAME_PRESS_H * HOUR_MS,
    );
  return event.kind === 'step-done' && sameDay.some((each) => each.kind === 'step-done' && each.step === event.step);
}
