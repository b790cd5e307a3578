import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  doseGiven,
  doseSkipped,
  MOST_UNANSWERED,
  nextDose,
  reminded,
  stopped,
  type DoseCourse,
} from '../../../src/dosing/dose-course.ts';
import { nextOccurrence } from '../../../src/schedule/local-time.ts';

const rule = { timeOfDay: '19:00', zone: 'Europe/London' };
const begun = new Date('2026-11-25T12:00:00Z');
const course: DoseCourse = {
  id: 1,
  guildId: 'g',
  memberId: 'm',
  channelId: 'c',
  title: 'alkalinity 7 to 8.5 dKH',
  doses: Array.from({ length: 3 }, () => ({ words: '4.5 g', effect: null })),
  tankId: null,
  given: 0,
  rule,
  next: nextOccurrence(rule, begun),
  open: null,
  unanswered: 0,
  ended: null,
};
const HOUR = 3_600_000;
const after = (date: Date, hours: number) => new Date(date.getTime() + hours * HOUR);
const tell = (at: DoseCourse, now: Date) => {
  const told = reminded(at, now);
  if (!told) throw new Error('nothing was due');
  return told;
};

describe('a course of doses', () => {
  test('nothing is told before its time, and once at its time', () => {
    expect(reminded(course, new Date('2026-11-25T18:59:59Z'))).toBeNull();
    const now = new Date('2026-11-25T19:00:00Z');
    const { course: told, occurrence } = tell(course, now);
    expect(occurrence.date).toBe('2026-11-25');
    expect(reminded(told, now)).toBeNull();
    expect(told.next?.date).toBe('2026-11-26');
  });

  test('days that passed in silence are not made up', () => {
    const { course: told, occurrence } = tell(course, new Date('2026-11-28T08:00:00Z'));
    expect(occurrence.date).toBe('2026-11-28');
    expect(nextDose(told)).toEqual({ number: 1, of: 3, words: '4.5 g' });
    expect(told.next!.at > new Date('2026-11-28T08:00:00Z')).toBe(true);
    expect(told.next!.date).not.toBe('2026-11-28');
  });

  test('done counts once, and the last one ends it', () => {
    let at = course;
    for (let dose = 1; dose <= 3; dose += 1) {
      const now = at.next!.at;
      at = tell(at, now).course;
      const date = at.open!;
      const result = doseGiven(at, date, after(now, 0.1));
      if (result.kind === 'not-open') throw new Error('it was open');
      at = result.course;
      expect(at.given).toBe(dose);
      expect(doseGiven(at, date, now)).toEqual({ kind: 'not-open' });
    }
    expect(at).toMatchObject({ ended: 'finished', next: null });
    expect(nextDose(at)).toBeNull();
  });

  test('a dose given late in the day keeps its distance to the next', () => {
    const { course: told } = tell(course, new Date('2026-11-25T19:00:00Z'));
    const late = new Date('2026-11-26T18:50:00Z');
    const result = doseGiven(told, '2026-11-25', late);
    expect(result).toMatchObject({ kind: 'done', course: { next: { date: '2026-11-27' } } });
  });

  test('a day left out moves the rest on', () => {
    const { course: told } = tell(course, new Date('2026-11-25T19:00:00Z'));
    const result = doseSkipped(told, '2026-11-25', new Date('2026-11-25T19:05:00Z'));
    expect(result).toMatchObject({ kind: 'skipped', course: { given: 0, open: null, next: { date: '2026-11-26' } } });
  });

  test('falls silent when nobody answers, and wakes with an answer', () => {
    let at = course;
    let reminders = 0;
    for (let day = 0; day < 20 && at.ended === null; day += 1) {
      at = tell(at, at.next!.at).course;
      reminders += 1;
    }
    expect(at).toMatchObject({ ended: 'forgotten', next: null });
    expect(reminders).toBe(MOST_UNANSWERED + 1);
    const now = new Date('2026-12-20T10:00:00Z');
    const result = doseGiven(at, at.open!, now);
    expect(result).toMatchObject({ kind: 'done', course: { ended: null, given: 1, unanswered: 0 } });
    expect(result.kind === 'done' && result.course.next!.at > now).toBe(true);
  });

  test('stopped stays stopped', () => {
    const told = tell(course, new Date('2026-11-25T19:00:00Z')).course;
    const at = stopped(told);
    expect(reminded(at, new Date('2027-01-01T00:00:00Z'))).toBeNull();
    expect(doseGiven(at, '2026-11-25', new Date('2026-11-25T19:05:00Z'))).toEqual({ kind: 'not-open' });
  });
});

test('whatever is pressed and however long the bot sleeps: one reminder a local date, never more doses than planned', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.constantFrom('done', 'skip', 'nothing', 'again'), fc.integer({ min: 1, max: 100 })), {
        maxLength: 40,
      }),
      (steps) => {
        let at = course;
        let now = begun;
        const dates: string[] = [];
        const givenAt: number[] = [];
        for (const [press, hours] of steps) {
          now = after(now, hours);
          const told = reminded(at, now);
          if (told) {
            dates.push(told.occurrence.date);
            at = told.course;
          }
          const date = press === 'again' ? (dates.at(-1) ?? '') : (at.open ?? '');
          const result =
            press === 'skip' ? doseSkipped(at, date, now) : press === 'nothing' ? null : doseGiven(at, date, now);
          if (result?.kind === 'done') givenAt.push(now.getTime());
          if (result && result.kind !== 'not-open') at = result.course;
        }
        expect(new Set(dates).size).toBe(dates.length);
        expect(dates).toEqual(dates.toSorted());
        expect(at.given).toBe(givenAt.length);
        expect(at.given).toBeLessThanOrEqual(at.doses.length);
      },
    ),
    { numRuns: 500 },
  );
});
