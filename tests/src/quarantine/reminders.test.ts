import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../src/knowledge/plan.ts';
import { fold } from '../../../src/quarantine/fold.ts';
import type { PlanEvent } from '../../../src/quarantine/plan-event.ts';
import type { Quarantine, Reminding } from '../../../src/quarantine/quarantine.ts';
import { awake } from '../../../src/quarantine/reminder-times.ts';
import { missedDates, putOff, toRemind, type ToRemind } from '../../../src/quarantine/reminders.ts';
import { localDate, localHour } from '../../../src/schedule/local-time.ts';
import { checkIn, event, lifeCycles, moved, planOf, plans } from './fold-of.ts';

const HOUR_MS = 3_600_000;
const ZONE = 'Europe/Lisbon';
const BEGUN = new Date('2026-11-25T12:00:00Z');
const at = (hours: number) => new Date(BEGUN.getTime() + hours * HOUR_MS);

const kept = (over: Partial<Quarantine> = {}): Quarantine => ({
  id: 7,
  guildId: 'g',
  memberId: '1',
  channelId: 'c',
  animals: 'two clownfish',
  fish: [],
  plan: WATCH.id,
  option: null,
  tank: null,
  copperLabel: null,
  helpers: [],
  zone: ZONE,
  timeOfDay: '19:00',
  visibility: 'me',
  begunAt: BEGUN,
  follows: null,
  ended: null,
  ...over,
});

/** A plan with nothing but a look each day, so that what is tested here does not change with the knowledge base. */
const WATCH: Plan = {
  ...planOf('observation'),
  id: 'watch',
  options: [],
  steps: [],
  runs: [],
  rules: [],
  limits: [],
  holds: planOf('observation').holds.filter(({ id }) => id === 'clear'),
  monitors: planOf('observation').monitors.filter(({ what }) => what === 'check-in'),
};

/** A keeper’s program: it looks when it said that it would, and at times of its own. */
function watch(quarantine: Quarantine, first: PlanEvent = event(BEGUN, { kind: 'started' })) {
  const plan = quarantine.plan === WATCH.id ? WATCH : planOf(quarantine.plan);
  const events = [first];
  let reminding: Reminding | null = null;
  const look = (now: Date): ToRemind => {
    const state = fold(plan, events, now, { zone: quarantine.zone, lifeCycles });
    const result = toRemind(quarantine, plan, state, reminding, events.length, now);
    reminding = result.reminding;
    return result;
  };
  const put = (to: Date) => {
    if (reminding) reminding = putOff(reminding, to);
  };
  return { events, look, put };
}
const keysOf = ({ tell }: ToRemind) => tell.map(({ key }) => key);

describe('the daily look', () => {
  test('comes at the chosen time of the day after the start, and once', () => {
    const { look } = watch(kept());
    expect(look(at(0)).tell).toEqual([]);
    expect(look(at(8)).tell).toEqual([]);
    expect(look(new Date('2026-11-26T18:59:00Z')).tell).toEqual([]);
    expect(keysOf(look(new Date('2026-11-26T19:00:00Z')))).toEqual(['quarantine/7/2026-11-26']);
    expect(look(new Date('2026-11-26T19:00:30Z')).tell).toEqual([]);
  });

  test('says when to look next, and it is never missed by looking only then', () => {
    const { events, look } = watch(kept());
    let next = look(at(0)).next;
    const told: string[] = [];
    while (next && next < at(24 * 10)) {
      const now = next;
      const result = look(now);
      told.push(...keysOf(result));
      if (result.tell.length > 0) events.push(checkIn(now));
      next = result.next;
    }
    expect(told).toEqual(
      Array.from({ length: 9 }, (_, day) => `quarantine/7/2026-${day < 5 ? `11-${26 + day}` : `12-0${day - 4}`}`),
    );
  });

  test('stays away when the look was noted before it', () => {
    const { events, look } = watch(kept());
    look(at(0));
    events.push(checkIn(new Date('2026-11-26T08:00:00Z')));
    expect(look(new Date('2026-11-26T19:00:00Z')).tell).toEqual([]);
  });

  test('after days away it is one message that names the days', () => {
    const { look } = watch(kept());
    look(at(0));
    const result = look(new Date('2026-11-29T20:00:00Z'));
    expect(keysOf(result)).toHaveLength(4);
    expect(missedDates(result.tell)).toEqual(['2026-11-26', '2026-11-27', '2026-11-28']);
  });

  test('when it is late it waits for the morning', () => {
    const { look } = watch(kept());
    look(at(0));
    const night = look(new Date('2026-11-26T23:30:00Z'));
    expect(night.tell).toEqual([]);
    expect(night.next).toEqual(new Date('2026-11-27T08:00:00Z'));
    expect(keysOf(look(new Date('2026-11-27T08:00:00Z')))).toEqual(['quarantine/7/2026-11-26']);
  });

  test('unanswered it becomes weekly and then stops, and an entry begins it anew', () => {
    const { events, look } = watch(kept());
    look(at(0));
    const days: number[] = [];
    let last = -1;
    for (let day = 1; day <= 90; day += 1) {
      const result = look(new Date(Date.parse('2026-11-25T19:00:00Z') + day * 24 * HOUR_MS));
      if (result.tell.length > 0) days.push(day);
      if (result.isLast) last = day;
    }
    expect(days).toEqual([1, 2, 3, 4, 5, 6, 7, 14, 21, 28, 35]);
    expect(last).toBe(35);
    const noon = new Date(Date.parse('2026-11-25T12:00:00Z') + 91 * 24 * HOUR_MS);
    events.push(checkIn(noon));
    look(noon);
    expect(look(new Date(Date.parse('2026-11-25T19:00:00Z') + 92 * 24 * HOUR_MS)).tell).toHaveLength(1);
  });
});

