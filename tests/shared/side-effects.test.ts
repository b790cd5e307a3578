import { describe, expect, test } from 'vitest';
import { sideEffects } from '../../shared/side-effects.ts';
import { told } from '../reference/worked-cases.ts';

describe('sideEffects', () => {
  test('crystal water is no salt', () => {
    const [crystals, dry] = [
      { formula: 'MgSO4.7H2O', massG: 246.466 },
      { formula: 'MgSO4', massG: 120.361 },
    ].map((given) => told(sideEffects({ ...given, volumeL: 100 }), 'effects'));
    expect(crystals?.salinityRiseGPerKg).toBeCloseTo(dry?.salinityRiseGPerKg ?? Number.NaN, 6);
    // 1.20361 g/L in water of 1.02334 kg/L (EOS-80, S = 35, 25 °C): 1.17616 g/kg; one psu is 35.16504/35 g/kg.
    expect(dry?.salinityRiseGPerKg).toBeCloseTo(1.17616, 4);
    expect(dry?.salinityRisePsu).toBeCloseTo((1.17616 * 35) / 35.16504, 4);
  });

  // 1 mmol/L of Ca(OH)2: 2 meq/L = 2 × 2.80385 dKH (conversions of reference units) and 40.078 mg/L.
  test('lime moves alkalinity and calcium together', () => {
    const effects = told(sideEffects({ formula: 'Ca(OH)2', massG: 7.4092, volumeL: 100 }), 'effects');
    expect(effects.alkalinityDkh).toBeCloseTo(2 * 2.80385, 4);
    expect(effects.ionsMgPerL).toEqual({ Ca: expect.closeTo(40.078, 3) as number });
    expect(effects.ph).toBe('raises strongly');
  });

  test('half as pure brings half as much', () => {
    const dose = { formula: 'KNO3', massG: 10, volumeL: 100 };
    const [pure, half] = [1, 0.5].map((purity) => told(sideEffects({ ...dose, purity }), 'effects'));
    for (const ion of ['K', 'NO3'] as const)
      expect(half?.ionsMgPerL[ion]).toBeCloseTo((pure?.ionsMgPerL[ion] ?? Number.NaN) / 2, 9);
    expect(half?.alkalinityDkh).toBe(0);
  });

  test('refuses what is no tank, and throws on what no dose can be', () => {
    const dose = { formula: 'KNO3', massG: 10 };
    expect(sideEffects({ ...dose, volumeL: 0 })).toMatchObject({ kind: 'out-of-range', quantity: 'volumeL' });
    expect(() => sideEffects({ ...dose, massG: -1, volumeL: 10 })).toThrow(RangeError);
    expect(() => sideEffects({ ...dose, formula: 'H2O', volumeL: 10 })).toThrow(RangeError);
  });
});
