import { Temporal } from 'temporal-polyfill';

/** How often a chore comes: some days after it was done, or on days of the week (1 is Monday). */
export type Every = { kind: 'days'; days: number } | { kind: 'weekdays'; weekdays: readonly number[] };

export const MOST_DAYS = 366;
const NAMES = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const;
const SPANS: Readonly<Record<string, number>> = { day: 1, week: 7, fortnight: 14, month: 30, quarter: 91, year: 365 };
const ADVERBS: Readonly<Record<string, number>> = {
  daily: 1,
  weekly: 7,
  fortnightly: 14,
  monthly: 30,
  quarterly: 91,
  yearly: 365,
};

/** "30 days", "every 2 weeks", "month", "Sat", "Mon and Thu", "weekdays"; null when it is none of these. */
export function readEvery(text: string): Every | null {
  const typed = text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/^\s*(?:every|each|on)\s+/, '')
    .trim();
  if (typed === 'weekdays') return { kind: 'weekdays', weekdays: [1, 2, 3, 4, 5] };
  if (typed === 'weekends' || typed === 'weekend') return { kind: 'weekdays', weekdays: [6, 7] };
  const days = daysIn(typed);
  if (days !== null) return days >= 1 && days <= MOST_DAYS ? { kind: 'days', days } : null;
  const words = typed.split(/[\s,;/+&]+|\band\b/).filter((word) => word !== '' && word !== 'and');
  const found = words.map((word) => weekdayIn(word));
  if (found.length === 0 || found.some((day) => day === null)) return null;
  const weekdays = [...new Set(found.filter((day) => day !== null))].sort((a, b) => a - b);
  return { kind: 'weekdays', weekdays };
}

function daysIn(typed: string): number | null {
  const adverb = ADVERBS[typed];
  if (adverb !== undefined) return adverb;
  if (typed === 'other day' || typed === 'second day') return 2;
  const [, count, unit] = /^(\d{1,4}|an?|one)?\s*(day|d|week|wk|fortnight|month|quarter|year)?s?$/.exec(typed) ?? [];
  if (count === undefined && unit === undefined) return null;
  const times = count === undefined || !/^\d/.test(count) ? 1 : Number(count);
  const span = unit === 'd' ? 1 : unit === 'wk' ? 7 : (SPANS[unit ?? 'day'] ?? 1);
  return times * span;
}

function weekdayIn(word: string): number | null {
  if (word.length < 2) return null;
  const at = NAMES.findIndex((name) => {
    const day = name.toLowerCase();
    return day.startsWith(word) || `${day}s` === word;
  });
  return at < 0 ? null : at + 1;
}

/** As it stands in a sentence: "every 30 days", "every Saturday and Sunday". */
export function everyInWords(every: Every): string {
  if (every.kind === 'days') return every.days === 1 ? 'every day' : `every ${every.days} days`;
  if (every.weekdays.length === 7) return 'every day';
  const names = every.weekdays.map((day) => NAMES[day - 1] ?? '');
  return `every ${names.length > 1 ? `${names.slice(0, -1).join(', ')} and ${names.at(-1)}` : names.join('')}`;
}

/** As it is typed again: "30 days", "Saturday, Sunday". */
export const everyAsTyped = (every: Every): string =>
  every.kind === 'days' ? `${every.days} days` : every.weekdays.map((day) => NAMES[day - 1] ?? '').join(', ');

const plus = (date: string, days: number): string => Temporal.PlainDate.from(date).add({ days }).toString();

/** The first local date after `date` on which the chore falls. */
export function dateAfter(every: Every, date: string): string {
  if (every.kind === 'days') return plus(date, every.days);
  for (let days = 1; days <= 7; days += 1) {
    const candidate = plus(date, days);
    if (every.weekdays.includes(Temporal.PlainDate.from(candidate).dayOfWeek)) return candidate;
  }
  throw new RangeError('a chore on weekdays names at least one');
}

/** Whole days from one local date to another; negative when the second lies before the first. */
export const daysBetween = (from: string, to: string): number =>
  Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: 'day' }).days;

/** "today", "tomorrow", "in 5 days", "Sat", "2026-12-01", as a local date that is not over; null when it is none. */
export function readDay(text: string, today: string): string | null {
  const typed = text.normalize('NFKC').trim().toLowerCase().replace(/\s+/g, ' ');
  if (typed === 'today' || typed === 'tonight' || typed === 'now') return today;
  if (typed === 'tomorrow') return plus(today, 1);
  const [, count, unit] = /^in (\d{1,3}|an?) (day|week)s?$/.exec(typed) ?? [];
  if (count !== undefined) {
    const days = (/^\d/.test(count) ? Number(count) : 1) * (unit === 'week' ? 7 : 1);
    return days <= MOST_DAYS ? plus(today, days) : null;
  }
  const weekday = weekdayIn(typed.replace(/^(?:on|next) /, ''));
  if (weekday !== null) return dateAfter({ kind: 'weekdays', weekdays: [weekday] }, today);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(typed)) return null;
  try {
    const date = Temporal.PlainDate.from(typed, { overflow: 'reject' }).toString();
    const ahead = daysBetween(today, date);
    return ahead >= 0 && ahead <= MOST_DAYS ? date : null;
  } catch {
    return null;
  }
}
