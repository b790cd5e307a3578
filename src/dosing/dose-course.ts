import type { DoseInCourse } from '../calculators/dose-in-course.ts';
import { localDate, nextOccurrence, type DailyRule, type Occurrence } from '../schedule/local-time.ts';

/** A dose that is split over days, and of which the bot reminds its member until the last one is in. */
export type DoseCourse = {
  id: number;
  guildId: string;
  memberId: string;
  /** Where the member asked; reminders go there when they take no direct messages. */
  channelId: string;
  /** What it is for: "alkalinity 7 to 8.5 dKH, Reef one". */
  title: string;
  /** One a day, in order. */
  doses: readonly DoseInCourse[];
  /** The kept tank that they go into. */
  tankId: number | null;
  /** How many are known to be in. */
  given: number;
  rule: DailyRule;
  /** The reminder that comes next; null once the course is over. */
  next: Occurrence | null;
  /** Local date of the last reminder that went out and was not answered. */
  open: string | null;
  /** Reminders in a row that nobody answered. */
  unanswered: number;
  ended: 'finished' | 'stopped' | 'forgotten' | null;
};

/** After so many unanswered reminders the bot falls silent: somebody who does not look is not dosing either. */
export const MOST_UNANSWERED = 3;

export type Answered = { kind: 'done' | 'skipped'; course: DoseCourse } | { kind: 'not-open' };

/** Somebody who says late in the day that a dose is in may have given it just now; the next one keeps this distance. */
const LEAST_APART_MS = 12 * 3_600_000;

/**
 * What a reminder that is due makes of a course. Days missed while the bot was away are not made up: a dose belongs to a
 * day, and two in one day would break the daily cap. The doses left simply follow later.
 */
export function reminded(course: DoseCourse, now: Date): { course: DoseCourse; occurrence: Occurrence } | null {
  const { next, rule } = course;
  if (course.ended !== null || next === null || next.at > now) return null;
  const today = localDate(now, rule.zone);
  // A reminder that is a little late, past midnight too, is still that of its day; otherwise the present day stands for all missed.
  const isItsDay = next.date >= today || now.getTime() - next.at.getTime() < LEAST_APART_MS;
  const occurrence = isItsDay ? next : { date: today, at: now };
  const unanswered = course.open === null ? course.unanswered : course.unanswered + 1;
  const isForgotten = unanswered >= MOST_UNANSWERED;
  return {
    occurrence,
    course: {
      ...course,
      open: occurrence.date,
      unanswered,
      next: isForgotten ? null : nextDayAfter(rule, now, occurrence.date),
      ended: isForgotten ? 'forgotten' : null,
    },
  };
}

/** A local date has one reminder at most: the next one is of a later date, and ahead. */
function nextDayAfter(rule: DailyRule, now: Date, date: string): Occurrence {
  const next = nextOccurrence(rule, now);
  return next.date > date ? next : nextOccurrence(rule, next.at);
}

const isOpen = ({ ended, open }: DoseCourse, date: string): boolean =>
  ended !== 'stopped' && ended !== 'finished' && open === date;

/** The member says that the dose of that reminder is in. A reminder counts once, and only the open one. */
export function doseGiven(course: DoseCourse, date: string, now: Date): Answered {
  if (!isOpen(course, date)) return { kind: 'not-open' };
  const given = course.given + 1;
  const isOver = given >= course.doses.length;
  const next = isOver ? null : nextDayAfter(course.rule, new Date(now.getTime() + LEAST_APART_MS), date);
  return {
    kind: 'done',
    course: { ...course, given, open: null, unanswered: 0, next, ended: isOver ? 'finished' : null },
  };
}

/** The member leaves that day out: the same dose comes on the next day, and the course ends a day later. */
export function doseSkipped(course: DoseCourse, date: string, now: Date): Answered {
  if (!isOpen(course, date)) return { kind: 'not-open' };
  const next = nextDayAfter(course.rule, now, date);
  return { kind: 'skipped', course: { ...course, open: null, unanswered: 0, next, ended: null } };
}

export const stopped = (course: DoseCourse): DoseCourse =>
  course.ended === null || course.ended === 'forgotten'
    ? { ...course, next: null, open: null, ended: 'stopped' }
    : course;

/** The dose that comes next, counted from 1; null when all are in. */
export function nextDose({ doses, given }: DoseCourse): { number: number; of: number; words: string } | null {
  const dose = doses[given];
  return dose === undefined ? null : { number: given + 1, of: doses.length, words: dose.words };
}