describe('later', () => {
  test('holds everything back until then', () => {
    const { look, put } = watch(kept());
    look(at(0));
    look(new Date('2026-11-26T19:00:00Z'));
    put(new Date('2026-11-28T09:00:00Z'));
    expect(look(new Date('2026-11-26T19:05:00Z')).next).toEqual(new Date('2026-11-27T19:00:00Z'));
    expect(look(new Date('2026-11-27T19:00:00Z')).tell).toEqual([]);
    expect(keysOf(look(new Date('2026-11-28T09:00:00Z')))).toEqual(['quarantine/7/later/29930940']);
    expect(keysOf(look(new Date('2026-11-28T19:00:00Z')))).toEqual(['quarantine/7/2026-11-28']);
  });

  test('says nothing when all was noted meanwhile', () => {
    const { events, look, put } = watch(kept());
    look(at(0));
    look(new Date('2026-11-26T19:00:00Z'));
    put(new Date('2026-11-26T21:00:00Z'));
    events.push(checkIn(new Date('2026-11-26T20:00:00Z')));
    expect(look(new Date('2026-11-26T21:00:00Z')).tell).toEqual([]);
  });
});

describe('steps', () => {
  /** Transfers are planned 64 hours apart and lost after 72: 25 November 12:00 gives 28 November 04:00. */
  test('one that is planned for the night is told before the night when its limit would pass in it', () => {
    const { look } = watch(kept({ plan: 'tank-transfer' }));
    const told: { key: string; at: Date }[] = [];
    let next = look(at(0)).next;
    while (next && next < at(72)) {
      const now = next;
      const result = look(now);
      told.push(...result.tell.map(({ key }) => ({ key, at: now })));
      next = result.next;
    }
    const transfers = told.filter(({ key }) => key.includes('transfer'));
    expect(transfers.length).toBeGreaterThanOrEqual(2);
    for (const { at: when } of told) expect(localHour(when, ZONE)).toBeGreaterThanOrEqual(8);
    for (const { at: when } of told) expect(localHour(when, ZONE)).toBeLessThan(22);
    // The last of them leaves an hour at least.
    expect(transfers.at(-1)!.at.getTime()).toBeLessThanOrEqual(at(71).getTime());
  });

  test('a last call comes through what was put off', () => {
    const { look, put } = watch(kept({ plan: 'tank-transfer', timeOfDay: '12:30' }));
    look(at(0));
    put(at(24 * 6));
    const heard: string[] = [];
    for (let hours = 1; hours <= 72; hours += 1) heard.push(...keysOf(look(at(hours))));
    expect(heard).toHaveLength(1);
    expect(heard[0]).toMatch(/-6\//);
  });

  test('one that is done is told no more', () => {
    const { events, look } = watch(kept({ plan: 'tank-transfer' }));
    look(at(0));
    events.push(moved(at(49)));
    const heard: string[] = [];
    for (let hours = 49; hours <= 72; hours += 1) heard.push(...keysOf(look(at(hours))));
    expect(heard.filter((key) => /transfer-1/.test(key))).toEqual([]);
  });
});

test('a moment of the night comes in the morning, or in the evening before when its limit does not wait', () => {
  const night = new Date('2026-11-26T02:00:00Z');
  expect(awake(night, null, ZONE)).toEqual(new Date('2026-11-26T08:00:00Z'));
  expect(awake(night, new Date('2026-11-26T12:00:00Z'), ZONE)).toEqual(new Date('2026-11-26T08:00:00Z'));
  expect(awake(night, new Date('2026-11-26T07:00:00Z'), ZONE)).toEqual(new Date('2026-11-25T21:00:00Z'));
  expect(awake(new Date('2026-11-26T12:00:00Z'), null, ZONE)).toEqual(new Date('2026-11-26T12:00:00Z'));
});

const ZONES = ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'America/Santiago', 'Asia/Kathmandu'];
/** Days from which a walk soon meets a change of the clocks. */
const STARTS = ['2026-03-05', '2026-03-26', '2026-04-02', '2026-09-03', '2026-10-01', '2026-10-22', '2026-07-01'];
const WALKS = 50;

