import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  done,
  drift,
  fittingEvery,
  later,
  reminded,
  restored,
  scheduled,
  skipped,
  thisEvening,
  tomorrow,
  type Chore,
} from '../../../src/upkeep/chore-rule.ts';
import { dateAfter, everyInWords, readDay, readEvery, type Every } from '../../../src/upkeep/every.ts';
import { daysAfter, localDate } from '../../../src/schedule/local-time.ts';

const HOUR = 3_600_000;
const ZONES = ['Europe/Lisbon', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'Pacific/Apia'];
const begun = new Date('2026-11-25T12:00:00Z');
const blank: Chore = {
  id: 1,
  guildId: 'g',
  memberId: 'm',
  channelId: 'c',
  title: 'Skimmer cup',
  idea: null,
  tankId: null,
  every: { kind: 'days', days: 4 },
  rule: { timeOfDay: '19:00', zone: 'Europe/Lisbon' },
  due: '2026-11-25',
  next: null,
  told: null,
  toldKey: null,
  unanswered: 0,
  lastDone: null,
};
const chore: Chore = scheduled(blank, begun);
const tell = (at: Chore, now: Date) => {
  const result = reminded(at, now);
  if (result?.kind !== 'told') throw new Error('it was not told');
  return result;
};
const answer = (result: ReturnType<typeof done>): Chore => {
  if (result.kind === 'answered-already') throw new Error('it was answered');
  return result.chore;
};

describe('how often', () => {
  test.each([
    ['30 days', 'every 30 days'],
    ['Every 2 weeks', 'every 14 days'],
    ['month', 'every 30 days'],
    ['daily', 'every day'],
    ['14', 'every 14 days'],
    ['sat', 'every Saturday'],
    ['Mon and Thursday', 'every Monday and Thursday'],
    ['weekdays', 'every Monday, Tuesday, Wednesday, Thursday and Friday'],
  ])('%s', (typed, words) => {
    const every = readEvery(typed);
    expect(every && everyInWords(every)).toBe(words);
  });
  test.each(['', '0 days', '400 days', 'often', 'someday', '-3', 'mon and never'])('“%s” is nothing', (typed) =>
    expect(readEvery(typed)).toBeNull(),
  );
  test('days', () => {
    // 2026-11-25 is a Wednesday.
    expect(readDay('Sat', '2026-11-25')).toBe('2026-11-28');
    expect(readDay('Wed', '2026-11-25')).toBe('2026-12-02');
    expect(readDay('in 2 weeks', '2026-11-25')).toBe('2026-12-09');
    expect(readDay('2026-11-24', '2026-11-25')).toBeNull();
    expect(readDay('2026-02-30', '2026-01-25')).toBeNull();
  });
});

describe('a chore', () => {
  test('is told at its time, and done it comes after its interval', () => {
    expect(reminded(chore, new Date('2026-11-25T18:59:00Z'))).toBeNull();
    const { chore: told } = tell(chore, new Date('2026-11-25T19:00:00Z'));
    const after = answer(done(told, new Date('2026-11-27T08:00:00Z'), { round: '2026-11-25' }));
    expect(after).toMatchObject({ due: '2026-12-01', next: { date: '2026-12-01' }, lastDone: '2026-11-27' });
    expect(done(after, new Date('2026-11-27T08:01:00Z'), { round: '2026-11-25' }).kind).toBe('answered-already');
  });

  test('of many missed rounds is told once', () => {
    const { chore: told, date } = tell(chore, new Date('2027-02-01T12:00:00Z'));
    expect(date).toBe('2027-02-01');
    expect(reminded(told, new Date('2027-02-01T23:00:00Z'))).toBeNull();
    expect(told.due).toBe('2026-11-25');
  });

  test('that comes late in the night waits for eight in the morning, unless night is its hour', () => {
    const held = reminded(chore, new Date('2026-11-27T03:00:00Z'));
    expect(held).toMatchObject({ kind: 'held', chore: { next: { at: new Date('2026-11-27T08:00:00Z') } } });
    const night = scheduled({ ...blank, rule: { ...blank.rule, timeOfDay: '23:30' } }, begun);
    expect(reminded(night, new Date('2026-11-25T23:30:00Z'))?.kind).toBe('told');
  });

  test('left out comes where it would have come anyway', () => {
    expect(answer(skipped(chore, new Date('2026-11-30T20:00:00Z'))).due).toBe('2026-12-03');
  });

  test('put off is told once at that moment, and not before', () => {
    const { chore: told } = tell(chore, new Date('2026-11-25T19:00:00Z'));
    const moved = later(told, tomorrow(told, new Date('2026-11-25T19:05:00Z')));
    expect(reminded(moved, new Date('2026-11-26T18:59:00Z'))).toBeNull();
    const again = tell(moved, new Date('2026-11-26T19:00:00Z'));
    expect(again.chore.next).toMatchObject({ date: '2026-11-27', asked: false });
  });

  test('that is told before it is due, because the member asked, is told again when it is', () => {
    const ahead = scheduled({ ...blank, due: '2026-12-20' }, begun);
    const { chore: told } = tell(later(ahead, tomorrow(ahead, begun)), new Date('2026-11-26T19:00:00Z'));
    expect(told).toMatchObject({ unanswered: 0, next: { date: '2026-12-20', asked: false } });
  });

  test('has an evening only while it is ahead', () => {
    expect(thisEvening(chore, new Date('2026-11-25T18:00:00Z'))).toEqual(new Date('2026-11-25T19:00:00Z'));
    expect(thisEvening(chore, new Date('2026-11-25T18:50:00Z'))).toBeNull();
  });

  test('falls silent after five reminders, and any answer wakes it', () => {
    let at = chore;
    let told = 0;
    while (at.next !== null && told < 20) {
      at = tell(at, at.next.at).chore;
      told += 1;
    }
    expect(told).toBe(5);
    expect(answer(done(at, new Date('2027-01-10T12:00:00Z'))).next?.date).toBe('2027-01-14');
  });

  test('keeps its hour on the wall when the clocks change', () => {
    const before = scheduled({ ...blank, due: '2027-03-27', every: { kind: 'days' as const, days: 1 } }, begun);
    const { chore: told } = tell(before, new Date('2027-03-27T19:00:00Z'));
    expect(answer(done(told, new Date('2027-03-27T19:01:00Z'))).next?.at).toEqual(new Date('2027-03-28T18:00:00Z'));
  });
});

