import { found, plainTable, scaled, type FoundUnit, type Unit, type UnitContext, type UnitTable } from './unit.ts';
import { findSpoon } from './volume.ts';

/** Grams in one pound avoirdupois, exactly. Source: NIST Special Publication 811. */
export const G_PER_LB = 453.59237;

const TABLE = plainTable(
  [
    [scaled('g', 1), 'g gr gram grams gramme grammes gm gms'],
    [scaled('mg', 0.001), 'mg milligram milligrams'],
    [scaled('kg', 1000), 'kg kgs kilo kilos kilogram kilograms'],
    [scaled('oz', G_PER_LB / 16), 'oz ozs ounce ounces'],
    [scaled('lb', G_PER_LB), 'lb lbs pound pounds'],
  ],
  'mass weight',
);

/** "tsp at 1.1 g/mL": a spoon with the density of the powder. */
const WITH_DENSITY = /^(.{1,30}?)(?:at|@)(\d{1,3}(?:[.,]\d{1,6})?)g\/(?:ml|cm3|cc)$/;

/** A spoon of a powder: its volume times the loose density, which has to be known. */
function spoonOf(folded: string, context: UnitContext): FoundUnit | null {
  const [, name = folded, typed] = WITH_DENSITY.exec(folded) ?? [];
  const spoon = findSpoon(name, context);
  if (spoon?.kind !== 'unit') return null;
  const densityGPerMl = typed === undefined ? context.spoonDensityGPerMl : Number(typed.replace(',', '.'));
  // Loose salts and powders weigh between 0.1 and 3 grams a millilitre; anything else is a slip.
  if (densityGPerMl === undefined || !(densityGPerMl >= 0.1 && densityGPerMl <= 3)) return { kind: 'no-density' };
  return found(spoonUnit(spoon.unit, densityGPerMl), ...spoon.notes);
}

function spoonUnit(spoon: Unit, densityGPerMl: number): Unit {
  return scaled(`level ${spoon.id} at ${densityGPerMl} g/mL`, spoon.toSi(1) * 1000 * densityGPerMl);
}

/** Mass in grams. Spoons only with a density. */
export const MASS: UnitTable = {
  ...TABLE,
  find: (folded, context) => TABLE.find(folded, context) ?? spoonOf(folded, context),
};
