import { describe, expect, test } from 'vitest';
import { consumption } from '../../../shared/consumption.ts';
import type { Parameter } from '../../../src/knowledge/parameter.ts';
import { judge } from '../../../src/tanks/judge.ts';
import { MOST_DAYS, nextTest } from '../../../src/tanks/next-test.ts';
import { MOST_NAME, nameKey, singleLine, tankName } from '../../../src/tanks/tank-name.ts';
import { chooseTank, tankChoices } from '../../../src/tanks/tank-option.ts';
import { netOfGlass, readSize } from '../../../src/tanks/tank-size.ts';
import { DEFAULT_UNITS, type Tank } from '../../../src/tanks/tank.ts';
import { readWhen } from '../../../src/tanks/when.ts';
import { aTank, daysLater, NOON } from './tanks.ts';

const figure = (low: number, high = low) => ({ low, high, standing: 'common-practice' as const });
const parameter: Parameter = {
  id: 'made-up',
  name: 'Made up',
  aliases: [],
  unit: 'dKH',
  target: figure(7, 9),
  warnBelow: figure(5.5, 6),
  warnAbove: figure(12, 13),
  urgentBelow: figure(5),
  urgentAbove: figure(20),
  more: {},
  raisedBy: [],
  lowering: 'Wait.',
  testing: 'Test.',
  after: [],
  mind: [],
  sources: ['common-practice'],
};

describe('judging a reading', () => {
  // The careful end of a span counts: the higher one below, the lower one above. A limit itself is still within.
  test.each([
    [4.9, 'urgent', 'below'],
    [5, 'warn', 'below'],
    [5.9, 'warn', 'below'],
    [12.1, 'warn', 'above'],
    [20, 'warn', 'above'],
    [20.1, 'urgent', 'above'],
  ])('%f is %s, %s', (value, kind, side) => {
    expect(judge(parameter, value)).toMatchObject({ kind, side });
  });
  test.each([
    [6, 'off-target'],
    [7, 'in-target'],
    [9, 'in-target'],
    [9.1, 'off-target'],
    [12, 'off-target'],
  ])('%f is %s', (value, kind) => {
    expect(judge(parameter, value).kind).toBe(kind);
  });
  test('without limits and target nothing is judged', () => {
    const { id, name, aliases, unit, more, raisedBy, lowering, testing, after, mind, sources } = parameter;
    const bare: Parameter = { id, name, aliases, unit, more, raisedBy, lowering, testing, after, mind, sources };
    expect(judge(bare, 99)).toEqual({ kind: 'no-limits' });
  });
});

describe('the next test', () => {
  const at = (values: readonly number[], every = 3) =>
    consumption({ readings: values.map((value, n) => ({ day: n * every, value, kitError: 0.3 })) });
  const next = (given: Partial<Parameters<typeof nextTest>[0]>) =>
    nextTest({ lastAt: NOON, outside: null, consumption: at([9, 7.5]), kitError: 0.3, ...given });

  // 0.5 dKH a day against √2 × 0.3 = 0.424: after one day. 0.2 a day: 2.12, so 3 days. 0.06 a day: 7.07 days, so a week.
  test.each([
    [0.5, 1, 'change-shows'],
    [0.2, 3, 'change-shows'],
    [0.07, 7, 'week'],
    [0.061, 7, 'week'],
    [0.01, 7, 'week'],
  ])('%f dKH a day and a kit of 0.3: after %i days, %s', (aDay, days, why) => {
    const told = consumption({
      readings: [0, 30, 60].map((day) => ({ day, value: 70 - aDay * day, kitError: 0.3 })),
    });
    expect(next({ consumption: told })).toMatchObject({ days, why, at: daysLater(days) });
  });
  test('a rise is waited for like a fall', () => {
    expect(next({ consumption: at([5, 6.5]) })).toMatchObject({ days: 1, why: 'change-shows', change: -0.5 });
  });
  test('while it is unclear, the most that it may be counts', () => {
    // 0 ± 0.141 a day (√2 × 0.3 / 3): 0.424 / 0.141 = 3.
    expect(next({ consumption: at([8, 8]) })).toMatchObject({ days: 3, why: 'change-shows' });
  });
  test('says why else', () => {
    expect(next({ outside: 'warn' })).toMatchObject({ days: 1, why: 'outside' });
    expect(next({ outside: 'urgent' })).toMatchObject({ days: 0.25, why: 'urgent', at: daysLater(0.25) });
    expect(next({ consumption: at([8]) })).toMatchObject({ days: 3, why: 'second-reading' });
    expect(next({ consumption: null })).toMatchObject({ days: MOST_DAYS, why: 'look' });
    expect(next({ kitError: null })).toMatchObject({ days: MOST_DAYS, why: 'look' });
  });
  test('a kit without error shows any change the next day, and no change never', () => {
    expect(next({ kitError: 0 })).toMatchObject({ days: 1 });
    const still = consumption({ readings: [0, 3].map((day) => ({ day, value: 8, kitError: 0 })) });
    expect(next({ kitError: 0, consumption: still })).toMatchObject({ days: MOST_DAYS, why: 'week' });
  });
});

