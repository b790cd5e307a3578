import { describe, expect, test } from 'vitest';
import { readReagents, reagentsRaising, suggestReagents, usualReagents } from '../../../src/dosing/plan-reagents.ts';
import { rulesOf } from '../../../src/dosing/plan-input.ts';
import { readSpan } from '../../../src/dosing/plan-span.ts';
import { DEFAULT_UNITS } from '../../../src/tanks/tank.ts';
import { knowledge } from '../../set-up-club.ts';

const ALKALINITY = { description: '', required: false, quantity: 'alkalinity', least: 0, most: 25 } as const;
const MAGNESIUM = {
  description: '',
  required: false,
  quantity: 'concentration',
  species: 'Mg',
  least: 0,
  most: 2500,
} as const;
const SALINITY = { description: '', required: false, quantity: 'salinity', least: 2, most: 42 } as const;

describe('readSpan', () => {
  test.each([
    ['7.2 to 8.5', 7.2, 8.5],
    ['7.2 to 8.5 dkh', 7.2, 8.5],
    ['7.2dkh-8.5dkh', 7.2, 8.5],
    ['7,2 → 8,5', 7.2, 8.5],
    ['7.2->8.5', 7.2, 8.5],
    ['7.2 – 8.5', 7.2, 8.5],
    ['7.2..8.5', 7.2, 8.5],
    ['7.2 TO 8.5 DKH', 7.2, 8.5],
    // 2.5 meq/L × 2.80385; the unit at one end holds for both.
    ['2.5 to 3 meq', 7.0096, 8.4116],
    ['2.5 meq to 3', 7.0096, 8.4116],
    ['8.2', 8.2, null],
    ['8.2 dkh', 8.2, null],
  ])('alkalinity "%s" goes from %d to %d dKH', (text, now, target) => {
    const read = readSpan('alkalinity', text, ALKALINITY, DEFAULT_UNITS);
    expect(read).toMatchObject({
      kind: 'span',
      span: { now: expect.closeTo(now, 3), target: target === null ? null : expect.closeTo(target, 3) },
    });
  });

  test.each([
    ['1,250 to 1,350', MAGNESIUM, 1250, 1350],
    ['1250-1350 ppm', MAGNESIUM, 1250, 1350],
    ['34 to 35 ppt', SALINITY, 34, 35],
  ])('"%s"', (text, asked, now, target) => {
    const read = readSpan('it', text, asked, DEFAULT_UNITS);
    expect(read).toMatchObject({ span: { now: expect.closeTo(now, 6), target: expect.closeTo(target, 6) } });
  });

  test('a specific gravity is one at both ends', () => {
    // specific-gravity.csv: S 35 is 1.02637 at 25/25.
    const read = readSpan('salinity', '1.0249 to 1.02637', SALINITY, DEFAULT_UNITS);
    expect(read).toMatchObject({ span: { target: expect.closeTo(35, 1) } });
  });

  test.each([
    '',
    'banana',
    '7 to',
    'to 8',
    '7 to banana',
    '7 8',
    '7 to 8 to 9',
    '-1 to 8',
    '7 to 88',
    '5 L to 6 L',
    'x'.repeat(2_000),
  ])('"%.20s" is a problem and no guess', (text) => {
    expect(readSpan('alkalinity', text, ALKALINITY, DEFAULT_UNITS).kind).toBe('problem');
  });
});

describe('readReagents', () => {
  const read = (typed: string) => readReagents(knowledge(), typed);
  const ids = (typed: string) => {
    const found = read(typed);
    return found.kind === 'reagents' ? found.reagents.map(({ reagent }) => reagent.id) : found.kind;
  };

  test.each([
    [
      'baking soda, calcium chloride, epsom salt',
      ['sodium-bicarbonate', 'calcium-chloride-dihydrate', 'magnesium-sulfate-heptahydrate'],
    ],
    ['NaHCO3, CaCl2.2H2O', ['sodium-bicarbonate', 'calcium-chloride-dihydrate']],
    ['baking soda and sea salt', ['sodium-bicarbonate', 'sea-salt']],
    ['kalkwasser', ['calcium-hydroxide']],
    ['baking soda; ', ['sodium-bicarbonate']],
  ])('%s', (typed, expected) => expect(ids(typed)).toEqual(expected));

  test('a strength behind a name is that of its solution', () => {
    expect(read('baking soda 60 g/L, calcium chloride at 400g/l')).toMatchObject({
      reagents: [{ stockGPerL: 60 }, { stockGPerL: 400 }],
    });
  });

  test.each([
    'unicorn dust',
    'baking soda, unicorn dust',
    'baking soda, NaHCO3',
    'magnesium',
    'x'.repeat(2_000),
    'copper sulfate',
  ])('"%.20s" is answered with what is known', (typed) => expect(read(typed).kind).toBe('cannot'));
});

describe('the reagents of the knowledge base', () => {
  test('the usual ones are one for each value that has to rise', () => {
    const usual = usualReagents(knowledge(), ['salinity', 'magnesium', 'alkalinity', 'calcium']);
    expect(usual.map(({ reagent }) => reagent.id)).toEqual([
      'sea-salt',
      'magnesium-chloride-hexahydrate',
      'sodium-bicarbonate',
      'calcium-chloride-dihydrate',
    ]);
  });

  test('are all understood by each of their names', () => {
    for (const { id, name, formula, aliases } of reagentsRaising(knowledge()))
      for (const typed of [id, formula, ...[name, ...aliases].filter((each) => !each.includes(','))]) {
        const found = readReagents(knowledge(), typed);
        expect({ typed, found: found.kind === 'reagents' ? found.reagents[0]?.reagent.id : found }).toEqual({
          typed,
          found: id,
        });
      }
  });

  test('suggestions add one to what is there, within what Discord takes', () => {
    const all = suggestReagents(knowledge(), '');
    expect(all.length).toBeGreaterThan(8);
    const more = suggestReagents(knowledge(), 'baking soda, CaCl2.2H2O, epsom');
    expect(more[0]).toEqual({
      name: 'NaHCO3 + CaCl2.2H2O + Magnesium sulfate heptahydrate (MgSO4.7H2O)',
      value: 'NaHCO3, CaCl2.2H2O, MgSO4.7H2O',
    });
    for (const { name, value } of [
      ...all,
      ...suggestReagents(knowledge(), 'NaHCO3, CaCl2.2H2O, MgCl2.6H2O, MgSO4.7H2O, '),
    ]) {
      expect(name.length).toBeLessThanOrEqual(100);
      expect(readReagents(knowledge(), value).kind).toBe('reagents');
    }
  });

  test('order, caps and spacing come from its parameters', () => {
    const { parameters } = knowledge();
    const rules = rulesOf(knowledge());
    expect(rules.calcium.riseADay).toBe(parameters.get('calcium')?.riseADay?.low);
    expect(rules.alkalinity.after).toContain('magnesium');
    expect(rules.calcium.after).toContain('magnesium');
    expect(rules.alkalinity.apart).toEqual({
      from: ['calcium'],
      minutes: parameters.get('alkalinity')?.apart?.minutes.high,
    });
  });
});
