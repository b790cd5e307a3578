import { convert, type Unit as TheirUnit } from 'convert';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { unitNamed } from '../../../shared/units/tables.ts';
import type { Quantity } from '../../../shared/units/unit.ts';

// The other opinion: the general-purpose package `convert` 8.0.2, whose factors nobody here wrote.

const PAIRS: readonly (readonly [Quantity, ours: string, theirs: TheirUnit, base: TheirUnit])[] = [
  ['volume', 'L', 'liter', 'liter'],
  ['volume', 'mL', 'milliliter', 'liter'],
  ['volume', 'US gal', 'gallon', 'liter'],
  ['volume', 'imp gal', 'imperial gallon', 'liter'],
  ['volume', 'imp qt', 'imperial quart', 'liter'],
  ['volume', 'US fl oz', 'US fluid ounce', 'liter'],
  ['volume', 'US cup', 'cup', 'liter'],
  ['volume', 'US tsp', 'teaspoon', 'liter'],
  ['volume', 'in³', 'cubic inch', 'liter'],
  ['volume', 'ft³', 'cubic foot', 'liter'],
  ['volume', 'm³', 'cubic meter', 'liter'],
  ['mass', 'mg', 'milligram', 'gram'],
  ['mass', 'kg', 'kilogram', 'gram'],
  ['mass', 'oz', 'ounce', 'gram'],
  ['mass', 'lb', 'pound', 'gram'],
  ['length', 'mm', 'millimeter', 'centimeter'],
  ['length', 'm', 'meter', 'centimeter'],
  ['length', 'in', 'inch', 'centimeter'],
  ['length', 'ft', 'foot', 'centimeter'],
  ['duration', 'min', 'minute', 'hour'],
  ['duration', 'days', 'day', 'hour'],
  ['duration', 'weeks', 'week', 'hour'],
  ['temperature', '°F', 'fahrenheit', 'celsius'],
];

/**
 * Theirs goes from °F over kelvins and back, and so loses digits: 77 °F comes out as 25.000000000000057 °C. Everything else
 * differs in the last place at most (their imperial gallon is 4.5460899999999995 L).
 */
const KELVIN_ROUNDING_C = 2e-13;

describe('every unit that the package `convert` knows too', () => {
  test.each(PAIRS)('%s in %s', (quantity, ours, theirs, base) => {
    const unit = unitNamed(quantity, ours, { gallon: 'US gal' });
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e5, noNaN: true }), (amount) => {
        const other = Number(convert(amount, theirs).to(base as never));
        const slack = quantity === 'temperature' ? KELVIN_ROUNDING_C + 1e-14 * Math.abs(other) : 0;
        expect(Math.abs(unit.toSi(amount) - other)).toBeLessThanOrEqual(slack + 1e-15 * 8 * Math.abs(other));
      }),
    );
  });

  test('their detour over kelvins is why temperatures have a tolerance, and ours has none', () => {
    expect(convert(77, 'fahrenheit').to('celsius')).not.toBe(25);
    expect(unitNamed('temperature', '°F', { gallon: 'US gal' }).toSi(77)).toBe(25);
  });
});
