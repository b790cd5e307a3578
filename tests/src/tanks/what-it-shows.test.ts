import { describe, expect, test } from 'vitest';
import { indexKnowledge, type KnowledgeBase } from '../../../src/knowledge/knowledge-base.ts';
import { loadCompiledKnowledge } from '../../../src/knowledge/compiled.loader.ts';
import { broughtBy, dosedMass, dosedWhat } from '../../../src/tanks/dose-text.ts';
import { fittedLine } from '../../../src/tanks/fitted-line.ts';
import { parameterChoices, parameterNamed } from '../../../src/tanks/measured.ts';
import type { LogEntry, NewLogEntry } from '../../../src/tanks/tank-log.ts';
import { courseOf, shownBy } from '../../../src/tanks/what-it-shows.ts';
import { built } from '../../set-up-build.ts';
import { aReading, daysLater } from './tanks.ts';

const base: KnowledgeBase = loadCompiledKnowledge(built('knowledge.json'));
const alkalinity = base.parameters.get('alkalinity')!;
const nitrate = base.parameters.get('nitrate')!;
const tank = { netVolumeL: 200 };
const log = (...entries: NewLogEntry[]): LogEntry[] =>
  entries.map((entry, n) => ({ ...entry, id: n + 1, guildId: 'one', tankId: 1 }));
const rise = (of: number, day: number, days = 1): NewLogEntry => ({
  kind: 'dose',
  what: 'something',
  effect: { by: 'rise', of: { alkalinity: of } },
  days,
  at: daysLater(day),
});
const change = (day: number, newWater: Record<string, number>): NewLogEntry => ({
  kind: 'water-change',
  share: 0.2,
  newWater,
  at: daysLater(day),
});
const shown = (parameter: typeof alkalinity, entries: LogEntry[]) =>
  shownBy(parameter, courseOf(parameter, tank, entries), 0);

