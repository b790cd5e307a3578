import fc from 'fast-check';
import ICAL from 'ical.js';
import { expect, test } from 'vitest';
import { calendarFile, type CalendarEntry } from '../../../src/schedule/calendar-file.ts';
import { occurrenceOn } from '../../../src/schedule/local-time.ts';

const made = new Date('2026-11-25T12:00:00Z');

/** What a general-purpose parser makes of a file. */
function parsed(text: string) {
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
  return calendar.getAllSubcomponents('vevent').map((part) => {
    const event = new ICAL.Event(part);
    return {
      id: event.uid,
      title: event.summary,
      says: event.description,
      at: event.startDate.toJSDate(),
      until: event.endDate.toJSDate(),
      alarms: part.getAllSubcomponents('valarm').length,
    };
  });
}

test('opens in a general-purpose parser with the times of the plan, across a change of the clocks', () => {
  const rule = { timeOfDay: '19:00', zone: 'Europe/Lisbon' };
  const entries = ['2026-03-27', '2026-03-28', '2026-03-29', '2026-10-24', '2026-10-25'].map((date) => ({
    id: `step-${date}@reef-club-bot`,
    title: 'Transfer 1; tank A → B',
    says: 'Nothing wet crosses.\nRemind the others, too.',
    at: occurrenceOn(rule, date).at,
    remindBeforeMin: 60,
  }));
  const text = calendarFile('Clownfish, quarantine', entries, made);
  expect(text.startsWith('BEGIN:VCALENDAR\r\nVERSION:2.0')).toBe(true);
  expect(parsed(text)).toEqual(
    entries.map(({ id, title, says, at }) => ({
      id,
      title,
      says,
      at,
      until: new Date(at.getTime() + 1_800_000),
      alarms: 1,
    })),
  );
});

test('whatever the words, the parser reads them back, and no line is longer than 75 octets', () => {
  const words = fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 120 })
    .map((text) => text.replace(/[\r\n\0-\x1f\x7f]/g, ' ').trim() || 'x');
  fc.assert(
    fc.property(
      words,
      words,
      fc.date({ min: new Date('2020-01-01'), max: new Date('2040-01-01'), noInvalidDate: true }),
      (title, says, at) => {
        const whole = new Date(Math.floor(at.getTime() / 1000) * 1000);
        const entry: CalendarEntry = { id: 'one@reef-club-bot', title, says, at: whole };
        const text = calendarFile('Plan', [entry], made);
        const [event] = parsed(text);
        expect(event).toMatchObject({ title, says, at: whole });
        for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      },
    ),
    { numRuns: 200 },
  );
});

test('entries that would overwrite each other, or end before they begin, are mistakes', () => {
  const entry = { id: 'a', title: 'A', says: 'A.', at: made };
  expect(() => calendarFile('Plan', [entry, entry], made)).toThrow(RangeError);
  expect(() => calendarFile('Plan', [{ ...entry, until: new Date(0) }], made)).toThrow(RangeError);
});
