import { describe, expect, test } from 'vitest';
import {
  checkIns,
  day,
  did,
  event,
  foldOf,
  holdOf,
  hour,
  moved,
  plans,
  reading,
  sign,
  started,
  warm,
} from './fold-of.ts';

const dose = (at: Date) => event(at, { kind: 'dose-given' });

describe('praziquantel', () => {
  // Windows between any two doses in days, by the table of the reference sheets: 22-24, 25, 26-28, 29-31, 32 °C.
  test.each([
    [22, 6, 8],
    [25, 6, 7],
    [28, 5, 6],
    [30, 4, 5],
  ])('at %d °C the next dose falls on day %d to %d', (celsius, earliest, latest) => {
    const { steps } = foldOf('praziquantel', [started(), warm(celsius), dose(day(1))], day(2));
    expect(steps[1]).toMatchObject({ earliest: day(1 + earliest), latest: day(1 + latest) });
  });
  test('at 15 °C there is no data, no date and no end', () => {
    const state = foldOf('praziquantel', [started(), warm(15), ...[0, 7, 14, 21].map((at) => dose(day(at)))], day(60));
    expect(state.steps.map(({ id, planned }) => [id, planned])).toEqual([['worm-check', null]]);
    expect(state).toMatchObject({ completed: null, endsEarliest: null });
  });
  test('a warmer reading pulls the next dose forward', () => {
    const events = [started(), warm(25), dose(day(1))];
    expect(foldOf('praziquantel', events, day(2)).steps[1]?.latest).toEqual(day(8));
    expect(foldOf('praziquantel', [...events, warm(28, day(2))], day(2)).steps[1]?.latest).toEqual(day(7));
  });
  test('a dose later than the gap and its grace counts as dose 1 of a new run', () => {
    const events = [started(), warm(25), dose(day(1)), dose(day(7))];
    const turns = (next: Date) =>
      foldOf('praziquantel', [...events, dose(next)], day(20)).steps.filter(({ run, doneAt }) => run && doneAt).length;
    expect(turns(hour(14 * 24 + 5.9))).toBe(3);
    expect(turns(hour(14 * 24 + 6.1))).toBe(1);
  });
  test('four doses, a clean check a week later and 14 clear days end it', () => {
    const events = [started(), warm(25), ...[1, 7, 13, 19].map((at) => dose(day(at))), ...checkIns(1, 33)];
    expect(foldOf('praziquantel', events, day(33)).completed).toBeNull();
    expect(foldOf('praziquantel', [...events, did(day(25), 'worm-check')], day(33)).completed).toBeNull();
    expect(foldOf('praziquantel', [...events, did(day(26), 'worm-check')], day(33)).completed).toEqual(day(33));
  });
});

describe('acropora flatworm', () => {
  // One generation, Barton et al. 2019: 64 days at 24 °C, 38 at 27 °C; 46.67 at 26 °C by hand.
  test.each([
    [24, 64],
    [26, 46.67],
    [27, 38],
    [29, 38],
  ])('at %d °C the hold takes %d days', (celsius, days) => {
    expect(holdOf('acropora-flatworm', 'pest-free', [started(), warm(celsius)], day(1)).needed).toBeCloseTo(days, 2);
  });
  test('the coldest reading decides, and below 24 °C there is no end', () => {
    const hold = (coldest: number) =>
      holdOf('acropora-flatworm', 'pest-free', [started(), warm(27), warm(coldest, day(1))], day(2));
    expect(hold(25).needed).toBeCloseTo(55.33, 2);
    expect(hold(22)).toMatchObject({ needed: null, endsEarliest: null });
  });
  test('dips go on until the hold is reached, and a worm asks for three more clean ones', () => {
    const dips = (from: number, to: number) =>
      Array.from({ length: to - from + 1 }, (_, index) => did(day((from + index) * 7), 'dips'));
    const events = [started(), warm(27), ...dips(0, 4)];
    expect(foldOf('acropora-flatworm', events, day(30)).steps.at(-1)).toMatchObject({ id: 'dips-6', planned: day(35) });
    expect(foldOf('acropora-flatworm', [...events, ...dips(5, 5)], day(39)).completed).toEqual(day(38));
    // The last dip lies ten days before the end of the hold, so another one is asked for.
    const stopped = foldOf('acropora-flatworm', [started(), warm(27), ...dips(0, 4)], day(39));
    expect(stopped.completed).toBeNull();
    expect(stopped.overdue.map(({ id }) => id)).toContain('dips-6');
    const worm = [...events, ...dips(5, 5), sign(hour(35 * 24 + 1), 'pest')];
    expect(foldOf('acropora-flatworm', worm, day(39)).completed).toBeNull();
    const after = foldOf('acropora-flatworm', [...worm, ...dips(6, 10)], day(74));
    expect(after.completed).toEqual(hour((35 + 38) * 24 + 1));
  });
});

