import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { AMMONIA_UNITS, unionisedAmmonia, unionisedShare, type AmmoniaWater } from '../../shared/ammonia.ts';
import { numberIn, readReference, type Row } from '../reference/read-csv.ts';

// The rows of ammonia.csv by US EPA (1989), Clegg & Whitfield (1995) and Bower & Bidwell (1978) are held in
// reference-table.test.ts.

function shareIn(water: AmmoniaWater): number {
  const found = unionisedShare(water);
  if (found.kind !== 'share') throw new Error(`refused: ${JSON.stringify(found)}`);
  return found.share;
}

const waterOf = (row: Row) => ({
  ph: numberIn(row, 'pH'),
  temperatureC: numberIn(row, 't_degC'),
  practicalSalinity: numberIn(row, 'practical_salinity'),
});
const rowsBy = (formula: string) => readReference('ammonia').filter((row) => row['formula_or_table'] === formula);

const SCALES = [
  { phScale: 'nbs', most: { practicalSalinity: 40.9, temperatureC: 35 }, least: { temperatureC: 0 } },
  { phScale: 'total', most: { practicalSalinity: 40, temperatureC: 40 }, least: { temperatureC: -2 } },
] as const;

describe.each(SCALES)('unionisedShare on the $phScale scale', ({ phScale, most, least }) => {
  const water = fc.record({
    phScale: fc.constant(phScale),
    ph: fc.double({ min: 5, max: 9.9, noNaN: true }),
    temperatureC: fc.double({ min: least.temperatureC, max: most.temperatureC - 0.1, noNaN: true }),
    practicalSalinity: fc.double({ min: 0, max: most.practicalSalinity, noNaN: true }),
  });

  test('lies between 0 and 1, and rises with pH and with temperature', () => {
    fc.assert(
      fc.property(water, (at) => {
        const share = shareIn(at);
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThan(1);
        expect(shareIn({ ...at, ph: at.ph + 0.1 })).toBeGreaterThan(share);
        expect(shareIn({ ...at, temperatureC: at.temperatureC + 0.1 })).toBeGreaterThan(share);
      }),
      { numRuns: 1000 },
    );
  });

  test('is one half where the pH equals the pKa', () => {
    fc.assert(
      fc.property(water, (at) => {
        const found = unionisedShare(at);
        if (found.kind !== 'share') throw new Error('refused');
        fc.pre(found.pKa <= 10);
        expect(shareIn({ ...at, ph: found.pKa })).toBeCloseTo(0.5, 12);
      }),
    );
  });

  test.each([
    { quantity: 'practicalSalinity', given: most.practicalSalinity + 0.1, least: 0, most: most.practicalSalinity },
    { quantity: 'practicalSalinity', given: NaN, least: 0, most: most.practicalSalinity },
    { quantity: 'temperatureC', given: 82, least: least.temperatureC, most: most.temperatureC },
    { quantity: 'temperatureC', given: -3, least: least.temperatureC, most: most.temperatureC },
    { quantity: 'ph', given: 4.9, least: 5, most: 10 },
    { quantity: 'ph', given: 82, least: 5, most: 10 },
  ])('refuses a $quantity of $given', (refusal) => {
    const at = { ph: 8.2, temperatureC: 25, practicalSalinity: 35, phScale, [refusal.quantity]: refusal.given };
    expect(unionisedShare(at)).toEqual({ kind: 'out-of-range', ...refusal });
  });
});

