import { describe, expect, test } from 'vitest';
import {
  checkIn,
  checkIns,
  copper,
  day,
  did,
  event,
  foldOf,
  holdOf,
  hour,
  moved,
  salinity,
  sign,
  started,
  warm,
} from './fold-of.ts';

describe('observation', () => {
  test('thirty clear days after the first end it on day 30, once the fish were looked at in the dark', () => {
    const events = [started(), ...checkIns(1, 30)];
    expect(holdOf('observation', 'clear', events, day(30))).toMatchObject({ counted: 30, endsOn: '2026-07-01' });
    expect(foldOf('observation', events, day(30)).completed).toBeNull();
    const looked = [...events, did(hour(30 * 24 + 10), 'exit-inspection')];
    expect(foldOf('observation', looked, day(31)).completed).toEqual(hour(30 * 24 + 10));
  });
  test('a sign on day 20 only ends it no earlier than day 50', () => {
    const events = [started(), ...checkIns(1, 20), sign(day(20))];
    for (const now of [20, 21, 35]) {
      const hold = holdOf('observation', 'clear', [...events, ...checkIns(21, now)], day(now));
      expect(hold.endsOn).toBe('2026-07-21');
      expect(hold.restartedBy?.says).toContain('catching');
    }
    expect(holdOf('observation', 'clear', [...events, ...checkIns(21, 49)], day(49)).reached).toBeNull();
    expect(holdOf('observation', 'clear', [...events, ...checkIns(21, 50)], day(50)).reached).toEqual(day(50));
  });
  test('a day without a check-in is unknown: it breaks nothing and counts for nothing', () => {
    const events = [started(), ...checkIns(1, 10), ...checkIns(13, 20)];
    expect(holdOf('observation', 'clear', events, day(20))).toMatchObject({
      counted: 18,
      unknownDays: 2,
      endsOn: '2026-07-03',
    });
  });
  test('a weak sign keeps the count and adds a week', () => {
    const events = [started(), ...checkIns(1, 28), sign(day(28), 'weak', 'watch')];
    expect(holdOf('observation', 'clear', events, day(28))).toMatchObject({ counted: 27, endsOn: '2026-07-08' });
  });
  test.each(['animal-added', 'shared-water'])('%s starts the whole group anew', (kind) => {
    const events = [started(), ...checkIns(1, 10), event(day(10), { kind })];
    expect(holdOf('observation', 'clear', events, day(10))).toMatchObject({ counted: 0, endsOn: '2026-07-11' });
  });
  test('only a death that nobody can explain starts it anew', () => {
    const base = [started(), ...checkIns(1, 10)];
    const dead = (causeKnown: boolean) => [...base, event(day(10), { kind: 'death', causeKnown })];
    expect(holdOf('observation', 'clear', dead(true), day(10)).counted).toBe(10);
    expect(holdOf('observation', 'clear', dead(false), day(10)).counted).toBe(0);
  });
  test('an emergency comes first', () => {
    const events = [started(), sign(day(1), 'weak', 'soon'), sign(day(2), 'infectious', 'emergency')];
    expect(foldOf('observation', events, day(2)).alarms.map(({ urgency }) => urgency)).toEqual(['emergency', 'soon']);
  });
  test('a check-in is due by the local day and overdue on the day after', () => {
    const events = [started(), checkIn(day(1))];
    const at = (now: Date) => {
      const { due, overdue } = foldOf('observation', events, now);
      return [due.some(({ kind }) => kind === 'check-in'), overdue.some(({ kind }) => kind === 'check-in')];
    };
    expect(at(new Date('2026-06-02T21:59:00Z'))).toEqual([false, false]);
    expect(at(new Date('2026-06-02T22:01:00Z'))).toEqual([true, false]);
    expect(at(new Date('2026-06-03T22:01:00Z'))).toEqual([false, true]);
  });
});

