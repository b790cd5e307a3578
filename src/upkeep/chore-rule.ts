import {
  daysAfter,
  localDate,
  localHour,
  nextOccurrence,
  occurrenceOn,
  type DailyRule,
} from '../schedule/local-time.ts';
import { dateAfter, daysBetween, type Every } from './every.ts';

/** The reminder that comes next; `asked`: the member put it there with **Later**. */
export type NextReminder = { date: string; at: Date; asked: boolean };

/** A chore of a member that comes again and again, and how it stands. */
export type Chore = {
  id: number;
  guildId: string;
  memberId: string;
  /** Where it was added; reminders go there when the member takes no direct messages. */
  channelId: string;
  title: string;
  /** The suggestion that it came from. */
  idea: string | null;
  tankId: number | null;
  every: Every;
  rule: DailyRule;
  /** Local date on which it is due. It names the round, so that a round is answered once. */
  due: string;
  /** Null when reminders went unanswered for so long that they stopped. */
  next: NextReminder | null;
  /** Local date of the last reminder. */
  told: string | null;
  /** Names the message that told it last. */
  toldKey: string | null;
  /** Reminders of this round that nobody answered. */
  unanswered: number;
  /** Local date on which it was done last. */
  lastDone: string | null;
};

/** Days until the same round is told again; after the last of them the bot falls silent. */
const AGAIN_AFTER_DAYS = [1, 3, 7, 7] as const;
/** Nobody is written to at night, unless that is the time they chose. */
const QUIET_FROM_H = 22;
const QUIET_UNTIL = '08:00';
const QUIET_UNTIL_H = 8;
const ON_TIME_MS = 15 * 60_000;
const EVENING = '19:00';
const EVENING_LEAST_AHEAD_MS = 15 * 60_000;

/** When a planned reminder of a local date comes, or a later one where that date was told or is over. */
function plannedFrom({ rule, told }: Pick<Chore, 'rule' | 'told'>, date: string, now: Date): NextReminder {
  const earliest = told !== null && date <= told ? daysAfter(told, 1) : date;
  const planned = occurrenceOn(rule, earliest);
  if (planned.at > now) return { ...planned, asked: false };
  const ahead = nextOccurrence(rule, now);
  const next = told !== null && ahead.date <= told ? nextOccurrence(rule, ahead.at) : ahead;
  return { ...next, asked: false };
}

/** The first due date: as asked, or one interval from today. */
export const firstDue = (every: Every, zone: string, now: Date, asked: string | null): string =>
  asked ?? dateAfter(every, localDate(now, zone));

/** A chore that begins, or begins anew with another rhythm or hour. */
export const scheduled = <T extends Pick<Chore, 'rule' | 'told' | 'due'>>(chore: T, now: Date) => ({
  ...chore,
  next: plannedFrom(chore, chore.due, now),
  unanswered: 0,
});

export type Reminded =
  | { kind: 'told'; chore: Chore; date: string; at: Date; key: string }
  /** It is night where the member lives, so it waits for the morning. */
  | { kind: 'held'; chore: Chore };

/**
 * What a reminder that is due makes of a chore. However many rounds passed while the bot was away, it is told once.
 * A local date has one reminder at most, besides those that the member asked for.
 */
export function reminded(chore: Chore, now: Date): Reminded | null {
  const { next, rule } = chore;
  if (next === null || next.at > now) return null;
  const today = localDate(now, rule.zone);
  const hour = localHour(now, rule.zone);
  const isLate = now.getTime() - next.at.getTime() > ON_TIME_MS;
  if (isLate && (hour >= QUIET_FROM_H || hour < QUIET_UNTIL_H)) {
    const morning = occurrenceOn(
      { timeOfDay: QUIET_UNTIL, zone: rule.zone },
      hour >= QUIET_FROM_H ? daysAfter(today, 1) : today,
    );
    return { kind: 'held', chore: { ...chore, next: { ...morning, asked: next.asked } } };
  }
  const date = next.date >= today ? next.date : today;
  // A reminder that the member put before the due date is no answer that is missing.
  const isEarly = chore.due > date;
  const again = AGAIN_AFTER_DAYS[chore.unanswered];
  const key = `chore/${chore.id}/${date}${next.asked ? `/later/${next.at.getTime() / 60_000}` : ''}`;
  const told = { ...chore, told: date, toldKey: key, unanswered: isEarly ? 0 : chore.unanswered + 1 };
  const on = isEarly ? chore.due : again === undefined ? null : daysAfter(date, again);
  return {
    kind: 'told',
    date,
    at: next.at,
    key,
    chore: { ...told, next: on === null ? null : plannedFrom(told, on, now) },
  };
}

