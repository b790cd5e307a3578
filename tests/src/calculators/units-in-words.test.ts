import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readQuantity } from '../../../shared/quantity-text.ts';
import { outOfRangeLine } from '../../../src/calculators/out-of-range.view.ts';
import { inUnits, usualUnit, type Sayable } from '../../../src/calculators/units-in-words.ts';
import { DEFAULT_UNITS, type TankUnits } from '../../../src/tanks/tank.ts';

const AMERICAN: TankUnits = { volume: 'US gal', temperature: '°F', alkalinity: 'ppm CaCO3', salinity: 'SG' };
const BRITISH: TankUnits = { volume: 'imp gal', temperature: '°C', alkalinity: 'meq/L', salinity: 'mS/cm' };

describe('amounts in the units of a member', () => {
  test.each([
    [9.04, 'mass', '9.0 g', '9.0 g', '9.0 g'],
    [57.3, 'mass', '57 g', '57 g', '57 g'],
    [0.05, 'mass', '50 mg', '50 mg', '50 mg'],
    [19.97, 'mass', '20 g', '20 g', '20 g'],
    [1234, 'mass', '1.23 kg', '1.23 kg', '1.23 kg'],
    [0, 'mass', '0 g', '0 g', '0 g'],
    [0.05700000001, 'dose-volume', '57 mL', '57 mL', '57 mL'],
    [302.83294272, 'volume', '303 L', '80 US gal', '66.6 imp gal'],
    [0.057, 'volume', '57 mL', '57 mL', '57 mL'],
    // 8 × 17.848 and 8 × 0.35665: tests/reference/conversions.csv.
    [8, 'alkalinity', '8.0 dKH', '143 ppm CaCO3', '2.85 meq/L'],
    [0.05, 'alkalinity', '0.050 dKH', '0.89 ppm CaCO3', '0.018 meq/L'],
    // S 35 is 1.02637 at 25/25, and 53.071 mS/cm at 25 °C: README of the reference files.
    [35, 'salinity', '35.0 ppt', '1.0264 SG 25/25', '53.1 mS/cm'],
    [1, 'salinity', '1.0 ppt', '1.0008 SG 25/25', '1.0 ppt'],
    [25, 'temperature', '25.0 °C', '77.0 °F', '25.0 °C'],
    [-0.01, 'temperature', '0.0 °C', '32.0 °F', '0.0 °C'],
    [1, 'temperature-change', '1.0 °C', '1.8 °F', '1.0 °C'],
    [-1, 'temperature-change', '-1.0 °C', '-1.8 °F', '-1.0 °C'],
    [3000, 'flow', '3000 L/h', '793 US gph', '660 imp gph'],
    [60, 'length', '60 cm', '23.6 in', '60 cm'],
    [0.0919836, 'concentration', '0.092 mg/L', '0.092 mg/L', '0.092 mg/L'],
    [1284, 'concentration', '1280 mg/L', '1280 mg/L', '1280 mg/L'],
    [8.123, 'ph', 'pH 8.12', 'pH 8.12', 'pH 8.12'],
    [349.6, 'light', '350 µmol/m²/s', '350 µmol/m²/s', '350 µmol/m²/s'],
    [72, 'duration', '3 days', '3 days', '3 days'],
    [8, 'percent', '8%', '8%', '8%'],
  ] satisfies [number, Sayable, string, string, string][])('%d %s', (value, kind, metric, american, british) => {
    expect([DEFAULT_UNITS, AMERICAN, BRITISH].map((units) => inUnits(value, kind, units))).toEqual([
      metric,
      american,
      british,
    ]);
  });

  test.each(['volume', 'alkalinity', 'temperature', 'flow', 'length', 'mass', 'salinity', 'light'] as const)(
    '%s, said and read again, is off by the rounding alone',
    (quantity) => {
      const slack = { temperature: 0.051, salinity: 0.07 }[quantity as string] ?? 0;
      fc.assert(
        fc.property(
          fc.double({ min: 3, max: 39, noNaN: true }),
          fc.constantFrom(DEFAULT_UNITS, AMERICAN, BRITISH),
          (value, units) => {
            const said = inUnits(value, quantity, units);
            const outcome = readQuantity(said, { quantity, least: -100, most: 1e6 });
            if (outcome.kind !== 'read') throw new Error(said);
            // Two digits at least: half of the last one is at most 5 % of the first; from 20 on whole grams.
            expect(Math.abs(outcome.si - value)).toBeLessThanOrEqual(slack > 0 ? slack : 0.026 * value);
          },
        ),
      );
    },
  );

  test('never shows what nobody can measure', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-3, max: 2e4, noNaN: true }),
        fc.constantFrom<Sayable>('volume', 'mass', 'dose-volume', 'alkalinity', 'flow', 'concentration', 'light'),
        fc.constantFrom(DEFAULT_UNITS, AMERICAN, BRITISH),
        (value, kind, units) => {
          const digits = /^[\d.]+/.exec(inUnits(value, kind, units))?.[0] ?? '';
          const significant = digits.replace('.', '').replace(/^0+/, '');
          expect(significant.replace(/0+$/, '').length).toBeLessThanOrEqual(kind === 'alkalinity' ? 6 : 3);
          expect(digits).not.toMatch(/e|NaN/);
        },
      ),
    );
  });

  test.each([NaN, Infinity])('refuses %s', (value) => {
    expect(() => inUnits(value, 'mass', DEFAULT_UNITS)).toThrow(RangeError);
  });

  test('name the unit of a bare number, which can be read', () => {
    for (const units of [DEFAULT_UNITS, AMERICAN, BRITISH]) {
      for (const quantity of ['volume', 'alkalinity', 'temperature', 'salinity', 'flow', 'length'] as const) {
        const unit = usualUnit(quantity, units);
        expect(readQuantity('?', { quantity, ...(unit === null ? {} : { unit }) })).toMatchObject({
          kind: 'unreadable',
        });
        expect(unit).not.toBeNull();
      }
    }
  });
});

describe('a value that a calculator does not reach', () => {
  test.each([
    [
      { quantity: 'volumeL', given: -3, least: 1, most: 20_000 },
      DEFAULT_UNITS,
      'volume**: I got -3 L. I can answer for 1 L to 20000 L',
    ],
    [
      { quantity: 'riseDkh', given: 90, least: 0, most: 40 },
      DEFAULT_UNITS,
      'rise**: I got 90.0 dKH. I can answer for 0.0 dKH to 40.0 dKH',
    ],
    [
      { quantity: 'practicalSalinity', given: 50, least: 2, most: 42 },
      AMERICAN,
      'practical salinity**: I got 50.0 ppt',
    ],
    [
      { quantity: 'temperatureC', given: 50, least: 0, most: 40 },
      AMERICAN,
      'temperature**: I got 122.0 °F. I can answer for 32.0 °F to 104.0 °F',
    ],
    [{ quantity: 'useDkhPerDay', given: 9, least: 0, most: 5 }, DEFAULT_UNITS, 'use a day**: I got 9.0 dKH'],
    [{ quantity: 'targetMgPerL', given: NaN, least: 0, most: 5 }, DEFAULT_UNITS, 'target**: I got no number'],
    [{ quantity: 'purity', given: 2, least: 0, most: 1 }, DEFAULT_UNITS, 'purity**: I got 2. I can answer for 0 to 1'],
  ])('$quantity', (refused, units, expected) => {
    const line = outOfRangeLine({ kind: 'out-of-range', ...refused }, units);
    expect(line.markdown.replaceAll('\\', '')).toContain(expected);
  });
});