describe('the default for pH', () => {
  test('is that of an ordinary meter', () => {
    const water = { ph: 8.2, temperatureC: 25, practicalSalinity: 35 };
    expect(unionisedShare(water)).toEqual(unionisedShare({ ...water, phScale: 'nbs' }));
  });

  // Bell T.G. et al. (2008) Environ. Chem. 5, 258: the default errs to the safe side, by less than a tenth at 20 to 26 °C.
  test.each(rowsBy('BELL2008').filter((row) => numberIn(row, 't_degC') >= 20))(
    'reads up to a tenth above Bell et al. (2008): $id',
    (row) => {
      const ratio = shareIn(waterOf(row)) / numberIn(row, 'fraction_unionised');
      expect(ratio).toBeGreaterThan(1);
      expect(ratio).toBeLessThan(1.1);
    },
  );

  // Emerson K. et al. (1975) J. Fish. Res. Board Can. 32, 2379-2383: fresh water, as low as any salinity goes. In pKa they are
  // within 0.023 of each other, which is 5.5 % of the share; the table is printed with four decimals.
  test.each(rowsBy('EMERSON1975').filter((row) => row['tolerance_abs'] !== ''))(
    'agrees with Emerson et al. (1975) in fresh water: $id, $t_degC °C',
    (row) => {
      const printed = numberIn(row, 'fraction_unionised');
      expect(Math.abs(shareIn(waterOf(row)) - printed)).toBeLessThan(0.055 * printed + 0.00005);
    },
  );

  // The row whose printed value is not that of its own formula; the formula gives 0.00911.
  test.each(rowsBy('EMERSON1975').filter((row) => row['tolerance_abs'] === ''))(
    'is held against the formula where the table has a slip: $id',
    (row) => {
      const byFormula = 1 / (1 + 10 ** (numberIn(row, 'pKa') - numberIn(row, 'pH')));
      expect(byFormula).toBeCloseTo(0.00911, 5);
      expect(Math.abs(shareIn(waterOf(row)) / byFormula - 1)).toBeLessThan(0.055);
    },
  );
});

describe('unionisedAmmonia', () => {
  const water = { ph: 8.2, temperatureC: 26, practicalSalinity: 35 };

  // By hand, US EPA (1989): I = 19.9273 × 35 / (1000 - 1.005109 × 35) = 0.72289; pKa = 9.245 + 0.116 × 0.72289
  // + 0.0324 × (298 - 299.15) + 0.0415 / 299.15 = 9.29173; 1 / (1 + 10^1.09173) = 0.07490. Half of it is 0.03745 mg/L N,
  // times 17.031 / 14.007 is 0.04553 mg/L NH3.
  test('finds 0.0455 mg/L NH3 in 0.5 mg/L of ammonia nitrogen at pH 8.2, 26 °C, S 35', () => {
    expect(unionisedAmmonia({ ...water, totalMgPerL: 0.5, unit: 'NH3-N' })).toEqual({
      kind: 'ammonia',
      share: expect.closeTo(0.0749, 5),
      pKa: expect.closeTo(9.29173, 5),
      totalNMgPerL: 0.5,
      nh3NMgPerL: expect.closeTo(0.03745, 5),
      nh3MgPerL: expect.closeTo(0.04553, 5),
    });
  });

  // NH3 17.031 and NH4 18.039 hold N 14.007 (IUPAC 2021): 0.5 mg of nitrogen is 0.60794 mg NH3 or 0.64393 mg NH4.
  test.each([
    { unit: 'NH3', totalMgPerL: 0.60794 },
    { unit: 'NH4', totalMgPerL: 0.64393 },
  ] as const)('finds as much in $totalMgPerL mg/L of $unit', ({ unit, totalMgPerL }) => {
    const found = unionisedAmmonia({ ...water, totalMgPerL, unit });
    expect(found).toMatchObject({ totalNMgPerL: expect.closeTo(0.5, 5), nh3MgPerL: expect.closeTo(0.04553, 5) });
  });

  test('grows in proportion to the total, in every unit of a kit', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...AMMONIA_UNITS),
        fc.double({ min: 0, max: 50, noNaN: true }),
        (unit, totalMgPerL) => {
          const once = unionisedAmmonia({ ...water, totalMgPerL, unit });
          const twice = unionisedAmmonia({ ...water, totalMgPerL: 2 * totalMgPerL, unit });
          if (once.kind !== 'ammonia' || twice.kind !== 'ammonia') throw new Error('refused');
          expect(twice.nh3MgPerL).toBeCloseTo(2 * once.nh3MgPerL, 10);
          expect(once.nh3NMgPerL).toBeLessThanOrEqual(once.totalNMgPerL);
        },
      ),
    );
  });

  test.each([-0.1, 101, NaN])('refuses a total of %s mg/L', (totalMgPerL) => {
    const refusal = { kind: 'out-of-range', quantity: 'totalMgPerL', given: totalMgPerL, least: 0, most: 100 };
    expect(unionisedAmmonia({ ...water, totalMgPerL, unit: 'NH3-N' })).toEqual(refusal);
  });

  test('refuses water that the share refuses', () => {
    const found = unionisedAmmonia({ ...water, temperatureC: 78, totalMgPerL: 1, unit: 'NH4' });
    expect(found).toEqual({ kind: 'out-of-range', quantity: 'temperatureC', given: 78, least: 0, most: 35 });
  });
});
