import type { Plan } from '../knowledge/plan.ts';
import type { PlanEvent } from './plan-event.ts';
import { turnOf } from './turn-words.ts';
import type { HoldState, PlanState } from './plan-state.ts';

export type Change = { says: string; at?: Date };

const MOVED_MS = 12 * 3_600_000;
const days = (count: number) => String(Math.floor(count * 10 + 1e-9) / 10);

/** What an entry changed, in short sentences: what broke, what it counts for, and where the end went. */
export function changesBy(plan: Plan, event: PlanEvent, before: PlanState, after: PlanState): Change[] {
  const known = new Set(before.broken.map(({ at, of, says }) => `${at.getTime()} ${of} ${says}`));
  const broke = after.broken.filter(({ at, of, says }) => !known.has(`${at.getTime()} ${of} ${says}`));
  const changes: Change[] = [
    ...broke.map(({ says }) => ({ says: sentence(says) })),
    ...stepChanges(event, before, after),
    ...after.holds.flatMap((hold) =>
      holdChanges(
        plan,
        event,
        before.holds.find(({ id }) => id === hold.id),
        hold,
      ),
    ),
  ];
  const moved = (after.endsEarliest?.getTime() ?? 0) - (before.endsEarliest?.getTime() ?? 0);
  if (after.completed && !before.completed) changes.push({ says: 'That was the last of it: all of the plan is done.' });
  else if (before.endsEarliest && after.endsEarliest && Math.abs(moved) > MOVED_MS)
    changes.push({ says: `The earliest end is ${moved > 0 ? 'later' : 'sooner'} now:`, at: after.endsEarliest });
  return changes.filter(({ says }, index) => changes.findIndex((each) => each.says === says) === index);
}

function stepChanges(event: PlanEvent, before: PlanState, after: PlanState): Change[] {
  if (event.kind !== 'step-done' && event.kind !== 'moved-tank' && event.kind !== 'dose-given') return [];
  const done = after.steps.find(({ doneAt }) => doneAt?.getTime() === event.at.getTime());
  if (!done) return [];
  const was = before.steps.find(({ id }) => id === done.id);
  if (was?.latest && event.at > was.latest)
    return [{ says: `“${done.title}” came late; it was to be done by`, at: was.latest }];
  return [{ says: done.run ? `“${done.title}” counts: ${turnOf(done.run)}.` : `“${done.title}” is done.` }];
}

function holdChanges(plan: Plan, event: PlanEvent, before: HoldState | undefined, after: HoldState): Change[] {
  const { name, reached, restartedBy, paused, since, counted, needed } = after;
  if (reached && !before?.reached) return [{ says: `“${name}” is reached.` }];
  if (restartedBy && restartedBy.at.getTime() !== before?.restartedBy?.at.getTime())
    return [{ says: `“${name}” begins anew: ${sentence(restartedBy.says, false)}` }];
  const reads = plan.holds.find(({ id }) => id === after.id)?.range?.reads;
  if (event.kind === 'reading' && event.reading.parameter === reads && !reached) {
    if (paused) return [{ says: paused }];
    if (since && !before?.since) return [{ says: `“${name}” counts from this reading on.` }];
    return needed === null ? [] : [{ says: `It counts: ${days(counted)} of ${days(needed)} days of “${name}”.` }];
  }
  if (event.kind === 'check-in' && after.kind === 'clear-days' && needed !== null && counted !== before?.counted)
    return [{ says: `${days(counted)} of ${days(needed)} days of “${name}”.` }];
  return [];
}

const sentence = (says: string, capital = true): string => {
  const whole = /[.!?]["”]?$/.test(says) ? says : `${says}.`;
  return capital ? whole.charAt(0).toUpperCase() + whole.slice(1) : whole;
};
