import { Temporal } from 'temporal-polyfill';

/** "Every day at 19:00 where she lives": the local time and the IANA zone are the rule; instants follow from it. */
export type DailyRule = { timeOfDay: string; zone: string };

/** One turn of a daily rule. Its local date names it, so a clock jump or a change of the offset neither loses nor doubles it. */
export type Occurrence = { date: string; at: Date };

/** The zone by its IANA name as written in the data base, or null when there is no such zone. */
export function knownZone(text: string): string | null {
  const name = text.trim().replace(/\s+/g, '_');
  // An offset is no zone: it would be wrong for half of the year.
  if (name === '' || /^[+-]?\d|^(?:etc\/)?gmt[+-]/i.test(name)) return null;
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone;
  } catch {
    return null;
  }
}

/** "7pm", "19", "19.30", "7:30 pm" as "19:30"; null when it is no time of day. */
export function timeOfDayIn(text: string): string | null {
  const found = /^\s*(\d{1,2})(?:[:.h](\d{2}))?\s*(am|pm|h|o'clock)?\s*$/i.exec(text);
  if (!found) return null;
  const half = found[3]?.toLowerCase();
  let hour = Number(found[1]);
  const minute = Number(found[2] ?? 0);
  if ((half === 'am' || half === 'pm') && (hour < 1 || hour > 12)) return null;
  if (half === 'pm' && hour < 12) hour += 12;
  if (half === 'am' && hour === 12) hour = 0;
  return hour > 23 || minute > 59 ? null : `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
}

/** The local date at an instant. */
export const localDate = (now: Date, zone: string): string =>
  Temporal.Instant.fromEpochMilliseconds(now.getTime()).toZonedDateTimeISO(zone).toPlainDate().toString();

/** The hour of the day at an instant, 0 to 23. */
export const localHour = (now: Date, zone: string): number =>
  Temporal.Instant.fromEpochMilliseconds(now.getTime()).toZonedDateTimeISO(zone).hour;

/** A local date some days on. */
export const daysAfter = (date: string, days: number): string => Temporal.PlainDate.from(date).add({ days }).toString();

/**
 * The occurrence on a local date. An hour that the clocks skip is moved on by the skipped hour; of an hour that comes
 * twice the first counts ("compatible" in Temporal and in RFC 5545).
 */
export function occurrenceOn({ timeOfDay, zone }: DailyRule, date: string): Occurrence {
  const wall = Temporal.PlainDate.from(date).toPlainDateTime(Temporal.PlainTime.from(timeOfDay));
  return { date, at: new Date(wall.toZonedDateTime(zone, { disambiguation: 'compatible' }).epochMilliseconds) };
}

/** The first occurrence that lies after an instant. */
export function nextOccurrence(rule: DailyRule, after: Date): Occurrence {
  const today = localDate(after, rule.zone);
  for (let days = -1; days <= 2; days += 1) {
    const candidate = occurrenceOn(rule, daysAfter(today, days));
    if (candidate.at > after) return candidate;
  }
  throw new RangeError(`no occurrence of ${rule.timeOfDay} in ${rule.zone} within two days of ${after.toISOString()}`);
}
