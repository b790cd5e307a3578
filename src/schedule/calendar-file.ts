import ical, { ICalAlarmType, ICalCalendarMethod } from 'ical-generator';

/** One entry of a calendar file. Times are instants: they are right whatever zone the calendar is read in. */
export type CalendarEntry = {
  /** The same entry keeps its id, so that a newer file moves it and does not double it. */
  id: string;
  title: string;
  says: string;
  at: Date;
  /** Absent: a moment that takes half an hour of the day. */
  until?: Date;
  /** Minutes before `at` at which the calendar reminds by itself; absent: never. */
  remindBeforeMin?: number;
};

const SHORTEST_MS = 30 * 60_000;

/**
 * A calendar file.
 *
 * Standard: RFC 5545 (iCalendar); lines are folded at 75 octets and times are in UTC.
 *
 * @throws RangeError when an entry ends before it begins, or two entries share an id.
 */
export function calendarFile(name: string, entries: readonly CalendarEntry[], madeAt: Date): string {
  const ids = new Set(entries.map(({ id }) => id));
  if (ids.size < entries.length) throw new RangeError('two entries of a calendar share an id');
  const calendar = ical({
    name,
    prodId: { company: 'reef-club-bot', product: 'calendar', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
  });
  for (const { id, title, says, at, until, remindBeforeMin } of entries) {
    const end = until ?? new Date(at.getTime() + SHORTEST_MS);
    if (end < at) throw new RangeError(`"${title}" ends before it begins`);
    const event = calendar.createEvent({ id, summary: title, description: says, start: at, end, stamp: madeAt });
    if (remindBeforeMin !== undefined)
      event.createAlarm({ type: ICalAlarmType.display, triggerBefore: remindBeforeMin * 60, description: title });
  }
  return calendar.toString();
}
