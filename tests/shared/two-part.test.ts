import { describe, expect, test } from 'vitest';
import { CALCIUM_MG_PER_MEQ, saltCreep, twoPartDaily, usePerDay } from '../../shared/two-part.ts';
import { MEQ_PER_L_PER_DKH } from '../../shared/units/alkalinity.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

describe('worked cases (two independent code paths each)', () => {
  test.each(workedCases('consumption'))('$id $output', (row) => {
    const [first, last] = [row.number('alk_first_dKH'), row.number('alk_last_dKH')];
    expectPass(row, usePerDay({ first, last, days: row.number('days'), dosed: row.number('dosed_dKH_total') }));
  });

  test.each(workedCases('two_part_daily'))('$id $output', (row) => {
    const daily = (alkalinityFormula: string) =>
      told(
        twoPartDaily({
          volumeL: row.number('volume_L'),
          useDkhPerDay: row.number('alk_consumption_dKH_per_day'),
          alkalinityFormula,
          calciumFormula: 'CaCl2.2H2O',
        }),
        'two-part',
      );
    const [carbonate, bicarbonate] = [daily('Na2CO3'), daily('NaHCO3')];
    expectPass(
      row,
      {
        alk_meq_per_day: carbonate.alkalinityMeqPerDay,
        Na2CO3_g_per_day: carbonate.alkalinityMassGPerDay,
        NaHCO3_g_per_day: bicarbonate.alkalinityMassGPerDay,
        'CaCl2.2H2O_g_per_day': bicarbonate.calciumMassGPerDay,
        calcium_used_mg_L_per_day: carbonate.calciumMgPerLPerDay,
      }[row.output],
    );
  });

  test.each(workedCases('salt_creep'))('$id $output', (row) => {
    const useDkhPerDay = row.number('alk_consumption_meq_L_per_day') / MEQ_PER_L_PER_DKH;
    const creep = told(saltCreep({ useDkhPerDay, days: row.number('days') }), 'creep');
    expectPass(row, row.output === 'NaCl_formed_g_L' ? creep.saltGPerL : creep.salinityRiseGPerKg);
  });
});

describe('twoPartDaily', () => {
  const tank = { volumeL: 250, useDkhPerDay: 1, alkalinityFormula: 'NaHCO3', calciumFormula: 'CaCl2' };

  // 40.078 / 2 (IUPAC 2021).
  test('corals take 20.039 mg of calcium with a milliequivalent', () => {
    expect(CALCIUM_MG_PER_MEQ).toBeCloseTo(20.039, 9);
  });

  test('a month of it creeps as salt creep says', () => {
    const { saltCreepGPerKgPerDay } = told(twoPartDaily(tank), 'two-part');
    const { salinityRiseGPerKg } = told(saltCreep({ useDkhPerDay: 1, days: 30 }), 'creep');
    expect(30 * saltCreepGPerKgPerDay).toBeCloseTo(salinityRiseGPerKg, 9);
  });

  test('weak powders take more', () => {
    const [pure, weak] = [1, 0.8].map((purity) =>
      told(twoPartDaily({ ...tank, alkalinityPurity: purity, calciumPurity: purity }), 'two-part'),
    );
    expect((weak?.alkalinityMassGPerDay ?? 0) * 0.8).toBeCloseTo(pure?.alkalinityMassGPerDay ?? Number.NaN, 9);
    expect((weak?.calciumMassGPerDay ?? 0) * 0.8).toBeCloseTo(pure?.calciumMassGPerDay ?? Number.NaN, 9);
  });

  test('refuses as a dose does', () => {
    expect(twoPartDaily({ ...tank, useDkhPerDay: 0 }).kind).toBe('not-needed');
    expect(twoPartDaily({ ...tank, useDkhPerDay: -0.2 }).kind).toBe('cannot-lower');
    expect(twoPartDaily({ ...tank, volumeL: 0 })).toMatchObject({ kind: 'out-of-range', quantity: 'volumeL' });
    expect(twoPartDaily({ ...tank, calciumFormula: 'NaHCO3' })).toMatchObject({ kind: 'does-not-bring', wanted: 'Ca' });
    expect(saltCreep({ useDkhPerDay: -1, days: 30 }).kind).toBe('out-of-range');
    expect(saltCreep({ useDkhPerDay: 1, days: 1e6 })).toMatchObject({ kind: 'out-of-range', quantity: 'days' });
  });
});

describe('usePerDay', () => {
  test.each([0, -1, Number.NaN])('takes no %s days', (days) => {
    expect(() => usePerDay({ first: 8, last: 7, days })).toThrow(RangeError);
  });
});
