/** A number in so many significant digits as people write it: 303, 9.0, 0.092. Zeros at the end of a decimal stay. */
export function inFigures(value: number, digits = 3): string {
  if (!Number.isFinite(value)) return String(value);
  if (value === 0) return '0';
  // After rounding: 99.6 in two digits is 100, not 1.0e2.
  const rounded = Number(value.toPrecision(digits));
  const magnitude = Math.floor(Math.log10(Math.abs(rounded)));
  return rounded.toFixed(Math.min(Math.max(digits - 1 - magnitude, 0), 12));
}

/** The same without zeros at the end: 25, 0.5. */
export const shortly = (value: number, digits = 3): string => String(Number(inFigures(value, digits)));
