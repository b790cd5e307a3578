import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { densityKgPerM3, pureWaterDensityKgPerM3, seawaterDensity } from '../../shared/seawater-density.ts';

// Every row of density.csv and gsw-grid.csv is held in reference-table.test.ts.

const salinity = fc.double({ min: 0, max: 42, noNaN: true });
const temperature = fc.double({ min: -2, max: 40, noNaN: true });

describe('seawaterDensity', () => {
  // TEOS-10, gsw 3.6.16, rho_t_exact at p = 0; EOS-80 is within 0.01 kg/m³ of it.
  test('is 1023.343 kg/m³ at S 35 and 25 °C', () => {
    const found = seawaterDensity({ practicalSalinity: 35, temperatureC: 25 });
    expect(found).toEqual({ kind: 'density', densityKgPerM3: expect.closeTo(1023.3436, 2) });
  });

  test('rises with salinity', () => {
    fc.assert(
      fc.property(salinity, salinity, temperature, (one, other, temperatureC) => {
        fc.pre(Math.abs(one - other) > 1e-6);
        const [low, high] = [Math.min(one, other), Math.max(one, other)];
        const lighter = densityKgPerM3({ practicalSalinity: low, temperatureC });
        expect(densityKgPerM3({ practicalSalinity: high, temperatureC })).toBeGreaterThan(lighter);
      }),
    );
  });

  test('falls with temperature in any water that a reef animal lives in', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 42, noNaN: true }),
        fc.double({ min: 10, max: 39, noNaN: true }),
        (practicalSalinity, temperatureC) => {
          const cooler = densityKgPerM3({ practicalSalinity, temperatureC });
          expect(densityKgPerM3({ practicalSalinity, temperatureC: temperatureC + 0.5 })).toBeLessThan(cooler);
        },
      ),
    );
  });

  test.each([
    { practicalSalinity: 43, temperatureC: 25, quantity: 'practicalSalinity', given: 43, least: 0, most: 42 },
    { practicalSalinity: -1, temperatureC: 25, quantity: 'practicalSalinity', given: -1, least: 0, most: 42 },
    { practicalSalinity: NaN, temperatureC: 25, quantity: 'practicalSalinity', given: NaN, least: 0, most: 42 },
    { practicalSalinity: 35, temperatureC: 41, quantity: 'temperatureC', given: 41, least: -2, most: 40 },
  ])('refuses S $practicalSalinity at $temperatureC °C', ({ practicalSalinity, temperatureC, ...refusal }) => {
    expect(seawaterDensity({ practicalSalinity, temperatureC })).toEqual({ kind: 'out-of-range', ...refusal });
    expect(() => densityKgPerM3({ practicalSalinity, temperatureC })).toThrow(`${refusal.quantity} must be`);
  });
});

describe('pureWaterDensityKgPerM3', () => {
  // Tanaka M. et al. (2001) Metrologia 38, 301-309 (CIPM): densest, 999.975 kg/m³, at 3.98 °C.
  test('is greatest at 4 °C', () => {
    const densest = pureWaterDensityKgPerM3({ temperatureC: 3.98 });
    expect(densest).toBeCloseTo(999.975, 3);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 40, noNaN: true }), (temperatureC) => {
        fc.pre(Math.abs(temperatureC - 3.98) > 0.05);
        expect(pureWaterDensityKgPerM3({ temperatureC })).toBeLessThan(densest);
      }),
    );
  });

  test('throws where EOS-80 ends', () => {
    expect(() => pureWaterDensityKgPerM3({ temperatureC: 40.1 })).toThrow(RangeError);
  });
});
