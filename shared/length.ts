/** Units of length that keepers use. */
export type LengthUnit = 'mm' | 'cm' | 'in' | 'ft';

/**
 * Millimetres in one unit. The inch is 25.4 mm exactly and the foot twelve inches.
 *
 * Source: NIST Special Publication 811 (2008), appendix B (from memory). Error: none, the factors are exact.
 */
export const MM_PER: Readonly<Record<LengthUnit, number>> = { mm: 1, cm: 10, in: 25.4, ft: 304.8 };

/**
 * A length in millimetres.
 *
 * Units: `amount` in `unit`, result in mm, at full precision.
 *
 * @throws RangeError when the amount is not a positive, finite number.
 */
export function lengthMm({ amount, unit }: { amount: number; unit: LengthUnit }): number {
  if (!(amount > 0) || !Number.isFinite(amount)) throw new RangeError(`amount must be positive, got ${amount}`);
  return amount * MM_PER[unit];
}
