import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  DEFAULT_SPECIFIC_GRAVITY_SCALE,
  salinityFromSpecificGravity,
  SPECIFIC_GRAVITY_SCALES,
  specificGravityFromSalinity,
} from '../../shared/specific-gravity.ts';

// Every row of specific-gravity.csv is held in reference-table.test.ts.

const scales = fc.record({
  sampleC: fc.double({ min: -2, max: 40, noNaN: true }),
  referenceC: fc.double({ min: 0, max: 40, noNaN: true }),
});

/** A 60F/60F hydrometer read in a warm tank. */
const WARM = { ...SPECIFIC_GRAVITY_SCALES['60F/60F'], sampleC: 25 };

test('instruments are marked at 25 °C, at 20 °C or at 60 °F', () => {
  // 60 °F is 15.5556 °C.
  expect(SPECIFIC_GRAVITY_SCALES).toEqual({
    '25/25': { sampleC: 25, referenceC: 25 },
    '20/20': { sampleC: 20, referenceC: 20 },
    '60F/60F': { sampleC: expect.closeTo(15.5556, 4), referenceC: expect.closeTo(15.5556, 4) },
  });
});

describe('S 35', () => {
  // TEOS-10, gsw 3.6.16: rho_t_exact(SR_from_SP(35), sample, 0) / rho_t_exact(0, reference, 0); EOS-80 is within 1e-5.
  test.each([
    { called: '25/25', scale: SPECIFIC_GRAVITY_SCALES['25/25'], specificGravity: 1.026374 },
    { called: '20/20', scale: SPECIFIC_GRAVITY_SCALES['20/20'], specificGravity: 1.026607 },
    { called: '60F/60F', scale: SPECIFIC_GRAVITY_SCALES['60F/60F'], specificGravity: 1.026862 },
    { called: '60F/60F, read in water of 25 °C', scale: WARM, specificGravity: 1.02435 },
  ])('is $specificGravity at $called', ({ scale, specificGravity }) => {
    const found = specificGravityFromSalinity({ practicalSalinity: 35, ...scale });
    if (found.kind !== 'specific-gravity') throw new Error('refused');
    expect(Math.abs(found.specificGravity - specificGravity)).toBeLessThan(1e-5);
  });

  test('is meant by 1.0264 when nobody names a scale', () => {
    const scale = SPECIFIC_GRAVITY_SCALES[DEFAULT_SPECIFIC_GRAVITY_SCALE];
    const found = salinityFromSpecificGravity({ specificGravity: 1.0264, ...scale });
    expect(found).toEqual({ kind: 'salinity', practicalSalinity: expect.closeTo(35, 1) });
  });

  test('read off a warm 60F/60F hydrometer as if it were cold is 3.3 too low', () => {
    // Both numbers are of TEOS-10, as above: 1.02435 in warm water; (1.02686 - 1.02435) / 0.00076 per S = 3.3.
    const found = salinityFromSpecificGravity({ specificGravity: 1.02435, ...SPECIFIC_GRAVITY_SCALES['60F/60F'] });
    expect(found).toEqual({ kind: 'salinity', practicalSalinity: expect.closeTo(31.7, 1) });
  });
});

describe('salinityFromSpecificGravity', () => {
  test('leads back to the salinity it came from, to 1e-6, on any scale', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 42, noNaN: true }), scales, (practicalSalinity, scale) => {
        const there = specificGravityFromSalinity({ practicalSalinity, ...scale });
        if (there.kind !== 'specific-gravity') throw new Error(`refused: ${JSON.stringify(there)}`);
        const back = salinityFromSpecificGravity({ specificGravity: there.specificGravity, ...scale });
        if (back.kind !== 'salinity') throw new Error(`refused: ${JSON.stringify(back)}`);
        expect(Math.abs(back.practicalSalinity - practicalSalinity)).toBeLessThan(1e-6);
      }),
      { numRuns: 1000 },
    );
  });

  test('gives 0 for pure water, not less', () => {
    const found = salinityFromSpecificGravity({ specificGravity: 1, sampleC: 25, referenceC: 25 });
    expect(found).toEqual({ kind: 'salinity', practicalSalinity: 0 });
  });

  test.each([35, 0.99, 1.2, NaN])('refuses %s, and says what would do on this scale', (specificGravity) => {
    // TEOS-10, gsw 3.6.16, S 42 at 25/25: 1.031685.
    expect(salinityFromSpecificGravity({ specificGravity, sampleC: 25, referenceC: 25 })).toEqual({
      kind: 'out-of-range',
      quantity: 'specificGravity',
      given: specificGravity,
      least: 1,
      most: expect.closeTo(1.031685, 5),
    });
  });

  test.each([
    { sampleC: 41, referenceC: 25, quantity: 'sampleC', given: 41, least: -2, most: 40 },
    { sampleC: 25, referenceC: -1, quantity: 'referenceC', given: -1, least: 0, most: 40 },
    { sampleC: 25, referenceC: NaN, quantity: 'referenceC', given: NaN, least: 0, most: 40 },
  ])('refuses a sample at $sampleC and a reference at $referenceC °C', ({ sampleC, referenceC, ...refusal }) => {
    const outOfRange = { kind: 'out-of-range', ...refusal };
    expect(salinityFromSpecificGravity({ specificGravity: 1.026, sampleC, referenceC })).toEqual(outOfRange);
    expect(specificGravityFromSalinity({ practicalSalinity: 35, sampleC, referenceC })).toEqual(outOfRange);
  });
});

test.each([-0.1, 42.1, NaN])('specificGravityFromSalinity refuses S %s', (practicalSalinity) => {
  const refusal = { kind: 'out-of-range', quantity: 'practicalSalinity', given: practicalSalinity, least: 0, most: 42 };
  expect(specificGravityFromSalinity({ practicalSalinity, sampleC: 25, referenceC: 25 })).toEqual(refusal);
});
