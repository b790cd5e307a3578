import { describe, expect, test } from 'vitest';
import { isRepeat } from '../../../src/quarantine/repeat.ts';
import {
  checkIn,
  checkIns,
  copper,
  day,
  death,
  did,
  event,
  foldOf,
  holdOf,
  hour,
  moved,
  planOf,
  plans,
  reading,
  salinity,
  sign,
  START,
  started,
  warm,
  ZONE,
} from './fold-of.ts';

const urgencies = (state: ReturnType<typeof foldOf>, about: string) =>
  state.alarms.filter((each) => each.about === about).map(({ urgency }) => urgency);
const ammonia = (at: Date, value: number, unit = 'mg/L NH3') => reading(at, 'ammonia', value, unit);
const ph = (at: Date, value: number) => reading(at, 'ph', value, 'pH');

describe('ammonia whose water is not known', () => {
  const asked = (state: ReturnType<typeof foldOf>) =>
    state.due.filter(({ says }) => says.includes('judge the ammonia')).map(({ id }) => id);
  // Common practice: 0.25 and 0.5 mg/L of all ammonia at pH 8.2 and 25 °C.
  test.each([
    [0.25, []],
    [0.3, ['soon']],
    [0.6, ['urgent']],
  ])('%d mg/L in all is judged at its usual worst: %o', (total, expected) => {
    const state = foldOf('observation', [started(), ammonia(hour(2), total)], hour(3));
    expect(urgencies(state, 'ammonia')).toEqual(expected);
  });
  test('what is missing is asked for, and a reading of nothing asks for nothing', () => {
    const at = (total: number) => foldOf('copper-ionic', [started(), warm(25), ammonia(hour(2), total)], hour(3));
    expect(asked(at(0.5))).toEqual(['ph']);
    expect(asked(at(0))).toEqual([]);
  });
  test('pH measured afterwards judges it; pH of two days before does not', () => {
    const events = [started(), warm(25, hour(48)), ammonia(hour(50), 0.6)];
    expect(urgencies(foldOf('observation', [...events, ph(hour(2), 8.2)], hour(51)), 'ammonia')).toEqual(['urgent']);
    const judged = foldOf('observation', [...events, ph(hour(51), 7.5)], hour(52));
    expect(judged.alarms).toEqual([]);
    expect(asked(judged)).toEqual([]);
  });
});