test('drift is the mean of the last six, and names an interval that fits', () => {
  const rounds = [100, 3, 2, 4, 3, 3, 3].map((late) => ({ due: '2026-01-01', done: daysAfter('2026-01-01', late) }));
  expect(drift(rounds)).toEqual({ days: 3, times: 6 });
  expect(fittingEvery({ kind: 'days', days: 30 }, drift(rounds))).toBe(33);
  expect(drift(rounds.slice(0, 2))).toBeNull();
});

const anyEvery: fc.Arbitrary<Every> = fc.oneof(
  fc.record({ kind: fc.constant('days' as const), days: fc.integer({ min: 1, max: 40 }) }),
  fc.record({
    kind: fc.constant('weekdays' as const),
    weekdays: fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 1 }),
  }),
);
const anyTime = fc
  .tuple(fc.integer({ min: 0, max: 23 }), fc.integer({ min: 0, max: 59 }))
  .map((parts) => parts.map((part) => String(part).padStart(2, '0')).join(':'));

test('whatever is pressed, in any zone and through every change of the clocks', () => {
  fc.assert(
    fc.property(
      anyEvery,
      anyTime,
      fc.constantFrom(...ZONES),
      fc.integer({ min: 0, max: 365 }),
      fc.array(
        fc.tuple(fc.constantFrom('done', 'skip', 'tomorrow', 'undo', 'nothing'), fc.integer({ min: 1, max: 60 })),
        { maxLength: 60 },
      ),
      (every, timeOfDay, zone, day, steps) => {
        let now = new Date(begun.getTime() + day * 24 * HOUR);
        const rule = { timeOfDay, zone };
        let at: Chore = scheduled({ ...blank, every, rule, due: dateAfter(every, localDate(now, zone)) }, now);
        let before: Chore | null = null;
        const unasked: string[] = [];
        const keys: string[] = [];
        for (const [press, hours] of steps) {
          now = new Date(now.getTime() + hours * HOUR);
          const wasAsked = at.next?.asked;
          const result = reminded(at, now);
          if (result?.kind === 'told') {
            keys.push(result.key);
            if (!wasAsked) unasked.push(result.date);
            expect(localDate(now, zone) >= result.date).toBe(true);
          }
          if (result) at = result.chore;
          // The same turn never tells twice.
          if (result?.kind === 'told') expect(reminded(at, now)).toBeNull();
          const was = at;
          if (press === 'done' || press === 'skip') {
            const answered: ReturnType<typeof done> = press === 'done' ? done(at, now) : skipped(at, now);
            if (answered.kind !== 'answered-already') {
              expect(answered.chore.due > localDate(now, zone)).toBe(true);
              expect(answered.chore.next!.at > now).toBe(true);
              at = answered.chore;
              before = was;
            }
          } else if (press === 'tomorrow') {
            at = later(at, tomorrow(at, now));
            before = was;
          } else if (press === 'undo' && before) {
            at = restored(before, at, now);
            expect(at.due).toBe(before.due);
            before = null;
          }
        }
        expect(new Set(unasked).size).toBe(unasked.length);
        expect(new Set(keys).size).toBe(keys.length);
      },
    ),
    { numRuns: 600 },
  );
});
