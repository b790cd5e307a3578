import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { copperAfterChange, copperDose } from '../../shared/copper.ts';
import { bringsPerMl, stockFor } from '../../shared/stock.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

/** The top of the working range, as knowledge/parameters/copper-ionic.yaml has it. */
const setting = { form: 'ionic', mostMgPerL: 0.2, additions: 1 } as const;

describe('worked cases (two independent code paths each)', () => {
  test.each(workedCases('copper_dose'))('$id $output', (row) => {
    const got = told(
      copperDose({
        ...setting,
        volumeL: row.number('volume_L'),
        nowMgPerL: row.number('copper_now_mg_L'),
        targetMgPerL: row.number('copper_target_mg_L'),
      }),
      'copper',
    );
    if (row.output !== 'stock_mL')
      return expectPass(row, { copper_mg: got.copperMg, 'CuSO4.5H2O_mg': got.massMg }[row.output]);
    // The stock of the row is given by its copper; grams of the salt in a litre of it follow from one gram's worth.
    const formula = 'CuSO4.5H2O';
    const stockGPerL = row.number('stock_mg_Cu_per_mL') / bringsPerMl({ formula, stockGPerL: 1 }).copperMg;
    expectPass(
      row,
      told(stockFor({ formula, massG: got.massMg / 1000, stockGPerL, temperatureC: 22 }), 'stock').volumeMl,
    );
  });

  test.each(workedCases('copper_redose'))('$id $output', (row) => {
    const got = told(
      copperAfterChange({
        ...setting,
        volumeL: row.number('volume_L'),
        beforeMgPerL: row.number('copper_before_mg_L'),
        changeFraction: row.number('change_fraction'),
        targetMgPerL: row.number('copper_target_mg_L'),
      }),
      'copper',
    );
    expectPass(
      row,
      {
        copper_after_change_mg_L: got.fromMgPerL,
        redose_copper_mg: got.copperMg,
        'redose_CuSO4.5H2O_mg': got.massMg,
      }[row.output],
    );
  });
});

const tank = { ...setting, volumeL: 80, nowMgPerL: 0, targetMgPerL: 0.18 };

describe('copperDose', () => {
  test('additions make up the whole and end at the target', () => {
    const level = fc.double({ min: 0, max: 0.1, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), level, (additions, nowMgPerL) => {
        const got = told(copperDose({ ...tank, additions, nowMgPerL }), 'copper');
        expect(got.additions).toHaveLength(additions);
        expect(got.additions.reduce((sum, { massMg }) => sum + massMg, 0)).toBeCloseTo(got.massMg, 9);
        expect(got.additions.at(-1)?.reachesMgPerL).toBeCloseTo(0.18, 12);
      }),
    );
  });

  test('no form, no figure; a bound form is its label’s business', () => {
    expect(copperDose({ ...tank, form: null })).toEqual({ kind: 'form-missing' });
    for (const form of ['chelated', 'amine'] as const)
      // A level that is right for bound copper is not even compared with the ionic limit.
      expect(copperDose({ ...tank, form, nowMgPerL: 2, targetMgPerL: 2 })).toEqual({ kind: 'label-rules', form });
    expect(
      copperAfterChange({ ...tank, form: 'chelated', beforeMgPerL: 20, changeFraction: 0.3, targetMgPerL: 2 }),
    ).toEqual({ kind: 'label-rules', form: 'chelated' });
  });

  test('no target above the working range, no dose that lowers', () => {
    expect(copperDose({ ...tank, targetMgPerL: 0.21 })).toMatchObject({
      kind: 'out-of-range',
      quantity: 'targetMgPerL',
      most: 0.2,
    });
    expect(copperDose({ ...tank, nowMgPerL: 0.18 }).kind).toBe('not-needed');
    expect(copperDose({ ...tank, nowMgPerL: 0.3 })).toMatchObject({ kind: 'cannot-lower', fromMgPerL: 0.3 });
  });

  test.each([
    [{ volumeL: 0 }, 'volumeL'],
    [{ additions: 13 }, 'additions'],
    [{ nowMgPerL: -0.1 }, 'nowMgPerL'],
    [{ purity: 2 }, 'purity'],
  ])('refuses %o', (given, quantity) => {
    expect(copperDose({ ...tank, ...given })).toMatchObject({ kind: 'out-of-range', quantity });
  });

  test('throws on what only a slip in the code can be', () => {
    expect(() => copperDose({ ...tank, additions: 1.5 })).toThrow(RangeError);
    expect(() => copperDose({ ...tank, formula: 'KCl' })).toThrow(RangeError);
  });
});

describe('copperAfterChange', () => {
  const change = { ...tank, beforeMgPerL: 0.18, changeFraction: 0.25 };
  test('new water at the level leaves nothing to dose', () => {
    expect(copperAfterChange({ ...change, newWaterMgPerL: 0.18 }).kind).toBe('not-needed');
  });
  test('refuses a share above the whole', () => {
    expect(copperAfterChange({ ...change, changeFraction: 1.2 })).toMatchObject({ quantity: 'changeFraction' });
  });
});