describe('what readings show', () => {
  test('a dose on seven days counts on each of them', () => {
    // 8.0 + 7 × 0.8 - 8.3 = 5.3 used in 7 days.
    const entries = log(aReading(8, 0), rise(0.8, 6.5, 7), aReading(8.3, 7));
    expect(courseOf(alkalinity, tank, entries).doses.map(({ at }) => at)).toEqual(
      [0.5, 1.5, 2.5, 3.5, 4.5, 5.5, 6.5].map(daysLater),
    );
    expect(shown(alkalinity, entries)).toMatchObject({ consumption: { perDay: expect.closeTo(5.3 / 7, 9) } });
  });

  test('a dose in grams counts by the volume that the tank is now held to have', () => {
    const grams: NewLogEntry = { ...rise(0, 1), effect: { by: 'total', of: { alkalinity: 200 } } } as NewLogEntry;
    const entries = log(aReading(8, 0), grams, aReading(8, 2));
    expect(shown(alkalinity, entries)).toMatchObject({ consumption: { perDay: expect.closeTo(0.5, 9) } });
    const half = shownBy(alkalinity, courseOf(alkalinity, { netVolumeL: 100 }, entries), 0);
    expect(half).toMatchObject({ consumption: { perDay: expect.closeTo(1, 9) } });
  });

  test('grams are as far off as the volume: it widens the interval in quadrature', () => {
    const grams = { ...rise(0, 1), effect: { by: 'total', of: { alkalinity: 800 } } } as NewLogEntry;
    const entries = log(aReading(8, 0), grams, aReading(8, 4));
    const of = (volumeError: number, given = entries) => {
      const found = shownBy(alkalinity, courseOf(alkalinity, tank, given), volumeError);
      return found.kind === 'consumption' && found.consumption.kind !== 'not-enough' ? found.consumption : null;
    };
    // Kit: √2 × 0.5 / 4 = 0.1768. Volume: a tenth of 4 dKH in 4 days = 0.1. Together 0.2031.
    expect(of(0)).toMatchObject({ perDay: 1, high: expect.closeTo(1.1768, 4), low: expect.closeTo(0.8232, 4) });
    expect(of(0.1)).toMatchObject({ perDay: 1, high: expect.closeTo(1.2031, 4), low: expect.closeTo(0.7969, 4) });
    // What the member says that it rose does not come from the volume.
    const said = log(aReading(8, 0), rise(4, 1), aReading(8, 4));
    expect(of(0.1, said)).toMatchObject({ high: expect.closeTo(1.1768, 4) });
  });

  test('a change of which nothing was said parts the readings; one of known water does not', () => {
    const readings = [aReading(8, 0), aReading(7.4, 2)];
    expect(shown(alkalinity, log(...readings, change(1, { calcium: 420 })))).toMatchObject({
      consumption: { kind: 'not-enough', why: 'water-changed' },
    });
    // 8 - k, then 0.8 × that + 0.2 × 8, less k: 8 - 1.8 k = 7.4.
    expect(shown(alkalinity, log(...readings, change(1, { alkalinity: 8 })))).toMatchObject({
      consumption: { perDay: expect.closeTo(1 / 3, 9) },
    });
  });

  test('readings from more than six weeks before the last do not count, nor what was done before those that do', () => {
    const course = courseOf(
      alkalinity,
      tank,
      log(aReading(12, -60), rise(3, -50), change(-50, {}), aReading(8, 0), aReading(7, 2)),
    );
    expect(course).toMatchObject({ readings: [{ value: 8 }, { value: 7 }], doses: [], changes: [] });
  });

  test('a kit that nobody knows is not guessed; five readings tell by themselves, or the member says it', () => {
    const two = log(aReading(5, 0, 'nitrate'), aReading(9, 4, 'nitrate'));
    expect(nitrate.kitError).toBeUndefined();
    expect(shown(nitrate, two)).toEqual({ kind: 'kit-unknown', readings: 2 });
    const five = log(...[5, 6, 7.1, 8, 9].map((value, n) => aReading(value, n, 'nitrate')));
    expect(shown(nitrate, five)).toMatchObject({ consumption: { kind: 'told', by: 'spread' } });
    const said = two.map((entry) => ({ ...entry, kitError: 1 }) as LogEntry);
    expect(shown(nitrate, said)).toMatchObject({ consumption: { kind: 'told', perDay: -1 } });
  });

  test('temperature is not used up', () => {
    expect(shown(base.parameters.get('temperature')!, log(aReading(25, 0, 'temperature')))).toEqual({
      kind: 'not-used-up',
    });
  });
});

describe('the line on the chart', () => {
  test('goes through the readings, up at a dose and towards the new water at a change', () => {
    // 0.5 a day: 8 → 7.5, dose to 8.5, → 8, change 0.8 × 8 + 0.2 × 10 = 8.4, → 7.9.
    const course = courseOf(
      alkalinity,
      tank,
      log(aReading(8, 0), rise(1, 1), change(2, { alkalinity: 10 }), aReading(7.9, 3)),
    );
    const { stretches } = fittedLine(course, 0.5, 0.3);
    expect(stretches.map(({ valueAtFrom, valueAtTo }) => [valueAtFrom, valueAtTo])).toEqual([
      [expect.closeTo(8, 9), expect.closeTo(7.5, 9)],
      [expect.closeTo(8.5, 9), expect.closeTo(8, 9)],
      [expect.closeTo(8.4, 9), expect.closeTo(7.9, 9)],
    ]);
  });

  test('begins anew after a change of unknown water, and marks what stands far off', () => {
    const values = [9, 8.5, 8, 4, 7];
    const entries = values.map((value, n) => aReading(value, n));
    expect(fittedLine(courseOf(alkalinity, tank, log(...entries)), 0.5, 0.3).isFarOff).toEqual([
      false,
      false,
      false,
      true,
      false,
    ]);
    const parted = courseOf(
      alkalinity,
      tank,
      log(aReading(9, 0), aReading(8.5, 1), change(1.5, {}), aReading(6, 2), aReading(5.5, 3)),
    );
    const lines = fittedLine(parted, 0.5, 0.3);
    expect(lines.stretches.at(-1)).toMatchObject({ valueAtTo: expect.closeTo(5.5, 9) });
    expect(lines.stretches[0]).toMatchObject({ valueAtFrom: expect.closeTo(9, 9) });
    expect(lines.isFarOff).toEqual([false, false, false, false]);
  });
});