describe('display without fish', () => {
  const end = (option: string, events: Parameters<typeof foldOf>[1] = []) =>
    foldOf('fishless-display', [started({ option }), ...events], day(1)).holds[0]?.endsEarliest;
  test('76 days, and 45 only in water that was measured and never below 27 °C', () => {
    expect(end('any')).toEqual(day(76));
    expect(end('white-spot-warm')).toEqual(day(76));
    expect(end('white-spot-warm', [warm(27)])).toEqual(day(45));
    expect(end('white-spot-warm', [warm(27), warm(26.9, hour(3))])).toEqual(day(76));
  });
  test('a fish that was overlooked starts it anew', () => {
    expect(end('any', [sign(hour(5), 'fish')])).toEqual(hour(5 + 76 * 24));
  });
});

test('suspected velvet is an emergency from its first minute and starts no ordinary clock', () => {
  const state = foldOf('suspected-velvet', [started()], hour(0.1));
  expect(state.alarms[0]?.urgency).toBe('emergency');
  expect(state.holds).toEqual([]);
  expect(foldOf('suspected-velvet', [started()], hour(3)).overdue.map(({ id }) => id)).toContain('move-all-fish');
});

test.each(
  plans.flatMap(({ id, options }) => [undefined, ...options.map((each) => each.id)].map((option) => [id, option])),
)('every date of %s (%s) has a reason and a standing, and nothing ends on the first day', (id = '', option) => {
  const state = foldOf(id, [started(option === undefined ? {} : { option }), warm(27)], hour(1));
  expect(state.completed).toBeNull();
  expect(state.steps.length + state.holds.length).toBeGreaterThan(0);
  for (const part of [...state.steps, ...state.holds]) {
    expect(part.reason).not.toBe('');
    expect(part.why.length).toBeGreaterThan(20);
    expect(part.standing).toMatch(/published|common-practice|from-memory/);
  }
});

test('what has not begun has no dates', () => {
  expect(foldOf('tank-transfer', [moved(hour(64))], hour(65))).toMatchObject({
    startedAt: null,
    steps: [],
    completed: null,
  });
});

describe('ammonia', () => {
  // At 25 °C, pH 8.2 and 35 ppt about 7 % is un-ionised (US EPA 1989): 0.25 mg/L hold 0.017, 0.5 hold 0.035, 1 holds 0.07.
  const water = [started(), warm(25), reading(hour(0.6), 'ph', 8.2, 'pH'), reading(hour(0.7), 'salinity', 35, 'ppt')];
  const alarm = (...readings: [hours: number, total: number][]) =>
    foldOf(
      'observation',
      [...water, ...readings.map(([at, total]) => reading(hour(at), 'ammonia', total, 'mg/L NH3'))],
      hour(60),
    ).alarms.map(({ about, urgency }) => [about, urgency]);
  test('warns, acts, and gives a day to what lies between', () => {
    expect(alarm([2, 0.25])).toEqual([]);
    expect(alarm([2, 0.4])).toEqual([['nh3', 'soon']]);
    expect(alarm([2, 0.6], [20, 0.6])).toEqual([['nh3', 'soon']]);
    expect(alarm([2, 0.6], [27, 0.6])).toEqual([['nh3', 'urgent']]);
    expect(alarm([2, 0.6], [20, 0.1], [27, 0.6])).toEqual([['nh3', 'soon']]);
    expect(alarm([2, 1])).toEqual([['nh3', 'urgent']]);
  });
  test('of two limits on one quantity only the worst is said', () => {
    expect(foldOf('observation', [started(), warm(31)], hour(1)).alarms.map(({ urgency }) => urgency)).toEqual([
      'emergency',
    ]);
  });
});
