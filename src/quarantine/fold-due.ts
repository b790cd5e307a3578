import { URGENCIES } from '../knowledge/sign.ts';
import type { Monitor, Plan } from '../knowledge/plan.ts';
import { limitsOf, readingsOf } from './fold-in-range.ts';
import type { Happened } from './fold-events.ts';
import { limitAlarms } from './fold-limits.ts';
import { hoursAfter } from './fold-moment.ts';
import type { Alarm, DueItem, HoldState, StepState } from './plan-state.ts';

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
    const hold = holds.find(({ id }) => id === monitor.during?.hold);
    const phase = hold?.reached ? 'over' : hold?.since ? 'counting' : 'before';
    if (monitor.during && (!hold || phase !== monitor.during.is)) continue;
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
  return result;
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

/** What cannot wait, the worst first: signs with no good check-in since, and the newest readings past a limit. */
export function alarmsNow(plan: Plan, happened: Happened, completed: boolean): Alarm[] {
  const { signs, events, started } = happened;
  const allWell = events.findLast((event) => event.kind === 'check-in' && event.signs.length === 0);
  const alarms: Alarm[] = [];
  if (plan.emergency !== undefined && !completed)
    alarms.push({ at: started.at, urgency: 'emergency', about: plan.id, says: plan.emergency });
  for (const { sign, urgency, at } of signs) {
    if (urgency !== 'watch' && (!allWell || at > allWell.at)) alarms.push({ at, urgency, about: sign, says: sign });
  }
  for (const { range } of plan.holds) {
    const limits = range && limitsOf(range, happened);
    const last = limits && readingsOf(range, limits, happened).at(-1);
    if (!last || alarms.some(({ about }) => about === range.reads)) continue;
    if (last.value >= (limits.stopAt ?? Infinity) || last.value > (limits.stopAbove ?? Infinity))
      alarms.push({ at: last.at, urgency: 'emergency', about: range.reads, says: range.stopSays ?? plan.never });
  }
  alarms.push(...limitAlarms(plan.limits, happened));
  return alarms.sort(
    (a, b) => URGENCIES.indexOf(a.urgency) - URGENCIES.indexOf(b.urgency) || a.at.getTime() - b.at.getTime(),
  );
}
