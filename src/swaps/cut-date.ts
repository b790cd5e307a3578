import { daysAfter } from '../schedule/local-time.ts';
import { daysBetween } from '../upkeep/every.ts';

/** A piece is offered long after that only by a slip of the year. */
const MOST_YEARS = 5;
const DAYS_A_YEAR = 366;
const NUMBERS = ['a', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const WEEKDAYS = ['sunday', 'monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday'];
const UNITS: Readonly<Record<string, number>> = { day: 1, d: 1, week: 7, w: 7, fortnight: 14, month: 30, year: 365 };

export type CutDate = { kind: 'on'; date: string } | { kind: 'unreadable' | 'ahead' | 'long-ago' };

/**
 * When something was cut, as a local date: "today", "last week", "3 weeks ago", "Saturday", "2026-11-01", "1 Nov".
 * A day without its year is the last one that is past. "01/11" is read as nothing: half of the world would mean another day.
 */
export function readCutDate(text: string, today: string): CutDate {
  const typed = text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[.,]/g, ' ')
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/^(?:on|about|around|cut) /, '');
  const date = inWords(typed, today) ?? ofMonth(typed, today) ?? inFigures(typed);
  if (date === null) return { kind: 'unreadable' };
  const ago = daysBetween(date, today);
  if (ago < 0) return { kind: 'ahead' };
  return ago > MOST_YEARS * DAYS_A_YEAR ? { kind: 'long-ago' } : { kind: 'on', date };
}

function inWords(typed: string, today: string): string | null {
  if (/^(?:today|now|just now|this morning|tonight)$/.test(typed)) return today;
  if (/^(?:yesterday|last night)$/.test(typed)) return daysAfter(today, -1);
  const [, unit = ''] = /^last (week|fortnight|month|year)$/.exec(typed) ?? [];
  if (unit !== '') return daysAfter(today, -(UNITS[unit] ?? 0));
  const [, count = '', span = ''] =
    /^(\d{1,3}|[a-z]+) ?(day|d|week|w|fortnight|month|year)s?(?: ago)?$/.exec(typed) ?? [];
  const times = /^\d/.test(count) ? Number(count) : Math.max(1, NUMBERS.indexOf(count));
  if (span !== '' && (/^\d/.test(count) || NUMBERS.includes(count) || count === 'an'))
    return daysAfter(today, -times * (UNITS[span] ?? 0));
  return lastWeekday(typed.replace(/^last /, ''), today);
}

function lastWeekday(typed: string, today: string): string | null {
  if (typed.length < 3) return null;
  const wanted = WEEKDAYS.findIndex((name) => name.startsWith(typed));
  if (wanted < 0) return null;
  const [year = 0, month = 1, day = 1] = today.split('-').map(Number);
  const weekday = new Date(Date.UTC(year, month - 1, day)).getUTCDay();
  return daysAfter(today, -((weekday - wanted + 6) % 7) - 1);
}

/** "1 Nov", "Nov 1", "1st November 2026". */
function ofMonth(typed: string, today: string): string | null {
  const found =
    /^(?<day>\d{1,2})(?:st|nd|rd|th)? (?:of )?(?<month>[a-z]{3,9})(?: (?<year>\d{4}))?$/.exec(typed) ??
    /^(?<month>[a-z]{3,9}) (?<day>\d{1,2})(?:st|nd|rd|th)?(?: (?<year>\d{4}))?$/.exec(typed);
  const { day = '', month = '', year } = found?.groups ?? {};
  const at = MONTHS.findIndex((name) => month.startsWith(name));
  if (at < 0) return null;
  const thisYear = Number(today.slice(0, 4));
  const date = realDate(Number(year ?? thisYear), at + 1, Number(day));
  if (year !== undefined || date === null || date <= today) return date;
  return realDate(thisYear - 1, at + 1, Number(day));
}

function inFigures(typed: string): string | null {
  const [, year, month, day] = /^(\d{4})[-/ ](\d{1,2})[-/ ](\d{1,2})$/.exec(typed) ?? [];
  return year === undefined ? null : realDate(Number(year), Number(month), Number(day));
}

/** Null for days that the calendar does not have. */
function realDate(year: number, month: number, day: number): string | null {
  const at = new Date(Date.UTC(year, month - 1, day));
  return at.getUTCMonth() === month - 1 && at.getUTCDate() === day ? at.toISOString().slice(0, 10) : null;
}