describe('what was typed', () => {
  test.each([
    ['alk', 'alkalinity'],
    ['NO3', 'nitrate'],
    ['Copper, ionic', 'copper-ionic'],
    ['  Calcium ', 'calcium'],
  ])('%s is %s', (typed, id) => {
    expect(parameterNamed(base, typed)).toMatchObject({ kind: 'parameter', parameter: { id } });
  });
  test('copper alone is asked about, ammonia is not measured by itself, the rest is unknown', () => {
    expect(parameterNamed(base, 'copper')).toMatchObject({ kind: 'which' });
    expect(parameterNamed(base, 'ammonia')).toMatchObject({ kind: 'not-measured' });
    expect(parameterNamed(base, 'moonlight')).toEqual({ kind: 'unknown', typed: 'moonlight' });
    expect(parameterNamed(indexKnowledge({ ...emptyCompiled }), 'alk')).toMatchObject({ kind: 'unknown' });
  });
  test('what only quarantine tanks have stands last among the choices', () => {
    const ids = parameterChoices(base, '').map(({ value }) => value);
    expect(ids.slice(-3).every((id) => id.startsWith('copper-'))).toBe(true);
    expect(ids).not.toContain('flow');
    expect(parameterChoices(base, 'cal')[0]).toEqual({ name: 'Calcium', value: 'calcium' });
  });
  test('a reagent by any of its names, or what rose', () => {
    expect(dosedWhat(base, 'Baking Soda')).toMatchObject({ kind: 'reagent', reagent: { formula: 'NaHCO3' } });
    expect(dosedWhat(base, 'alkalinity')).toMatchObject({ kind: 'rise' });
    expect(dosedWhat(base, 'temperature')).toEqual({ kind: 'unknown' });
  });
  test('grams, or millilitres of a known strength', () => {
    expect(dosedMass('20 g', undefined)).toMatchObject({ kind: 'mass', massG: 20 });
    expect(dosedMass('50 mL', '80 g/L')).toMatchObject({ kind: 'mass', massG: expect.closeTo(4, 9) });
    expect(dosedMass('50 mL', undefined)).toMatchObject({ kind: 'strength-missing' });
    expect(dosedMass('50 mL', 'strong')).toMatchObject({ kind: 'unread', name: 'strength' });
    for (const odd of ['-5 g', '0 g', '9e9 kg', 'some', '8 dKH', ''])
      expect(dosedMass(odd, undefined), odd).toMatchObject({ kind: 'unread', name: 'amount' });
  });
  // dosing-worked.csv, W-1: 8.988284 g of NaHCO3 raise 200 L by 1.5 dKH. W-23: 55.02071 g CaCl2.2H2O raise 300 L by 50 mg/L.
  test('what grams bring agrees with worked doses', () => {
    const of = (name: string, massG: number) => {
      const what = dosedWhat(base, name);
      return what.kind === 'reagent' ? broughtBy(base, what.reagent, massG) : {};
    };
    expect(of('baking soda', 8.988284)['alkalinity']! / 200).toBeCloseTo(1.5, 4);
    expect(of('calcium-chloride-dihydrate', 55.02071)['calcium']! / 300).toBeCloseTo(50, 2);
    expect(of('copper-sulfate-pentahydrate', 1)).toEqual({ 'copper-ionic': expect.closeTo(254.51, 1) });
    expect(of('sea-salt', 100)).toEqual({});
  });
});

const emptyCompiled = {
  format: 4,
  critters: [],
  corals: [],
  lookAlikes: [],
  sources: [],
  firstAid: [],
  ambiguousNames: [],
  parameters: [],
  reagents: [],
  fish: [],
  lifeCycles: [],
  plans: [],
  purposes: [],
  remedies: [],
  signs: [],
  chores: [],
};