describe('tank transfer', () => {
  const onTime = [moved(hour(64)), moved(hour(128)), moved(hour(192)), moved(hour(256))];
  test('four on time, 256 hours after the start, are enough', () => {
    expect(foldOf('tank-transfer', [started(), ...onTime], hour(257)).completed).toEqual(hour(256));
  });
  test('a move after the end changes nothing', () => {
    const events = [started(), ...onTime, moved(hour(900))];
    expect(foldOf('tank-transfer', events, hour(901)).completed).toEqual(hour(256));
  });
  test('the plan is 64 hours and 72 is the wall, counted from the transfer really done', () => {
    const { steps } = foldOf('tank-transfer', [started(), moved(hour(60))], hour(61));
    expect(steps[1]).toMatchObject({ planned: hour(124), latest: hour(132), earliest: hour(108) });
  });
  test('a late transfer becomes transfer 0 and four more are needed', () => {
    const events = [started(), moved(hour(64)), moved(hour(128)), moved(hour(200.5))];
    const late = foldOf('tank-transfer', events, hour(201));
    expect(late.steps.map(({ doneAt }) => doneAt)).toEqual([null, null, null, null]);
    expect(late.steps[0]).toMatchObject({ planned: hour(264.5), latest: hour(272.5) });
    expect(late.broken[0]?.says).toContain('later than 72');
    const again = [1, 2, 3, 4].map((turn) => moved(hour(200.5 + 64 * turn)));
    expect(foldOf('tank-transfer', [...events, ...again.slice(0, 3)], hour(500)).completed).toBeNull();
    expect(foldOf('tank-transfer', [...events, ...again], hour(500)).completed).toEqual(hour(456.5));
  });
  test('72 hours to the minute are on time, also when the clocks change', () => {
    const events = [moved(hour(72)), moved(hour(144)), moved(hour(216)), moved(hour(288))];
    expect(foldOf('tank-transfer', [started(), ...events], hour(300)).completed).toEqual(hour(288));
  });
  test('four moves 48 hours apart end too early, and a fifth follows', () => {
    const quick = [48, 96, 144, 192].map((at) => moved(hour(at)));
    const state = foldOf('tank-transfer', [started(), ...quick], hour(193));
    expect(state.completed).toBeNull();
    expect(state.steps).toHaveLength(5);
    expect(foldOf('tank-transfer', [started(), ...quick, moved(hour(256))], hour(257)).completed).toEqual(hour(256));
  });
});

describe('copper', () => {
  const daily = (from: number, to: number, value = 0.18) =>
    Array.from({ length: to - from + 1 }, (_, index) => copper(day(from + index), value));
  const level = (events: Parameters<typeof foldOf>[1], now: Date) => holdOf('copper-ionic', 'level', events, now);
  test('the clock starts with the first reading in range', () => {
    const events = [started(), copper(day(1), 0.08), copper(day(2), 0.12), ...daily(3, 10)];
    expect(level(events, day(10))).toMatchObject({ since: day(3), counted: 7, endsEarliest: day(33) });
  });
  test('two low readings start it anew', () => {
    const events = [
      started(),
      ...daily(1, 10),
      copper(day(11), 0.14),
      copper(hour(265), 0.13),
      copper(hour(270), 0.18),
    ];
    expect(level(events, day(12))).toMatchObject({ since: hour(270), counted: 0.75 });
  });
  test('one low reading with a good repeat does not', () => {
    const events = [started(), ...daily(1, 10), copper(day(11), 0.14), copper(hour(265), 0.17), ...daily(12, 12)];
    expect(level(events, day(12))).toMatchObject({ since: day(1), counted: 11, restartedBy: null });
  });
  test('a low reading asks for a repeat an hour later', () => {
    const events = [started(), ...daily(1, 10), copper(day(11), 0.14)];
    const due = (now: Date) => foldOf('copper-ionic', events, now).due.filter(({ id }) => id === 'copper');
    expect(due(hour(264.9))).toEqual([]);
    expect(due(hour(265))).toMatchObject([{ kind: 'reading', since: hour(265) }]);
  });
  test('one low reading whose repeat comes too late stops the time since the last good one', () => {
    const events = [started(), ...daily(1, 10), copper(day(11), 0.14), ...daily(12, 12)];
    expect(level(events, day(12))).toMatchObject({ since: day(1), counted: 9 });
  });
  test('0.10 counts as two', () => {
    expect(level([started(), ...daily(1, 10), copper(day(11), 0.1)], day(11))).toMatchObject({
      counted: 0,
      since: null,
    });
    expect(level([started(), ...daily(1, 10), copper(day(11), 0.11)], day(11)).since).toEqual(day(1));
  });
  test('thirty hours after a reading the time stops counting', () => {
    expect(level([started(), ...daily(1, 10)], day(13)).counted).toBeCloseTo(9 + 30 / 24, 9);
    expect(level([started(), ...daily(1, 10)], day(13)).paused).toContain('older than 30');
  });
  test('copper sulfate is a quarter copper, and another form is never compared', () => {
    const sulfate = event(day(1), {
      kind: 'reading',
      reading: { parameter: 'copper', value: 0.18, unit: 'mg/L CuSO4·5H2O', form: 'ionic' },
    });
    expect(level([started(), sulfate], day(1)).since).toBeNull();
    const state = foldOf('copper-ionic', [started(), ...daily(1, 1), copper(hour(25), 2, 'chelated')], hour(26));
    expect(state.alarms.map(({ urgency, says }) => [urgency, says.includes('goes by ionic copper')])).toEqual([
      ['soon', true],
    ]);
    expect(state.broken.map(({ of, says }) => [of, says.includes('chelated')])).toEqual([['copper', true]]);
    expect(state.holds.find(({ id }) => id === 'level')?.counted).toBeCloseTo(2 / 24, 9);
    expect(() =>
      event(day(1), { kind: 'reading', reading: { parameter: 'copper', value: 2, unit: 'mg/L Cu' } }),
    ).toThrow();
  });
  test('0.25 ionic is an emergency; 2.0 chelated is in range', () => {
    expect(foldOf('copper-ionic', [started(), copper(day(1), 0.25)], day(1)).alarms[0]?.urgency).toBe('emergency');
    const label = started({ copperLabel: { form: 'chelated', low: 1.5, high: 2.5 } });
    expect(foldOf('copper-bound', [label, copper(day(1), 2, 'chelated')], day(1)).alarms).toEqual([]);
    expect(holdOf('copper-bound', 'level', [label, copper(day(1), 2, 'chelated')], day(2)).counted).toBe(1);
    expect(holdOf('copper-bound', 'level', [started()], day(2)).paused).toContain('label');
  });
  test('a sign in the last week asks for 14 clear days', () => {
    const events = [
      started(),
      did(hour(1), 'copper-in'),
      ...daily(1, 31),
      ...checkIns(1, 31),
      did(day(31), 'copper-out'),
    ];
    const end = (seen: number) => foldOf('copper-ionic', [...events, sign(day(seen))], day(31));
    expect(end(20).completed).toEqual(day(31));
    expect(end(26).completed).toBeNull();
    expect(end(26).holds.find(({ id }) => id === 'quiet')?.endsOn).toBe('2026-07-11');
  });
  test('14 days with a move to a second tank, or 30 without it', () => {
    const choice = started({ option: 'second-tank' });
    const fourteen = [choice, warm(25), did(hour(1), 'copper-in'), ...daily(1, 15)];
    expect(foldOf('copper-ionic', [...fourteen, did(day(14), 'move-to-second-tank')], day(15)).broken).toHaveLength(1);
    const over = [...fourteen, did(hour(361), 'move-to-second-tank'), ...checkIns(16, 29)];
    expect(foldOf('copper-ionic', over, day(30))).toMatchObject({ option: 'second-tank', completed: day(29) });
    const stayed = foldOf('copper-ionic', [choice, warm(25), ...daily(1, 31)], day(31));
    expect(stayed).toMatchObject({ option: 'thirty-days', completed: null });
    // Below 24 °C parasites stay longer on the fish; what the second tank does later takes nothing back.
    expect(foldOf('copper-ionic', [...over, warm(23.5, day(10))], day(30)).option).toBe('thirty-days');
    expect(foldOf('copper-ionic', [...over, warm(23.5, day(20))], day(30)).completed).toEqual(day(29));
  });
});

