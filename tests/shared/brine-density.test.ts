import { expect, test } from 'vitest';
import { brineDensityKgPerL } from '../../shared/brine-density.ts';

// UNESCO Technical Papers in Marine Science 44 (1983), one-atmosphere equation of state, IPTS-68 (25 °C there is 24.994).
test.each([
  [0, 25 / 1.00024, 0.997_047_96],
  [35, 25 / 1.00024, 1.023_343_06],
])('at salinity %d it is the equation of state', (salinity, temperatureC, kgPerL) => {
  expect(brineDensityKgPerL(salinity, temperatureC)).toBeCloseTo(kgPerL, 7);
});

test('above the fitted range it stays close to a straight line, and rises', () => {
  const at = (salinity: number) => brineDensityKgPerL(salinity, 25);
  const line = at(42) + ((at(42) - at(40)) / 2) * 8;
  expect(Math.abs(at(50) - line)).toBeLessThan(0.000_03);
  expect(at(50)).toBeGreaterThan(at(45));
});
