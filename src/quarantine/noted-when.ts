import { daysAfter, localDate, occurrenceOn, timeOfDayIn } from '../schedule/local-time.ts';
import { readWhen, type When } from '../tanks/when.ts';
import { hoursAfter } from './fold-moment.ts';

/** What lies further back is a slip of the date. */
export const MOST_DAYS_BACK = 60;

export type NotedWhen = { kind: 'at'; at: Date } | { kind: 'unreadable' | 'ahead' | 'long-ago' | 'before-start' };

const CLOCK =
  /^(?:(today|yesterday|\d{4}-\d{1,2}-\d{1,2}) *(?:at)? *)?(\d{1,2}[:.]\d{2} *(?:am|pm)?|\d{1,2} *(?:am|pm))$/i;

/**
 * When something happened, in a keeper's own words and on their own clock: "now", "2 h ago", "19:30", "yesterday 7 pm",
 * "2026-11-20 18:30". A time alone that has not come yet is that of yesterday.
 */
export function notedWhen(text: string, zone: string, startedAt: Date | null, now: Date): NotedWhen {
  const read = onTheClock(text.normalize('NFKC').trim(), zone, now) ?? readWhen(text, now);
  if (read.kind !== 'at') return { kind: read.kind };
  if (read.at > now) return { kind: 'ahead' };
  if (read.at < hoursAfter(now, -MOST_DAYS_BACK * 24)) return { kind: 'long-ago' };
  return startedAt && read.at < startedAt ? { kind: 'before-start' } : read;
}

function onTheClock(text: string, zone: string, now: Date): When | null {
  const [, day, time = ''] = CLOCK.exec(text) ?? [];
  const timeOfDay = timeOfDayIn(time);
  if (timeOfDay === null) return null;
  const today = localDate(now, zone);
  const named = day?.toLowerCase();
  const written = dateIn(named);
  const date = named === 'yesterday' ? daysAfter(today, -1) : written === undefined ? today : written;
  if (date === null) return { kind: 'unreadable' };
  const { at } = occurrenceOn({ timeOfDay, zone }, date);
  return {
    kind: 'at',
    at: named === undefined && at > now ? occurrenceOn({ timeOfDay, zone }, daysAfter(date, -1)).at : at,
  };
}

/** A date that is there, with its zeros; undefined where none was written. */
function dateIn(named: string | undefined): string | null | undefined {
  const [, year, month, day] = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(named ?? '') ?? [];
  if (!year || !month || !day) return undefined;
  const at = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
  return at.getUTCMonth() === Number(month) - 1 ? at.toISOString().slice(0, 10) : null;
}
