import { describe, expect, test } from 'vitest';
import { daysAfter, nextOccurrence, occurrenceOn } from '../../../src/schedule/local-time.ts';
import { firstInstantShowing, wallClock } from './wall-clock-oracle.ts';

// Days on which the clocks change, by the IANA data base; Lord Howe changes by half an hour.
const CHANGES: readonly { zone: string; forward: string; back: string; skipped: string; twice: string; by: number }[] =
  [
    { zone: 'Europe/London', forward: '2026-03-29', back: '2026-10-25', skipped: '01:30', twice: '01:30', by: 60 },
    { zone: 'America/New_York', forward: '2026-03-08', back: '2026-11-01', skipped: '02:30', twice: '01:30', by: 60 },
    { zone: 'Australia/Sydney', forward: '2026-10-04', back: '2026-04-05', skipped: '02:30', twice: '02:30', by: 60 },
    {
      zone: 'Australia/Lord_Howe',
      forward: '2026-10-04',
      back: '2026-04-05',
      skipped: '02:15',
      twice: '01:45',
      by: 30,
    },
    { zone: 'America/Santiago', forward: '2026-09-06', back: '2026-04-05', skipped: '00:30', twice: '23:30', by: 60 },
  ];
/** In Santiago the hour before midnight comes twice, so it is the day before that has it. */
const dayOfTwice = ({ zone, back }: (typeof CHANGES)[number]) =>
  zone === 'America/Santiago' ? daysAfter(back, -1) : back;

describe.each(CHANGES)('$zone', (change) => {
  const { zone, forward, back, skipped, twice, by } = change;
  const shows = wallClock(zone);

  test('19:00 stays 19:00 on every day around both changes, once a day', () => {
    for (const day of [forward, back])
      for (let days = -3; days <= 3; days += 1) {
        const date = daysAfter(day, days);
        const { at } = occurrenceOn({ timeOfDay: '19:00', zone }, date);
        expect(at).toEqual(firstInstantShowing(zone, date, '19:00'));
        expect(nextOccurrence({ timeOfDay: '19:00', zone }, at).date).toBe(daysAfter(date, 1));
      }
  });

  test('a time that is skipped comes later by what was skipped, on the same date', () => {
    expect(firstInstantShowing(zone, forward, skipped)).toBeNull();
    const { at, date } = occurrenceOn({ timeOfDay: skipped, zone }, forward);
    const [hour = 0, minute = 0] = skipped.split(':').map(Number);
    const later = hour * 60 + minute + by;
    const words = `${String(Math.floor(later / 60)).padStart(2, '0')}:${String(later % 60).padStart(2, '0')}`;
    expect(shows(at)).toBe(`${forward} ${words}`);
    expect(date).toBe(forward);
    expect(nextOccurrence({ timeOfDay: skipped, zone }, at).date).toBe(daysAfter(forward, 1));
  });

  test('a time that comes twice counts the first time, once', () => {
    const date = dayOfTwice(change);
    const { at } = occurrenceOn({ timeOfDay: twice, zone }, date);
    expect(at).toEqual(firstInstantShowing(zone, date, twice));
    expect(shows(new Date(at.getTime() + by * 60_000))).toBe(`${date} ${twice}`);
    expect(nextOccurrence({ timeOfDay: twice, zone }, at).date).toBe(daysAfter(date, 1));
  });
});