describe('what cannot wait', () => {
  const withDeaths = plans.filter(({ deaths }) => deaths).map(({ id }) => id);
  test('every plan of fish but the one for velvet watches for deaths', () => {
    expect(withDeaths).toEqual(
      plans.filter((plan) => plan.for === 'fish' && plan.emergency === undefined).map(({ id }) => id),
    );
  });
  test.each(withDeaths)('%s: two deaths within 48 hours that nobody can explain stop the plan', (id) => {
    const dead = (hours: number, known = false) =>
      urgencies(foldOf(id, [started(), death(hour(10)), death(hour(10 + hours), known)], hour(70)), `${id}-deaths`);
    expect(dead(48)).toEqual(['emergency']);
    expect(dead(49)).toEqual([]);
    expect(dead(20, true)).toEqual([]);
  });
  test('a temperature that moves by more than a degree in a day is flagged, slowly it is not', () => {
    const after = (celsius: number, hours: number) =>
      urgencies(foldOf('observation', [started(), warm(25), warm(celsius, hour(hours))], hour(hours)), 'temperature');
    expect(after(26.2, 20)).toEqual(['watch']);
    expect(after(23.8, 20)).toEqual(['watch']);
    expect(after(26, 20)).toEqual([]);
    expect(after(26.2, 36)).toEqual([]);
  });
  test('gasping fish in counted copper are an emergency of the copper as well', () => {
    const events = [started(), copper(day(1), 0.18)];
    const gasping = event(day(2), {
      kind: 'sign-seen',
      sign: 'fish-surface-gasping',
      effect: 'weak',
      urgency: 'emergency',
    });
    expect(urgencies(foldOf('copper-ionic', [...events, gasping], day(2)), 'copper')).toEqual(['emergency']);
    expect(urgencies(foldOf('copper-ionic', [...events, gasping, checkIn(day(3))], day(3)), 'copper')).toEqual([]);
  });
  test('salinity is flagged by its steps on the way down, at the level and on the way up', () => {
    const low = [started(), did(hour(1), 'instrument-checked'), salinity(hour(2), 35), salinity(hour(50), 11.5)];
    const daily = Array.from({ length: 28 }, (_, index) => salinity(hour(50 + (index + 1) * 24), 11.5));
    const at = (events: Parameters<typeof foldOf>[1], now: Date) =>
      urgencies(foldOf('hyposalinity', events, now), 'salinity');
    expect(at([...low.slice(0, 3), salinity(hour(14), 20)], hour(14))).toEqual(['soon']);
    expect(at([...low.slice(0, 3), salinity(hour(26), 23)], hour(26))).toEqual([]);
    expect(at([...low, salinity(hour(60), 13.2)], hour(60))).toEqual(['soon']);
    expect(at([...low, salinity(hour(60), 14.2)], hour(60))).toEqual(['urgent']);
    const up = (value: number) =>
      at([...low, ...daily, salinity(hour(730), 12), salinity(hour(754), value)], hour(754));
    expect(up(14)).toEqual([]);
    expect(up(14.5)).toEqual(['urgent']);
  });
  test('a salinity below the level of sheet and plan is told, stops the clock and loses nothing', () => {
    const level = [started(), did(START, 'instrument-checked'), ...[2, 3, 4].map((each) => salinity(day(each), 11.5))];
    const alarm = (value: number) =>
      foldOf('hyposalinity', [...level, salinity(day(5), value)], day(5)).alarms.find(
        ({ about }) => about === 'salinity',
      );
    expect(alarm(11)).toBeUndefined();
    expect(alarm(10.9)).toMatchObject({ urgency: 'soon' });
    expect(alarm(9.9)).toMatchObject({ urgency: 'urgent' });
    const low = [...level, salinity(day(5), 10.5), salinity(day(6), 10.5)];
    expect(holdOf('hyposalinity', 'level', low, day(6.5))).toMatchObject({
      counted: 2,
      restartedBy: null,
      paused: 'The last reading, 10.5, is below the limit. Time counts again from the next good one.',
    });
    expect(holdOf('hyposalinity', 'level', [...low, salinity(day(7), 11)], day(8)).counted).toBeCloseTo(3);
    // It cannot begin the count either, and on the way down it is told as well.
    const begins = [started(), did(START, 'instrument-checked'), salinity(day(2), 8)];
    expect(holdOf('hyposalinity', 'level', begins, day(2.5)).since).toBeNull();
    expect(foldOf('hyposalinity', begins, day(2.5)).alarms).toContainEqual(
      expect.objectContaining({ about: 'salinity', urgency: 'urgent' }),
    );
  });
  test('a salinity that no checked instrument read is told and not counted', () => {
    const state = foldOf('hyposalinity', [started(), salinity(day(3), 11.5)], day(3));
    expect(state.alarms.map(({ says }) => says.includes('was not checked'))).toEqual([true]);
  });
});