export type Answered = { kind: 'done' | 'skipped'; chore: Chore; date: string } | { kind: 'answered-already' };

/** The member did it on a local date. `round`: the one that a button speaks of; without it the present one. */
export function done(chore: Chore, now: Date, { round, on }: { round?: string; on?: string } = {}): Answered {
  const date = on ?? localDate(now, chore.rule.zone);
  if (round !== undefined && round !== chore.due) return { kind: 'answered-already' };
  if (chore.lastDone !== null && date <= chore.lastDone) return { kind: 'answered-already' };
  // Days of the week stay where they are; what was done early does not come again on the very day it was meant for.
  const from = chore.every.kind === 'weekdays' && chore.due > date ? chore.due : date;
  const due = dateAfter(chore.every, from);
  return { kind: 'done', date, chore: scheduled({ ...chore, due, lastDone: date }, now) };
}

/** The member leaves this round out: the next one comes where it would have come anyway. */
export function skipped(chore: Chore, now: Date, round?: string): Answered {
  if (round !== undefined && round !== chore.due) return { kind: 'answered-already' };
  const today = localDate(now, chore.rule.zone);
  let due = dateAfter(chore.every, chore.due);
  while (due <= today) due = dateAfter(chore.every, due);
  return { kind: 'skipped', date: today, chore: scheduled({ ...chore, due }, now) };
}

/** Puts the next reminder of this round to another moment; whatever was planned before it is gone. */
export const later = (chore: Chore, at: Date): Chore => ({
  ...chore,
  unanswered: 0,
  next: { date: localDate(at, chore.rule.zone), at, asked: true },
});

/** This evening, while it is ahead; null otherwise. */
export function thisEvening({ rule }: Pick<Chore, 'rule'>, now: Date): Date | null {
  const { at } = occurrenceOn({ timeOfDay: EVENING, zone: rule.zone }, localDate(now, rule.zone));
  return at.getTime() - now.getTime() >= EVENING_LEAST_AHEAD_MS ? at : null;
}

/** Tomorrow at the chore's own time. */
export const tomorrow = ({ rule }: Pick<Chore, 'rule'>, now: Date): Date =>
  occurrenceOn(rule, daysAfter(localDate(now, rule.zone), 1)).at;

/** A chore as it was before the last act. What was told meanwhile stays told, so no date gets a second reminder. */
export function restored(before: Chore, current: Chore, now: Date): Chore {
  const told =
    [before.told, current.told]
      .filter((date) => date !== null)
      .sort()
      .at(-1) ?? null;
  const kept = { ...before, told, toldKey: current.toldKey };
  const { next } = before;
  if (next === null || (next.at > now && (told === null || next.date > told))) return kept;
  return { ...kept, next: plannedFrom(kept, localDate(now, kept.rule.zone), now) };
}

/** How many days a chore is overdue; 0 when it is not. */
export const overdueDays = ({ due, rule }: Pick<Chore, 'due' | 'rule'>, now: Date): number =>
  Math.max(0, daysBetween(due, localDate(now, rule.zone)));

const DRIFT_OVER = 6;
const LEAST_FOR_DRIFT = 3;

/** How late it is done on average over the last times, in days; negative when early, null while there are too few. */
export function drift(rounds: readonly { due: string; done: string }[]): { days: number; times: number } | null {
  const last = rounds.slice(-DRIFT_OVER);
  if (last.length < LEAST_FOR_DRIFT) return null;
  const sum = last.reduce((days, { due, done: on }) => days + daysBetween(due, on), 0);
  return { days: sum / last.length, times: last.length };
}

/** An interval that fits what the member does, when it is off by a day or more; null otherwise. */
export function fittingEvery(every: Every, drifted: { days: number } | null): number | null {
  if (every.kind !== 'days' || drifted === null) return null;
  const fits = Math.max(1, Math.round(every.days + drifted.days));
  return fits === every.days ? null : fits;
}
