import { ALKALINITY } from './alkalinity.ts';
import { CONCENTRATION } from './concentration.ts';
import { MASS } from './mass.ts';
import { CONDUCTIVITY, DURATION, FLOW, LENGTH, LIGHT, PERCENT, PH, STRENGTH, TEMPERATURE } from './plain-quantities.ts';
import { SALINITY } from './salinity.ts';
import { foldUnit, type FoundUnit, type Quantity, type Unit, type UnitContext, type UnitTable } from './unit.ts';
import { VOLUME } from './volume.ts';

export const UNIT_TABLES: Readonly<Record<Quantity, UnitTable>> = {
  volume: VOLUME,
  mass: MASS,
  alkalinity: ALKALINITY,
  salinity: SALINITY,
  temperature: TEMPERATURE,
  concentration: CONCENTRATION,
  strength: STRENGTH,
  conductivity: CONDUCTIVITY,
  ph: PH,
  light: LIGHT,
  flow: FLOW,
  length: LENGTH,
  duration: DURATION,
  percent: PERCENT,
};

/** What a unit is, by how it was written. */
export function findUnit(quantity: Quantity, text: string, context: UnitContext): FoundUnit | null {
  return UNIT_TABLES[quantity].find(foldUnit(text), context);
}

/** A unit by the id that it is printed with. @throws RangeError when there is none. */
export function unitNamed(quantity: Quantity, id: string, context: UnitContext): Unit {
  const base = baseUnit(quantity, context);
  if (id === base.id || id === UNIT_TABLES[quantity].base.id) return base;
  const known = findUnit(quantity, id, context);
  if (known?.kind !== 'unit') throw new RangeError(`no unit of ${quantity} is called ${id}`);
  return known.unit;
}

/** The unit in which a quantity is kept; of a concentration it names the species. */
export function baseUnit(quantity: Quantity, context: UnitContext): Unit {
  const { base, all } = UNIT_TABLES[quantity];
  return quantity === 'concentration' ? (all(context)[0] ?? base) : base;
}

/** Every unit of a quantity. */
export const unitsOf = (quantity: Quantity, context: UnitContext): readonly Unit[] =>
  UNIT_TABLES[quantity].all(context);