describe('clauses of single plans', () => {
  test('cold water asks for transfers until 21 days', () => {
    const moves = (count: number) => Array.from({ length: count }, (_, index) => moved(hour(64 * (index + 1))));
    expect(foldOf('tank-transfer', [started(), warm(24), ...moves(4)], hour(600)).completed).toEqual(hour(256));
    const cold = foldOf('tank-transfer', [started(), warm(21.5), ...moves(4)], hour(257));
    expect([cold.completed, cold.steps.length]).toEqual([null, 8]);
    expect(foldOf('tank-transfer', [started(), warm(21.5), ...moves(8)], hour(600)).completed).toEqual(hour(512));
    // A cold night after the end takes nothing back.
    const after = [started(), warm(24), ...moves(4), warm(20, hour(300))];
    expect(foldOf('tank-transfer', after, hour(600)).completed).toEqual(hour(256));
  });
  test('a display is done only after three nights without a fish that follow the last one seen', () => {
    const looks = (...days: number[]) => days.map((each) => did(day(each), 'night-looks'));
    const stir = did(day(7), 'dead-spots');
    const end = (events: Parameters<typeof foldOf>[1]) =>
      foldOf('fishless-display', [started(), stir, ...events], day(200)).completed;
    expect(end(looks(10, 20))).toBeNull();
    expect(end(looks(10, 20, 30))).toEqual(day(76));
    expect(end([...looks(10, 20, 30), sign(day(40), 'fish')])).toBeNull();
    expect(end([...looks(10, 20, 30), sign(day(40), 'fish'), ...looks(50, 60, 70)])).toEqual(day(116));
  });
  test('of flukes alone it is the mean of each week that has to be warm', () => {
    const option = (...celsius: number[]) =>
      foldOf(
        'fishless-display',
        [started({ option: 'flukes' }), ...celsius.map((each, index) => warm(each, day(index)))],
        day(10),
      ).option;
    expect(option(26, 24.5, 25.5)).toBe('flukes');
    expect(option(26, 24.5, 24)).toBe('any');
    expect(option()).toBe('any');
  });
  test('a sign in the last week keeps the copper in until 14 days are clear', () => {
    const daily = Array.from({ length: 50 }, (_, index) => copper(day(index + 1), 0.18));
    const events = [started(), did(hour(1), 'copper-in'), ...daily, ...checkIns(1, 50), sign(day(26))];
    const { steps, due, overdue } = foldOf(
      'copper-ionic',
      events.filter(({ at }) => at <= day(33)),
      day(34.5),
    );
    expect(steps.find(({ id }) => id === 'copper-out')).toMatchObject({ status: 'blocked', projected: true });
    expect([...due, ...overdue].map(({ id }) => id)).toContain('copper');
    expect(foldOf('copper-ionic', events, day(40)).steps.find(({ id }) => id === 'copper-out')?.status).toBe('due');
  });
  test('water past a limit in the last 24 hours holds up the end of an observation', () => {
    const over = [started(), ...checkIns(1, 30), did(hour(730), 'exit-inspection')];
    expect(foldOf('observation', over, day(31)).completed).toEqual(hour(730));
    const bad = [...over, warm(29.5, hour(720))];
    expect(foldOf('observation', bad, day(40)).completed).toBeNull();
    expect(foldOf('observation', [...bad, warm(26, hour(725))], day(40)).completed).toEqual(hour(744));
  });
  test('a photo is asked for in its week and never holds up the end', () => {
    const ids = (now: Date) => foldOf('observation', [started()], now).steps.map(({ id }) => id);
    expect(ids(day(8))).toContain('photo-week-1');
    expect(ids(day(12))).not.toContain('photo-week-1');
  });
  test('a refused meal adds a week', () => {
    const events = [started(), ...checkIns(1, 9), checkIn(day(10), { appetite: 'none' })];
    expect(holdOf('observation', 'clear', events, day(10)).endsOn).toBe('2026-07-08');
  });
  test('water that cools never pushes a promised dose back, and warm water of later reproaches no earlier gap', () => {
    const dose = (at: Date) => event(at, { kind: 'dose-given' });
    const events = [started(), warm(27), dose(day(1))];
    const next = (more: Parameters<typeof foldOf>[1]) => foldOf('praziquantel', [...events, ...more], day(5)).steps[1];
    expect(next([])).toMatchObject({ earliest: day(6), latest: day(7) });
    expect(next([warm(22, day(3))])?.earliest).toEqual(day(6));
    const slow = [started(), warm(24), ...[1, 9, 17, 25].map((each) => dose(day(each))), warm(31, day(40))];
    expect(foldOf('praziquantel', slow, day(41)).broken).toEqual([]);
  });
  test('a clam is searched at nights 2, 5 and 10 and then weekly', () => {
    const planned = foldOf('clam-watch', [started(), did(hour(0), 'dips')], hour(1)).steps.map((each) => each.planned);
    // 21:00 in Berlin, eleven hours after the time of the start.
    expect(planned.slice(1, 5)).toEqual([2, 5, 10, 17].map((nights) => hour(nights * 24 + 11)));
  });
});

describe('a second press', () => {
  const repeats = (id: string, events: Parameters<typeof foldOf>[1], pressed: (typeof events)[number]) =>
    isRepeat(planOf(id), events, pressed, ZONE);
  test('of All well on one local day says nothing new, after a sign it does', () => {
    const well = [started(), checkIn(hour(2))];
    expect(repeats('observation', well, checkIn(hour(9)))).toBe(true);
    expect(repeats('observation', well, checkIn(hour(15)))).toBe(false);
    expect(repeats('observation', [...well, sign(hour(3))], checkIn(hour(9)))).toBe(false);
    expect(
      repeats('observation', [...well, event(hour(3), { kind: 'undone', eventId: well[1]?.id })], checkIn(hour(9))),
    ).toBe(false);
  });
  test('of a turn within ten minutes is one turn; steps alike by name stay two', () => {
    const events = [started(), did(hour(64), 'transfers-1')];
    expect(repeats('tank-transfer', events, did(hour(64.1), 'transfers-1'))).toBe(true);
    expect(repeats('tank-transfer', events, moved(hour(64.1)))).toBe(true);
    expect(repeats('tank-transfer', events, did(hour(128), 'transfers-2'))).toBe(false);
    const looked = [started(), did(hour(4), 'look-1')];
    expect(repeats('suspected-velvet', looked, did(hour(4), 'look-4'))).toBe(false);
    expect(repeats('suspected-velvet', looked, did(hour(5), 'look-1'))).toBe(true);
  });
});
