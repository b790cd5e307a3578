import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { knownZone, localDate, nextOccurrence, occurrenceOn, timeOfDayIn } from '../../../src/schedule/local-time.ts';

describe('timeOfDayIn', () => {
  test.each([
    ['19:30', '19:30'],
    ['7pm', '19:00'],
    ['7:30 pm', '19:30'],
    ['12 am', '00:00'],
    ['12 pm', '12:00'],
    ['7.05', '07:05'],
    ['19h', '19:00'],
    ['25:00', null],
    ['7:60', null],
    ['13 pm', null],
    ['0 am', null],
    ['evening', null],
    ['', null],
  ])('%s is %s', (text, time) => {
    expect(timeOfDayIn(text)).toBe(time);
  });
});

describe('knownZone', () => {
  test.each([
    ['Europe/Lisbon', 'Europe/Lisbon'],
    ['america/new york', 'America/New_York'],
    [' Asia/Kolkata ', 'Asia/Calcutta'],
    ['+02:00', null],
    ['GMT+2', null],
    ['Etc/GMT-3', null],
    ['Atlantis/Reef', null],
    ['', null],
  ])('%s is %s', (text, zone) => {
    const found = knownZone(text);
    // Engines differ in which of two names for one zone they keep.
    if (zone === 'Asia/Calcutta') expect(['Asia/Calcutta', 'Asia/Kolkata']).toContain(found);
    else expect(found).toBe(zone);
  });
});

// The rules of 2026 for London and New York: IANA time zone data base.
describe('occurrenceOn', () => {
  const london = (timeOfDay: string) => ({ timeOfDay, zone: 'Europe/London' });
  test('keeps the local hour when the clocks change', () => {
    expect(occurrenceOn(london('19:00'), '2026-03-28').at.toISOString()).toBe('2026-03-28T19:00:00.000Z');
    expect(occurrenceOn(london('19:00'), '2026-03-29').at.toISOString()).toBe('2026-03-29T18:00:00.000Z');
  });
  test('an hour that the clocks skip comes an hour later', () => {
    expect(occurrenceOn(london('01:30'), '2026-03-29').at.toISOString()).toBe('2026-03-29T01:30:00.000Z');
  });
  test('of an hour that comes twice the first counts', () => {
    expect(occurrenceOn(london('01:30'), '2026-10-25').at.toISOString()).toBe('2026-10-25T00:30:00.000Z');
  });
});

const zones = ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Pacific/Apia', 'Asia/Kathmandu', 'Etc/UTC'];

test('the next occurrence is the earliest one ahead, and days follow each other without gap or double', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...zones),
      fc.integer({ min: 0, max: 23 }),
      fc.integer({ min: 0, max: 59 }),
      fc.date({ min: new Date('2025-01-01'), max: new Date('2030-01-01'), noInvalidDate: true }),
      (zone, hour, minute, from) => {
        const timeOfDay = `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
        const rule = { timeOfDay, zone };
        let at = from;
        let last = '';
        for (let step = 0; step < 4; step += 1) {
          const next = nextOccurrence(rule, at);
          expect(next.at.getTime()).toBeGreaterThan(at.getTime());
          expect(next.at.getTime() - at.getTime()).toBeLessThanOrEqual(25.5 * 3_600_000);
          expect(next.date > last).toBe(true);
          expect(localDate(next.at, zone)).toBe(next.date);
          last = next.date;
          at = next.at;
        }
      },
    ),
    { numRuns: 300 },
  );
});