describe('hyposalinity', () => {
  const daily = (from: number, to: number) =>
    Array.from({ length: to - from + 1 }, (_, index) => salinity(day(from + index), 11.5));
  const begun = [started(), did(hour(1), 'instrument-checked'), ...daily(1, 10)];
  const level = (events: Parameters<typeof foldOf>[1], now: Date) => holdOf('hyposalinity', 'level', events, now);
  test.each([
    [13.5, 11],
    [14.5, 9],
    [15, 9],
  ])('a reading of %d ppt leaves %d days counted', (value, counted) => {
    expect(level([...begun, salinity(day(11), value), ...daily(12, 12)], day(12))).toMatchObject({
      counted,
      since: day(1),
    });
  });
  test('above 15 ppt it starts anew', () => {
    const events = [...begun, salinity(day(11), 15.1), ...daily(12, 14)];
    expect(level(events, day(14))).toMatchObject({ since: day(12), counted: 2 });
  });
  test('without a checked instrument no reading counts', () => {
    expect(level([started(), ...daily(1, 10)], day(10)).since).toBeNull();
  });
  test('the salinity goes up slowly, and 14 clear days follow', () => {
    const low = [
      started(),
      did(hour(1), 'instrument-checked'),
      did(hour(2), 'salinity-goes-down'),
      ...daily(1, 29),
      did(hour(697), 'salinity-goes-up'),
    ];
    expect(level(low, day(29)).reached).toEqual(day(29));
    const hasty = [...low, did(day(33), 'salinity-back-up'), ...checkIns(34, 60)];
    expect(foldOf('hyposalinity', hasty, day(60)).completed).toBeNull();
    const slow = [...low, did(day(41), 'salinity-back-up'), ...checkIns(30, 55)];
    expect(foldOf('hyposalinity', slow, day(56)).completed).toEqual(day(55));
  });
});
