import type { Plan } from '../knowledge/plan.ts';
import { nextOccurrence } from '../schedule/local-time.ts';
import { hoursAfter } from './fold-moment.ts';
import type { EventOf, PlanEvent } from './plan-event.ts';
import type { PlanState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import { reminderTimes } from './reminder-times.ts';
import type { NextThings } from './start.view.ts';
import { dueTitle, ended, lookWords, optionWords } from './state-words.ts';

const DAY_H = 24;
/** Fewer than this are no closer than the daily one. */
const LEAST_CLOSER = 3;

type Begun = { quarantine: Quarantine; plan: Plan; state: PlanState; events: readonly PlanEvent[] };

/** What a keeper is told when it has just begun. */
export function nextThings({ quarantine, plan, state, events }: Begun, now: Date): NextThings {
  // What an emergency asks for first was said before everything else.
  const [due] = [...state.overdue, ...state.due].slice(plan.emergency === undefined ? 0 : 1);
  const step = state.steps.find(({ status, planned }) => status === 'coming' && planned !== null);
  const daily = nextOccurrence(quarantine, now).at;
  const closer = closerReminders({ quarantine, plan, state }, now);
  const measured = events.some((event) => event.kind === 'reading' && event.reading.parameter === 'temperature');
  return {
    first: due ? `${ended(dueTitle(due))} ${due.says}` : (step?.title ?? null),
    remindAt: [daily, ...closer].reduce((a, b) => (b < a ? b : a)),
    closer,
    end: state.endsEarliest,
    emergency: plan.emergency,
    waitsForTemperature: !measured && plan.runs.some(({ gap }) => gap.by !== undefined),
    option: optionWords(quarantine, plan, state),
    look: lookWords(plan),
  };
}

/** Reminders of steps in the first day, where there are several. */
function closerReminders({ quarantine, plan, state }: Omit<Begun, 'events'>, now: Date): Date[] {
  const times = reminderTimes(quarantine, plan, state, now, now)
    .filter(({ at, of }) => of.kind === 'step' && at > now && at < hoursAfter(now, DAY_H))
    .map(({ at }) => at);
  const different = times.filter((at, index) => times[index - 1]?.getTime() !== at.getTime());
  return different.length < LEAST_CLOSER ? [] : different;
}

/** The last temperature of a plan that ends for another, while it is younger than a day: the water is the same. */
export function temperatureCarried(before: readonly PlanEvent[], now: Date): EventOf<'reading'> | null {
  const last = before
    .filter((event) => event.kind === 'reading')
    .filter(({ at, reading }) => reading.parameter === 'temperature' && at <= now)
    .toSorted((a, b) => a.at.getTime() - b.at.getTime())
    .at(-1);
  return last && hoursAfter(last.at, DAY_H) > now ? last : null;
}
