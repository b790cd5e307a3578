import type { Plan } from '../knowledge/plan.ts';
import { daysAfter, localDate, localHour, occurrenceOn } from '../schedule/local-time.ts';
import { HOUR_MS, hoursAfter } from './fold-moment.ts';
import type { PlanState, StepState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';

/** Why a reminder is due. `ahead`: of a step that comes; `last-call`: a step is still open shortly before its limit. */
export type RemindedOf =
  | { kind: 'daily'; date: string }
  | { kind: 'readings' }
  | { kind: 'repeat' }
  | { kind: 'step' | 'ahead' | 'last-call'; step: StepState }
  | { kind: 'complete' };

/** One moment at which a keeper is told something. Its key names it for good, so it is told once. */
export type Reminder = { key: string; at: Date; of: RemindedOf };

/** Nobody is written to at night, unless that is the time they chose or a limit would pass. */
const QUIET_FROM_H = 22;
const MORNING_H = 8;
const MORNING = '08:00';
const EVENING = '21:00';
const MOST_DAYS_BACK = 60;
/** Tests that are due twice a day are asked for at a second time, half a day from the first but in waking hours. */
const TWICE_A_DAY_H = 12;
const LAST_CALL_H = { least: 1, most: 6 };

/** Whether it is night at an instant where a member lives. */
export function isNight(at: Date, zone: string): boolean {
  const hour = localHour(at, zone);
  return hour >= QUIET_FROM_H || hour < MORNING_H;
}

/** The morning that ends the night of an instant. */
export function morningAfter(at: Date, zone: string): Date {
  const today = localDate(at, zone);
  const date = localHour(at, zone) >= QUIET_FROM_H ? daysAfter(today, 1) : today;
  return occurrenceOn({ timeOfDay: MORNING, zone }, date).at;
}

/**
 * A moment of the night moved to the morning; where the limit would pass before it, to the evening before: a reminder
 * that comes early keeps a plan, one that comes late does not.
 */
export function awake(at: Date, limit: Date | null, zone: string): Date {
  if (!isNight(at, zone)) return at;
  const morning = morningAfter(at, zone);
  if (limit === null || morning.getTime() + HOUR_MS <= limit.getTime()) return morning;
  const date = daysAfter(localDate(morning, zone), -1);
  return occurrenceOn({ timeOfDay: EVENING, zone }, date).at;
}

/**
 * Every moment at which a quarantine wants to be told, as it stands: the daily looks from `since` until the day after
 * `now`, and all that steps, readings and the end ask for, past and to come. In order of time.
 */
export function reminderTimes(
  quarantine: Quarantine,
  plan: Plan,
  state: PlanState,
  since: Date,
  now: Date,
): Reminder[] {
  const { id, zone } = quarantine;
  const key = (...parts: (string | number)[]) => ['quarantine', id, ...parts].join('/');
  if (state.completed) return [{ key: key('complete'), at: state.completed, of: { kind: 'complete' } }];
  const repeats = state.holds.flatMap(({ repeatFrom: at }): Reminder[] =>
    at ? [{ key: key('repeat', minuteOf(at)), at, of: { kind: 'repeat' } }] : [],
  );
  const steps = state.steps
    .filter(({ doneAt, planned }) => doneAt === null && planned !== null)
    .flatMap((step) => stepTimes(step, zone, key));
  return [...dailyTimes(quarantine, plan, since, now, key), ...repeats, ...steps].sort(
    (a, b) => a.at.getTime() - b.at.getTime(),
  );
}

const minuteOf = (at: Date) => Math.floor(at.getTime() / 60_000);
type Key = (...parts: (string | number)[]) => string;

function dailyTimes({ zone, timeOfDay }: Quarantine, plan: Plan, since: Date, now: Date, key: Key): Reminder[] {
  const tomorrow = daysAfter(localDate(now, zone), 1);
  const earliest = daysAfter(tomorrow, -MOST_DAYS_BACK);
  const begun = localDate(since, zone);
  const second = plan.monitors.some(({ what, everyH }) => what !== 'check-in' && everyH <= TWICE_A_DAY_H)
    ? halfADayFrom(timeOfDay)
    : null;
  const times: Reminder[] = [];
  for (let date = begun > earliest ? begun : earliest; date <= tomorrow; date = daysAfter(date, 1)) {
    const { at } = occurrenceOn({ timeOfDay, zone }, date);
    times.push({ key: key(date), at, of: { kind: 'daily', date } });
    if (second !== null)
      times.push({
        key: key(date, 'readings'),
        at: occurrenceOn({ timeOfDay: second, zone }, date).at,
        of: { kind: 'readings' },
      });
  }
  return times;
}

/** Half a day from a time of day, and never in the night. */
function halfADayFrom(timeOfDay: string): string {
  const hour = (Number(timeOfDay.slice(0, 2)) + TWICE_A_DAY_H) % 24;
  return hour >= QUIET_FROM_H || hour < MORNING_H ? MORNING : `${String(hour).padStart(2, '0')}${timeOfDay.slice(2)}`;
}

function stepTimes(step: StepState, zone: string, key: Key): Reminder[] {
  const { id, planned, latest, projected, remindH } = step;
  if (!planned) return [];
  const date = localDate(planned, zone);
  const told = (
    hours: number,
    limit: Date | null,
    kind: 'step' | 'ahead' | 'last-call',
    ...named: (string | number)[]
  ) => ({
    key: key(id, ...named),
    at: awake(hoursAfter(planned, hours), limit, zone),
    of: { kind, step },
  });
  // What waits for something else has no date of its own yet: it is announced once.
  if (projected)
    return remindH.filter((hours) => hours > 0).map((hours) => told(-hours, planned, 'ahead', hours, 'expected'));
  const times: Reminder[] = remindH.map((hours) =>
    hours > 0 ? told(-hours, planned, 'ahead', hours, date) : told(-hours, latest, 'step', hours, date),
  );
  if (latest && latest > planned && remindH.every((hours) => hours >= 0)) {
    const windowH = (latest.getTime() - planned.getTime()) / HOUR_MS;
    const left = Math.min(LAST_CALL_H.most, Math.max(LAST_CALL_H.least, windowH / 2));
    times.push(told(windowH - left, latest, 'last-call', 'last', date));
  } else if (latest) {
    // The plan names the hours after the planned moment itself: the last of them is the last call.
    const last = times.findLast(({ of }) => of.kind === 'step');
    if (last) last.of = { kind: 'last-call', step };
  }
  return times;
}
