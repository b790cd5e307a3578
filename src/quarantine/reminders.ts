import type { Plan } from '../knowledge/plan.ts';
import { daysBetween } from '../upkeep/every.ts';
import type { PlanState } from './plan-state.ts';
import type { Quarantine, Reminding } from './quarantine.ts';
import { isNight, morningAfter, reminderTimes, type Reminder } from './reminder-times.ts';

/** Daily reminders in a row that nobody answers before they come weekly, and before they stop. */
const DAILY_UNANSWERED = 7;
const MOST_UNANSWERED = 11;
const WEEK_DAYS = 7;
/** More keys than any plan has in the time in which one could come back. */
const MOST_KEYS = 80;
const ON_TIME_MS = 15 * 60_000;

export type ToRemind = {
  /** What is told now, the first first; empty: nothing. */
  tell: readonly Reminder[];
  /** The last of the daily ones: the bot falls silent after it. */
  isLast: boolean;
  reminding: Reminding;
  /** When to look again; null: not before something happens. */
  next: Date | null;
};

/**
 * What a look at a quarantine tells its keeper, and when to look again.
 *
 * Pure: the same look at the same entries gives the same keys, and a key that was told is never told again, whatever the clock
 * does. Everything that became due since the last look is one message. At night it waits for the morning, unless a limit passes
 * before that. What the member put off stays away until then, but for a last call.
 *
 * @param events how many entries it has: a new one answers the reminders before it.
 */
export function toRemind(
  quarantine: Quarantine,
  plan: Plan,
  state: PlanState,
  kept: Reminding | null,
  events: number,
  now: Date,
): ToRemind {
  const { startedAt } = state;
  const before = kept ?? { told: [], until: startedAt ?? now, later: null, unanswered: 0, seen: events };
  if (!startedAt) return { tell: [], isLast: false, reminding: before, next: null };
  const answered = before.seen !== events;
  const reminding: Reminding = { ...before, seen: events, unanswered: answered ? 0 : before.unanswered };
  const times = reminderTimes(quarantine, plan, state, reminding.until, now);
  const passed = times.filter(({ key, at }) => at <= now && at > startedAt && !reminding.told.includes(key));
  const fresh = passed.filter(({ at }) => at > reminding.until);
  const wanted = fresh.filter((each) => isWanted(each, plan, state, reminding, quarantine));
  const isPutOff = reminding.later !== null && reminding.later > now;
  const asked: Reminder[] =
    reminding.later !== null && !isPutOff
      ? [
          {
            key: `quarantine/${quarantine.id}/later/${minuteOf(reminding.later)}`,
            at: reminding.later,
            of: { kind: 'repeat' },
          },
        ]
      : [];
  const tell = [...asked.filter(() => hasWork(state)), ...(isPutOff ? wanted.filter(isLastCall) : wanted)];
  const next = nextLook(times, state, reminding, now);

  const isLate = tell.every(({ at }) => now.getTime() - at.getTime() > ON_TIME_MS);
  if (tell.length > 0 && isLate && !tell.some(isLastCall) && isNight(now, quarantine.zone))
    return { tell: [], isLast: false, reminding, next: morningAfter(now, quarantine.zone) };

  const daily = tell.some(({ of }) => of.kind === 'daily');
  const unanswered = reminding.unanswered + (daily ? 1 : 0);
  return {
    tell,
    isLast: daily && unanswered === MOST_UNANSWERED,
    reminding: {
      told: [...reminding.told, ...tell.map(({ key }) => key)].slice(-MOST_KEYS),
      // A clock that goes back must not make old moments fresh.
      until: now > reminding.until ? now : reminding.until,
      later: isPutOff ? reminding.later : null,
      unanswered,
      seen: events,
    },
    next,
  };
}

const minuteOf = (at: Date) => Math.floor(at.getTime() / 60_000);
const isLastCall = ({ of }: Reminder) => of.kind === 'last-call';
const hasWork = ({ due, overdue, completed }: PlanState) => completed !== null || due.length + overdue.length > 0;

function isWanted(
  { of, at }: Reminder,
  plan: Plan,
  state: PlanState,
  { told, unanswered }: Reminding,
  { id }: Quarantine,
): boolean {
  const counts = new Set<string>(plan.holds.flatMap(({ range }) => range?.reads ?? []));
  const open = [...state.due, ...state.overdue].filter(
    ({ kind, id: reads, since }) => since <= at && (kind !== 'reading' || counts.has(reads)),
  );
  switch (of.kind) {
    case 'daily': {
      if (open.length === 0 || unanswered >= MOST_UNANSWERED) return false;
      if (unanswered < DAILY_UNANSWERED) return true;
      const last = told
        .findLast((key) => /^quarantine\/\d+\/\d{4}-\d\d-\d\d$/.test(key))
        ?.slice(`quarantine/${id}/`.length);
      return last === undefined || daysBetween(last, of.date) >= WEEK_DAYS;
    }
    case 'readings':
      return unanswered < DAILY_UNANSWERED && open.some(({ kind }) => kind === 'reading');
    case 'repeat':
      return open.some(({ kind }) => kind === 'reading');
    default:
      return true;
  }
}

/** The next moment at which anything can be due. */
function nextLook(
  times: readonly Reminder[],
  state: PlanState,
  { told, later, until }: Reminding,
  now: Date,
): Date | null {
  if (state.completed) return null;
  const ahead = [
    ...times.flatMap(({ key, at }) => (told.includes(key) || at <= until ? [] : [at])),
    ...state.holds.flatMap(({ endsEarliest }) => endsEarliest ?? []),
    ...(later ? [later] : []),
    // The clock went back: nothing is fresh until it is where it was.
    until,
  ].filter((at) => at > now);
  return ahead.reduce<Date | null>((first, at) => (first === null || at < first ? at : first), null);
}

/** The local dates of the daily looks that were told together, the last one left out: what was missed while nothing could be sent. */
export const missedDates = (tell: readonly Reminder[]): string[] =>
  tell.flatMap(({ of }) => (of.kind === 'daily' ? [of.date] : [])).slice(0, -1);

/** A reminder put off to an instant; anything put off before is replaced. */
export const putOff = (kept: Reminding, later: Date): Reminding => ({ ...kept, later, unanswered: 0 });
