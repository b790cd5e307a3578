import { describe, expect, test } from 'vitest';
import { doseFor } from '../../shared/dose.ts';
import { bringsPerMl, mostStockGPerL, stockFor } from '../../shared/stock.ts';
import { numberIn, readReference, textIn } from '../reference/read-csv.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

describe('worked cases (two independent code paths each)', () => {
  test.each(workedCases('alk_stock_dose'))('$id $output', (row) => {
    const [formula, stockGPerL] = [row.text('reagent'), row.number('stock_g_per_L')];
    const alkalinityRiseDkh = row.number('alk_target_dKH') - row.number('alk_start_dKH');
    const { massG } = told(doseFor({ formula, volumeL: row.number('volume_L'), alkalinityRiseDkh }), 'dose');
    const { volumeMl } = told(stockFor({ formula, massG, stockGPerL, temperatureC: 22 }), 'stock');
    expectPass(row, row.output === 'stock_mL' ? volumeMl : bringsPerMl({ formula, stockGPerL }).alkalinityMeq);
  });

  test.each(workedCases('calcium_stock_dose'))('$id $output', (row) => {
    const [formula, stockGPerL] = [row.text('reagent'), row.number('stock_g_per_L')];
    const riseMgPerL = row.number('ca_target_mg_L') - row.number('ca_start_mg_L');
    const { massG } = told(doseFor({ formula, volumeL: row.number('volume_L'), ion: 'Ca', riseMgPerL }), 'dose');
    const { volumeMl } = told(stockFor({ formula, massG, stockGPerL, temperatureC: 22 }), 'stock');
    expectPass(row, row.output === 'stock_mL' ? volumeMl : bringsPerMl({ formula, stockGPerL }).calciumMg);
  });

  test.each(workedCases('copper_stock'))('$id $output', (row) => {
    const stockGPerL = row.number('CuSO4_5H2O_g_per_L');
    expectPass(row, bringsPerMl({ formula: 'CuSO4.5H2O', stockGPerL }).copperMg);
  });
});

const soluble = readReference('reagents')
  .filter((row) => textIn(row, 'solubility_20C_g_anhydrous_per_100g_water') !== '')
  .map((row) => ({
    name: textIn(row, 'name'),
    formula: textIn(row, 'formula'),
    anhydrous: numberIn(row, 'anhydrous_mass_fraction'),
    massPercent: [
      numberIn(row, 'solubility_20C_mass_percent_anhydrous'),
      numberIn(row, 'solubility_25C_mass_percent_anhydrous'),
    ],
    solubility: {
      at20C: numberIn(row, 'solubility_20C_g_anhydrous_per_100g_water'),
      at25C: numberIn(row, 'solubility_25C_g_anhydrous_per_100g_water'),
    },
  }));

describe('mostStockGPerL', () => {
  // The mass percent of the saturated solution (CRC Handbook, from memory) is the other path: a litre weighs 997 g or more.
  test.each(soluble)(
    '$name at 20 and 25 °C',
    ({ formula, anhydrous, massPercent: [at20 = 0, at25 = 0], solubility }) => {
      for (const [temperatureC, percent] of [
        [20, at20],
        [25, at25],
      ] as const) {
        const expected = (9.97 * percent) / anhydrous;
        expect(mostStockGPerL({ formula, solubility, temperatureC }) / expected).toBeCloseTo(1, 2);
      }
    },
  );

  const bicarbonate = { formula: 'NaHCO3', solubility: { at20C: 9.565, at25C: 10.28 } };
  test('bicarbonate tops out a little below 90 g/L at 20 °C', () => {
    const most = mostStockGPerL({ ...bicarbonate, temperatureC: 20 });
    expect(most).toBeGreaterThan(85);
    expect(most).toBeLessThan(90);
  });

  test('lies between inside 20-25 °C, and the smaller counts outside', () => {
    const at = (temperatureC: number) => mostStockGPerL({ ...bicarbonate, temperatureC });
    expect(at(22.5)).toBeGreaterThan(at(20));
    expect(at(22.5)).toBeLessThan(at(25));
    expect(at(10)).toBe(at(20));
    expect(at(30)).toBe(at(20));
    // Lime dissolves less when it is warm.
    const lime = { formula: 'Ca(OH)2', solubility: { at20C: 0.165, at25C: 0.159 } };
    expect(mostStockGPerL({ ...lime, temperatureC: 15 })).toBe(mostStockGPerL({ ...lime, temperatureC: 25 }));
  });

  test('wants real solubilities', () => {
    expect(() => mostStockGPerL({ formula: 'KI', solubility: { at20C: 0, at25C: 1 }, temperatureC: 20 })).toThrow(
      RangeError,
    );
  });
});

describe('stockFor', () => {
  const dose = { formula: 'NaHCO3', massG: 12, solubility: { at20C: 9.565, at25C: 10.28 }, temperatureC: 20 };
  test('a stock that cannot dissolve is refused with the strongest that can', () => {
    const refused = told(stockFor({ ...dose, stockGPerL: 120 }), 'will-not-dissolve');
    expect(refused).toMatchObject({ stockGPerL: 120, temperatureC: 20 });
    expect(stockFor({ ...dose, stockGPerL: refused.mostGPerL }).kind).toBe('stock');
  });
  test('twelve grams from 60 g/L are 200 mL', () => {
    expect(stockFor({ ...dose, stockGPerL: 60 })).toEqual({ kind: 'stock', volumeMl: 200 });
  });
  test.each([
    [{ stockGPerL: 0 }, 'stockGPerL'],
    [{ stockGPerL: 5000 }, 'stockGPerL'],
    [{ stockGPerL: 60, temperatureC: 80 }, 'temperatureC'],
    [{ stockGPerL: 60, massG: -1 }, 'massG'],
  ])('refuses %o', (given, quantity) => {
    expect(stockFor({ ...dose, ...given })).toMatchObject({ kind: 'out-of-range', quantity });
  });
  test('purity weakens what a millilitre brings', () => {
    const [pure, half] = [1, 0.5].map((purity) => bringsPerMl({ formula: 'CaCl2', stockGPerL: 100, purity }));
    expect(half?.calciumMg).toBeCloseTo((pure?.calciumMg ?? 0) / 2, 12);
  });
});
