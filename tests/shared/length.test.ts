import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lengthMm } from '../../shared/length.ts';

describe('lengthMm', () => {
  // NIST Special Publication 811 (2008), appendix B: inch 2.54 cm, foot 0.3048 m, both exact (from memory).
  test.each([
    { amount: 1, unit: 'mm', mm: 1 },
    { amount: 2, unit: 'cm', mm: 20 },
    { amount: 1, unit: 'in', mm: 25.4 },
    { amount: 1, unit: 'ft', mm: 304.8 },
  ] as const)('$amount $unit is $mm mm', ({ mm, ...length }) => {
    expect(lengthMm(length)).toBe(mm);
  });

  test('twelve inches are one foot, at any length', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (amount) => {
        expect(lengthMm({ amount: 12 * amount, unit: 'in' })).toBeCloseTo(lengthMm({ amount, unit: 'ft' }), 6);
      }),
    );
  });

  test.each([0, -1, NaN, Infinity])('refuses %s', (amount) => {
    expect(() => lengthMm({ amount, unit: 'cm' })).toThrow(RangeError);
  });
});