test(`${WALKS} walks of the clock: no key twice, and a daily look that passed is told on the next look or in the morning`, () => {
  const MINUTE_MS = 60_000;
  const step = fc.oneof(
    { weight: 6, arbitrary: fc.integer({ min: MINUTE_MS, max: 8 * HOUR_MS }) },
    { weight: 2, arbitrary: fc.integer({ min: HOUR_MS, max: 72 * HOUR_MS }) },
    { weight: 2, arbitrary: fc.integer({ min: -24 * HOUR_MS, max: -MINUTE_MS }) },
    { weight: 1, arbitrary: fc.constant(0) },
  );
  let reminders = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...ZONES),
      fc.constantFrom(...STARTS),
      fc.integer({ min: 0, max: 23 }),
      fc.array(step, { minLength: 10, maxLength: 30 }),
      (zone, start, hour, steps) => {
        let now = new Date(`${start}T09:00:00Z`);
        const { events, look } = watch(
          kept({ zone, timeOfDay: `${String(hour).padStart(2, '0')}:15` }),
          event(now, { kind: 'started' }),
        );
        look(now);
        const told = new Set<string>();
        let latest = now;
        const heard = (result: ToRemind) => {
          for (const key of keysOf(result)) {
            expect(told.has(key)).toBe(false);
            told.add(key);
            reminders += 1;
          }
          // A dutiful keeper answers at once.
          if (result.tell.length > 0) events.push(checkIn(now));
        };
        for (const ms of steps) {
          now = new Date(now.getTime() + ms);
          heard(look(now));
          if (now > latest) latest = now;
        }
        // A week of steady looks: every local day has its one.
        now = latest;
        for (let hours = 0; hours < 24 * 7; hours += 3) {
          now = new Date(now.getTime() + 3 * HOUR_MS);
          heard(look(now));
        }
        for (let back = 2; back <= 6; back += 1) {
          const date = localDate(new Date(now.getTime() - back * 24 * HOUR_MS), zone);
          const noted = events.some((each) => each.kind === 'check-in' && localDate(each.at, zone) === date);
          expect(noted || told.has(`quarantine/7/${date}`)).toBe(true);
        }
      },
    ),
    { seed: 20_261_129, numRuns: WALKS, endOnFailure: true },
  );
  expect(reminders).toBeGreaterThan(WALKS * 5);
});

test(
  'every plan, looked at every eight hours for 40 days without an answer, falls silent and never says one thing twice',
  { timeout: 60_000 },
  () => {
    for (const { id, options } of plans) {
      const option = options[0]?.id;
      const { look } = watch(kept({ plan: id }), event(BEGUN, { kind: 'started', ...(option ? { option } : {}) }));
      const told: string[] = [];
      let messages = 0;
      for (let hours = 0; hours <= 24 * 40; hours += 8) {
        const result = look(at(hours));
        told.push(...keysOf(result));
        if (result.tell.length > 0) messages += 1;
      }
      expect({ id, twice: told.filter((key, at) => told.indexOf(key) !== at) }).toEqual({ id, twice: [] });
      expect(messages).toBeGreaterThan(0);
      expect(messages).toBeLessThan(60);
    }
  },
);
