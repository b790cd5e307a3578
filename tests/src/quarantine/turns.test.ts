import { describe, expect, test } from 'vitest';
import { fold } from '../../../src/quarantine/fold.ts';
import type { PlanEvent } from '../../../src/quarantine/plan-event.ts';
import { turnOf } from '../../../src/quarantine/turn-words.ts';
import { localHour } from '../../../src/schedule/local-time.ts';
import { day, did, event, foldOf, hour, lifeCycles, planOf, plans, START, started, warm } from './fold-of.ts';

const openEnded = plans.filter(({ runs }) => runs.some(({ untilHold }) => untilHold !== undefined));

describe('turns that go on until a hold is reached', () => {
  test.each(openEnded.map(({ id }) => id))(
    '%s: who does each turn on its date does as many as are told on day 1',
    (id) => {
      const run = planOf(id).runs[0]!;
      const events: PlanEvent[] = [started(), warm(25)];
      const told = foldOf(id, events, hour(1)).steps.find((step) => step.run)!.run!;
      expect(told).toMatchObject({ turn: 1, atLeast: true });
      // Weekly or so for six weeks: more than the least that the plan names, and none after the end.
      const { needed } = foldOf(id, events, hour(1)).holds.find((hold) => hold.id === run.untilHold)!;
      expect(told.of).toBeGreaterThanOrEqual(Math.ceil(needed! / 7));
      for (let now = START; ;) {
        const state = foldOf(id, events, now);
        const turns = state.steps.filter((step) => step.run);
        const next = turns.find(({ doneAt }) => doneAt === null);
        if (!next) {
          expect(turns).toHaveLength(told.of);
          break;
        }
        expect(next.run!.turn).toBeLessThanOrEqual(told.of);
        now = next.planned! > now ? next.planned! : now;
        events.push(did(now, run.id));
        if (events.length > 60) throw new Error('never done');
      }
      const over = foldOf(id, events, day(90));
      expect(over.completed).not.toBeNull();
      // It is no longer "at least" when it is over.
      expect(over.steps.map((step) => step.run!.atLeast ?? false)).not.toContain(true);
    },
  );

  test('a turn done early, or a pest that is seen, never leaves a number that was not told as open', () => {
    const events = [started(), warm(25), ...[0, 5, 10, 15, 20, 25].map((each) => did(day(each), 'dips'))];
    const { run } = foldOf('coral-dip-series', events, day(25)).steps.at(-1)!;
    // From day 25 on: 31, 37 and then 42 is less than a week ahead.
    expect(turnOf(run!)).toBe('8 of at least 8');
    const seen = event(day(26), { kind: 'sign-seen', sign: 'pest-seen', effect: 'pest', urgency: 'soon' });
    const anew = foldOf('coral-dip-series', [...events, seen], day(26)).steps.filter((step) => step.run);
    expect(anew.every(({ doneAt }) => doneAt === null)).toBe(true);
    expect(anew.length).toBeGreaterThanOrEqual(6);
  });

  test('one that came too early near the end is followed by another, so that the plan can end', () => {
    const acts = [0, 6, 12, 18, 24, 29, 34.4, 38.8].map((each) => did(day(each), 'dips'));
    const events = [started(), warm(25), ...acts];
    const open = foldOf('coral-dip-series', events, day(43)).steps.filter(({ doneAt }) => doneAt === null);
    expect(open.map(({ status }) => status)).toEqual(['coming']);
    const last = did(open[0]!.planned!, 'dips');
    expect(foldOf('coral-dip-series', [...events, last], last.at).completed).toEqual(last.at);
  });

  test('where no end can be given there is no number to count to but the least', () => {
    const { steps } = foldOf('acropora-flatworm', [started(), warm(20), did(hour(1), 'dips')], day(1));
    expect(steps.map((step) => turnOf(step.run!))).toEqual(['1 of at least 3', '2 of at least 3', '3 of at least 3']);
  });

  test('a run of a set number says it without "at least"', () => {
    expect(turnOf(foldOf('tank-transfer', [started()], hour(1)).steps[0]!.run!)).toBe('1 of 4');
  });
});

describe('the searches of a clam', () => {
  test('each early one is late a day after its night, the weekly ones after eight days', () => {
    const { steps } = foldOf('clam-watch', [started(), did(hour(0), 'dips')], hour(1));
    expect(steps.slice(1, 5).map(({ latest }) => latest)).toEqual([
      day(3),
      // Counted from the planned evening of the search before.
      hour(2 * 24 + 11 + 96),
      hour(5 * 24 + 11 + 144),
      hour(10 * 24 + 11 + 192),
    ]);
    const late = foldOf('clam-watch', [started(), did(hour(0), 'dips'), did(day(4), 'dips')], day(4));
    expect(late.broken.map(({ says }) => says)).toEqual(['Search: 96 hours after the one before, later than 72']);
  });
});

describe('what needs the dark', () => {
  test.each(['Europe/Berlin', 'America/Chicago', 'Australia/Lord_Howe', 'Asia/Kathmandu'])(
    'is planned for the evening in %s, whatever the clocks do',
    (zone) => {
      for (const from of ['2026-03-01', '2026-03-25', '2026-10-03', '2026-10-24', '2026-11-25']) {
        const begun = event(new Date(`${from}T12:00:00Z`), { kind: 'started' });
        for (const id of ['fishless-display', 'clam-watch']) {
          const now = new Date(begun.at.getTime() + 3_600_000);
          const turns = fold(planOf(id), [begun], now, { zone, lifeCycles }).steps.filter((step) => step.run);
          expect(turns.length).toBeGreaterThanOrEqual(3);
          for (const { planned, earliest, latest } of turns) {
            expect(localHour(planned!, zone)).toBe(21);
            if (earliest) expect(planned! >= earliest).toBe(true);
            if (latest) expect(planned! <= latest).toBe(true);
          }
        }
      }
    },
  );
});

describe('spans in words', () => {
  const reasons = (id: string, events: PlanEvent[] = [started(), warm(25)]) =>
    foldOf(id, events, hour(1)).steps.map(({ reason }) => reason);

  test('whole days from four days on are days, and the hours of a transfer stay hours', () => {
    expect(reasons('fishless-display')[1]).toMatch(
      /^7 days after the first night look, not before 20 hours and not after 21 days\./,
    );
    expect(reasons('coral-dip-series')[1]).toMatch(/^6 days after the first dip, not before 5 and not after 7\./);
    expect(reasons('tank-transfer')[0]).toMatch(/^64 hours after the start, not before 48 and not after 72\./);
    for (const { id } of plans) for (const reason of reasons(id)) expect(reason).not.toMatch(/\b(9[6-9]|\d{3,}) hours/);
  });
});
