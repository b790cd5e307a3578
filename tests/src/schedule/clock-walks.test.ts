import fc from 'fast-check';
import { expect, test } from 'vitest';
import { reminded, doseGiven, type DoseCourse } from '../../../src/dosing/dose-course.ts';
import { localDate, nextOccurrence, occurrenceOn } from '../../../src/schedule/local-time.ts';

const SEED = 20_261_125;
const WALKS = 10_000;
const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;
const ZONES = ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'America/Santiago', 'Asia/Kathmandu'];
/** Days from which a walk soon meets a change of the clocks, and one far from any. */
const STARTS = ['2026-03-05', '2026-03-26', '2026-04-02', '2026-09-03', '2026-10-01', '2026-10-22', '2026-07-01'];

const step = fc.oneof(
  // The clock runs and the program looks.
  { weight: 6, arbitrary: fc.integer({ min: MINUTE_MS, max: 8 * HOUR_MS }) },
  // Away, or set ahead.
  { weight: 2, arbitrary: fc.integer({ min: HOUR_MS, max: 3 * DAY_MS }) },
  // Set back.
  { weight: 2, arbitrary: fc.integer({ min: -DAY_MS, max: -MINUTE_MS }) },
  // Frozen.
  { weight: 1, arbitrary: fc.constant(0) },
);
const walk = fc.record({
  zone: fc.constantFrom(...ZONES),
  minutes: fc.oneof(fc.integer({ min: 0, max: 1_439 }), fc.integer({ min: 0, max: 190 })),
  start: fc.constantFrom(...STARTS),
  steps: fc.array(step, { minLength: 10, maxLength: 40 }),
});

const timeOf = (minutes: number) =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

/** A course that a dutiful member answers at once, and that never ends. */
const begin = (zone: string, minutes: number, now: Date): DoseCourse => {
  const rule = { timeOfDay: timeOf(minutes), zone };
  return {
    id: 1,
    guildId: 'g',
    memberId: 'm',
    channelId: 'c',
    title: 'alkalinity',
    doses: Array.from({ length: 500 }, () => ({ words: '4.5 g', effect: null })),
    tankId: null,
    given: 0,
    rule,
    next: nextOccurrence(rule, now),
    open: null,
    unanswered: 0,
    ended: null,
  };
};

test(`${WALKS} walks of the clock: never two reminders for one local date, never one that is not due`, () => {
  let reminders = 0;
  fc.assert(
    fc.property(walk, ({ zone, minutes, start, steps }) => {
      let now = new Date(`${start}T09:00:00Z`);
      let course = begin(zone, minutes, now);
      const told: string[] = [];
      for (const ms of steps) {
        now = new Date(now.getTime() + ms);
        // The loop of the worker: it asks until nothing more is due.
        for (let next = reminded(course, now); next; next = reminded(course, now)) {
          const { date } = next.occurrence;
          // Its own time has come; or an earlier day's was missed, and today stands for it.
          const wasDue = course.next;
          if (wasDue?.date === date) expect(next.occurrence.at).toEqual(occurrenceOn(course.rule, date).at);
          else expect([date > (wasDue?.date ?? ''), date]).toEqual([true, localDate(now, zone)]);
          expect(now.getTime()).toBeGreaterThanOrEqual(next.occurrence.at.getTime());
          told.push(date);
          const answered = doseGiven(next.course, date, now);
          if (answered.kind === 'not-open') throw new Error('the reminder that just went out was not open');
          course = answered.course;
        }
      }
      // Each date once, and in order.
      expect(told).toEqual([...new Set(told)].sort());
      reminders += told.length;
    }),
    { numRuns: WALKS, seed: SEED },
  );
  // Walks in which nothing ever came due would prove nothing.
  expect(reminders).toBeGreaterThan(3 * WALKS);
}, 120_000);

const LOOKING_WALKS = 400;

test(`${LOOKING_WALKS} walks that look at least every hour: each local date on which its time had come has its reminder`, () => {
  let promised = 0;
  fc.assert(
    fc.property(
      walk,
      fc.array(fc.integer({ min: 20 * MINUTE_MS, max: HOUR_MS }), { minLength: 60, maxLength: 120 }),
      ({ zone, minutes, start, steps }, looks) => {
        let now = new Date(`${start}T09:00:00Z`);
        let course = begin(zone, minutes, now);
        const first = course.next?.at ?? now;
        const told = new Set<string>();
        looks.forEach((ms, n) => {
          // Now and then the clock goes back; what comes again was told already.
          const jump = n % 40 === 39 ? Math.min(0, steps[n % steps.length] ?? 0) : 0;
          now = new Date(now.getTime() + ms + jump);
          const next = reminded(course, now);
          if (next) {
            const { date, at } = next.occurrence;
            expect(told.has(date)).toBe(false);
            told.add(date);
            // Answered at once, so that the distance between doses shifts none of them.
            const answered = doseGiven(next.course, date, at);
            if (answered.kind === 'done') course = answered.course;
          }
          const today = localDate(now, zone);
          const due = occurrenceOn(course.rule, today).at;
          if (due < first || due > now) return;
          promised += 1;
          expect(told).toContain(today);
        });
      },
    ),
    { numRuns: LOOKING_WALKS, seed: SEED },
  );
  expect(promised).toBeGreaterThan(LOOKING_WALKS);
}, 60_000);