describe('when it was', () => {
  const at = (text: string, now = NOON) => readWhen(text, now);
  test.each([
    ['', NOON],
    ['now', NOON],
    ['Today', NOON],
    ['yesterday', daysLater(-1)],
    ['2 days ago', daysLater(-2)],
    ['two days ago', daysLater(-2)],
    ['a week ago', daysLater(-7)],
    [' 3  h ago ', daysLater(-3 / 24)],
    ['90 min ago', daysLater(-1.5 / 24)],
    ['5d', daysLater(-5)],
    ['2026-11-20', new Date('2026-11-20T12:00:00Z')],
    ['2026-11-20 18:30', new Date('2026-11-20T18:30:00Z')],
    ['2026-11-20T18:30:00Z', new Date('2026-11-20T18:30:00Z')],
    ['2024-02-29', new Date('2024-02-29T12:00:00Z')],
  ])('%s', (text, expected) => {
    expect(at(text)).toEqual({ kind: 'at', at: expected });
  });
  test('today’s date before noon is now, also where the day has begun already', () => {
    const morning = new Date('2026-11-25T08:00:00Z');
    expect(at('2026-11-25', morning)).toEqual({ kind: 'at', at: morning });
    const evening = new Date('2026-11-24T13:00:00Z');
    expect(at('2026-11-25', evening)).toEqual({ kind: 'at', at: evening });
  });
  test.each(['2026-11-26 10:00', '2026-12-24', '2027-01-01'])('%s has not come yet', (text) => {
    expect(at(text)).toMatchObject({ kind: 'ahead' });
  });
  test.each(['1902-01-01', '9999 weeks ago'])('%s is too long ago', (text) => {
    expect(at(text)).toEqual({ kind: 'long-ago' });
  });
  test.each(['soon', '2026-02-30', '2026-13-01', '20.11.2026', '-2 days ago', '2026-11-20 25:00', 'x'.repeat(2000)])(
    '%s cannot be read',
    (text) => {
      expect(at(text)).toEqual({ kind: 'unreadable' });
    },
  );
});

describe('names', () => {
  test.each([
    ['  Big   Reef ', 'Big Reef'],
    ['Reef\u202egnp', 'Reefgnp'],
    ['a\u200bb\nc', 'ab c'],
    ['Cafe\u0301', 'Café'],
    ['👩‍🔬', '👩‍🔬'],
    ['**@everyone**', '**@everyone**'],
    ['x'.repeat(MOST_NAME), 'x'.repeat(MOST_NAME)],
  ])('%j is kept as %j', (typed, kept) => {
    expect(tankName(typed)).toBe(kept);
  });
  test.each(['', '   ', '\u200b\u200d', '\u2066', 'x'.repeat(MOST_NAME + 1), `a${'\u0301'.repeat(200)}`])(
    '%j is no name',
    (typed) => {
      expect(tankName(typed)).toBeNull();
    },
  );
  test('case, width and blanks tell none apart', () => {
    expect(new Set(['Reef One', 'REEF  one', 'Ｒｅｅｆ One'].map(nameKey)).size).toBe(1);
    expect(nameKey('Reef 1')).not.toBe(nameKey('Reef 2'));
  });
  test('what a kit is called stays on one line', () => {
    expect(singleLine('drops\n# big\u202e')).toBe('drops # big');
  });
});

describe('which tank', () => {
  const tank = (id: number, name: string): Tank => ({ ...aTank({ name }), id });
  const [reef, frag, fragTwo] = [tank(1, 'Reef'), tank(2, 'Frag'), tank(3, 'Frag two')];
  test.each([
    [[reef], undefined, { kind: 'tank', tank: reef }],
    [[reef, frag], undefined, { kind: 'which', tanks: [reef, frag] }],
    [[reef, frag], 'REEF ', { kind: 'tank', tank: reef }],
    [[reef, frag], 're', { kind: 'tank', tank: reef }],
    [[frag, fragTwo], 'frag', { kind: 'tank', tank: frag }],
    [[frag, fragTwo], 'fra', { kind: 'unknown', typed: 'fra', tanks: [frag, fragTwo] }],
    [[reef], 'cube', { kind: 'unknown', typed: 'cube', tanks: [reef] }],
    [[], 'reef', { kind: 'no-tanks' }],
  ])('%j, typed %j', (tanks, typed, expected) => {
    expect(chooseTank(tanks, typed)).toEqual(expected);
  });
  test('choices are those that hold what was typed', () => {
    expect(tankChoices([reef, frag, fragTwo], 'TWO').map(({ value }) => value)).toEqual(['Frag two']);
  });
});

describe('volume by size', () => {
  test.each([
    ['box', '100 x 50 x 40 cm', 200],
    ['box', '100x50x40', 200],
    ['box', '1 m by 0.5 m by 40 cm', 200],
    ['box', '10 in x 10 in x 10 in', 16.387064],
    ['cylinder', '50 x 40 cm', 78.5398],
  ] as const)('%s %s holds %f L', (shape, text, litres) => {
    expect(readSize(shape, text, DEFAULT_UNITS)).toMatchObject({ kind: 'size', grossL: expect.closeTo(litres, 3) });
  });
  test('bare lengths are inches to whoever counts in US gallons', () => {
    const size = readSize('box', '10 x 10 x 10', { ...DEFAULT_UNITS, volume: 'US gal' });
    expect(size).toMatchObject({ kind: 'size', grossL: expect.closeTo(16.387064, 5) });
  });
  test.each([
    ['box', '100 x 50', 'wrong-count'],
    ['cylinder', '1 x 2 x 3', 'wrong-count'],
    ['box', 'a x b x c', 'unreadable'],
    ['box', '0 x 50 x 50', 'unreadable'],
    ['box', '-10 x 50 x 50', 'unreadable'],
    ['box', '', 'wrong-count'],
    ['box', 'x'.repeat(2000), 'wrong-count'],
  ] as const)('%s %j is refused: %s', (shape, text, kind) => {
    expect(readSize(shape, text, DEFAULT_UNITS).kind).toBe(kind);
  });
  test('75 to 90 % of 200 L is 165 L, nine per cent either way', () => {
    const net = netOfGlass(200, { low: 75, high: 90 });
    expect(net.netVolumeL).toBeCloseTo(165, 9);
    expect(net.volumeError * net.netVolumeL).toBeCloseTo(15, 9);
  });
});
