import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readQuantity, type Wanted } from '../../../shared/quantity-text.ts';
import { sensibleRange } from '../../../shared/units/ranges.ts';
import { baseUnit, findUnit, UNIT_TABLES, unitsOf } from '../../../shared/units/tables.ts';
import { SPECIES, type Quantity, type Unit, type UnitContext } from '../../../shared/units/unit.ts';

type Case = { name: string; quantity: Quantity; unit: Unit; context: UnitContext; wanted: Wanted };

const CASES: readonly Case[] = (Object.keys(UNIT_TABLES) as Quantity[]).flatMap((quantity) =>
  (quantity === 'concentration' ? SPECIES : [undefined]).flatMap((species) => {
    const context: UnitContext = { gallon: 'US gal', ...(species ? { species } : {}) };
    const wanted = (species ? { quantity: 'concentration', species } : { quantity }) as Wanted;
    return unitsOf(quantity, context).map((unit) => ({
      name: `${quantity} ${species ?? ''} in ${unit.id}`,
      quantity,
      unit,
      context,
      wanted,
    }));
  }),
);

/** Values over the whole allowed range. */
const valuesOf = ({ quantity, context }: Case) => {
  const [least, most] = sensibleRange(quantity, context.species);
  return fc.double({ min: least === 0 ? most / 1e6 : least, max: most, noNaN: true });
};

describe('every unit', () => {
  test('is there', () => {
    expect(CASES.length).toBeGreaterThan(150);
  });

  test.each(CASES)('$name goes there and back within 1e-12', (unitCase) => {
    const { unit } = unitCase;
    fc.assert(
      fc.property(valuesOf(unitCase), (si) => {
        expect(Math.abs(unit.toSi(unit.fromSi(si)) / si - 1)).toBeLessThanOrEqual(tolerance(unit, si));
      }),
      { numRuns: 50 },
    );
  });

  test.each(CASES)('$name is found by the name it is printed with', ({ quantity, unit, context }) => {
    const known = findUnit(quantity, unit.id, context);
    expect(known).toMatchObject({ kind: 'unit', unit: { id: unit.id } });
  });

  test.each(CASES)('$name: what was understood reads as the same value', (unitCase) => {
    const { unit, wanted, quantity, context } = unitCase;
    fc.assert(
      fc.property(valuesOf(unitCase), (si) => {
        const first = readQuantity(`${unit.fromSi(si)} ${unit.id}`, { ...wanted, least: -1e9, most: 1e9 });
        if (first.kind !== 'read') throw new Error(JSON.stringify(first));
        const again = readQuantity(first.understood, { ...wanted, least: -1e9, most: 1e9 });
        expect(again).toMatchObject({ kind: 'read', si: first.si, unit: first.unit, understood: first.understood });
        expect(first.understood.includes(' = ')).toBe(unit.id !== baseUnit(quantity, context).id);
      }),
      { numRuns: 50 },
    );
  });
});

/**
 * A specific gravity holds a salinity in its digits after 1.0: a double near 1 is good to 1.1e-16, which is 1.5e-13 of
 * salinity, and that is more than 1e-12 of a salinity below 1 only. The °F scale starts 32 above zero.
 */
function tolerance({ id }: Unit, si: number): number {
  if (id.startsWith('SG')) return 1e-12 + 5e-13 / si;
  return id === '°F' ? 1e-12 + 1e-14 / Math.abs(si) : 1e-12;
}
