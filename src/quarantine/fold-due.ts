import type { Monitor, Plan } from '../knowledge/plan.ts';
import type { Happened } from './fold-events.ts';
import { phaseOf } from './fold-holds.ts';
import { missingForAmmonia } from './fold-limits.ts';
import { hoursAfter } from './fold-moment.ts';
import type { DueItem, HoldState, StepState } from './plan-state.ts';

type Due = { due: DueItem[]; overdue: DueItem[] };

/** What is to be done, measured and looked at now. */
export function dueNow(plan: Plan, happened: Happened, steps: readonly StepState[], holds: readonly HoldState[]): Due {
  const result: Due = { due: [], overdue: [] };
  for (const { status, id, title, says, planned } of steps) {
    if ((status === 'due' || status === 'overdue') && planned)
      result[status].push({ kind: 'step', id, title, says, since: planned });
  }
  for (const { repeatFrom, paused, id } of holds) {
    const reads = plan.holds.find((hold) => hold.id === id)?.range?.reads;
    if (reads && repeatFrom && repeatFrom <= happened.now)
      result.due.push({ kind: 'reading', id: reads, title: reads, since: repeatFrom, says: paused ?? '' });
  }
  for (const monitor of plan.monitors) {
    if (!isAskedNow(plan, monitor, happened, holds)) continue;
    const { since, overdueAt } = monitor.what === 'check-in' ? checkIn(monitor, happened) : measured(monitor, happened);
    const item: DueItem = {
      kind: monitor.what === 'check-in' ? 'check-in' : monitor.what === 'step' ? 'step' : 'reading',
      id: monitor.step ?? monitor.what,
      title:
        monitor.what === 'step'
          ? (plan.steps.find(({ id }) => id === monitor.step)?.title ?? monitor.what)
          : monitor.what,
      since,
      says: monitor.says,
    };
    if (happened.now < since || [...result.due, ...result.overdue].some(({ id }) => id === item.id)) continue;
    result[happened.now > overdueAt ? 'overdue' : 'due'].push(item);
  }
  const unjudged = missingForAmmonia(plan.limits, happened);
  for (const id of unjudged?.missing ?? []) {
    if (unjudged && ![...result.due, ...result.overdue].some((each) => each.id === id))
      result.due.push({ kind: 'reading', id, title: id, since: unjudged.at, says: JUDGES_AMMONIA });
  }
  return result;
}

const JUDGES_AMMONIA =
  'Measure pH and temperature, so that I can judge the ammonia reading. Until then I take the worst that is usual.';

function isAskedNow(plan: Plan, monitor: Monitor, { started, now, events }: Happened, holds: readonly HoldState[]) {
  const { during, untilStep, fromH, untilH } = monitor;
  if (during && phaseOf(plan, holds, during.hold) !== during.is) return false;
  if (untilStep && events.some((event) => event.kind === 'step-done' && event.step === untilStep)) return false;
  return now >= hoursAfter(started.at, fromH ?? 0) && (untilH === undefined || now < hoursAfter(started.at, untilH));
}

function measured({ what, step, everyH, graceH }: Monitor, { events, started }: Happened) {
  const last = events.findLast((event) =>
    what === 'step'
      ? event.kind === 'step-done' && event.step === step
      : event.kind === 'reading' && event.reading.parameter === what,
  );
  const since = last ? hoursAfter(last.at, everyH) : started.at;
  return { since, overdueAt: hoursAfter(since, graceH) };
}

/** A check-in belongs to a local day, however long the day is. */
function checkIn({ everyH }: Monitor, { events, started, days }: Happened) {
  const last = events.findLast(({ kind }) => kind === 'check-in') ?? started;
  const day = days.dayOf(last.at) + Math.max(1, Math.round(everyH / 24));
  return { since: days.startOf(day), overdueAt: days.startOf(day + 1) };
}
