import { inFigures, shortly } from './figures.ts';
import { baseUnit } from './tables.ts';
import type { Quantity, Species, Unit, UnitContext } from './unit.ts';

/** "80 US gal", "pH 8.2", "95%": in full, so that reading it gives the same amount. */
export function amountWithUnit(amount: number | string, { id }: Unit): string {
  if (id === 'pH') return `pH ${amount}`;
  return id === '%' ? `${amount}%` : `${amount} ${id}`;
}

/** Specific gravities differ in the third decimal; two or three digits would all say 1.03. */
export const digitsOf = ({ id }: Unit): number => (id.startsWith('SG') ? 5 : 3);

/** A range in a unit, or where that unit does not reach it, in the one in which the quantity is kept. */
export function rangeInUnit(least: number, most: number, unit: Unit, base: Unit): string {
  const ends = [least, most].map(unit.fromSi);
  const shownIn = ends.every((end) => !Number.isNaN(end)) ? unit : base;
  const [low = '', high = ''] = [least, most].map((end) => shortly(shownIn.fromSi(end), digitsOf(shownIn)));
  return most === Infinity ? `${amountWithUnit(low, shownIn)} or more` : amountWithUnit(`${low} to ${high}`, shownIn);
}

/** An everyday amount of each quantity, in the unit in which it is kept. Examples only; nothing is computed from them. */
const EVERYDAY: Readonly<Record<Exclude<Quantity, 'concentration'> | Species, number>> = {
  volume: 300,
  mass: 10,
  alkalinity: 8,
  salinity: 35,
  temperature: 25,
  strength: 50,
  conductivity: 53,
  ph: 8.1,
  light: 200,
  flow: 3000,
  length: 60,
  duration: 10,
  percent: 10,
  Ca: 420,
  Mg: 1300,
  K: 400,
  Sr: 8,
  I: 0.06,
  NO3: 5,
  NO2: 0.1,
  'NH3-N': 0.2,
  PO4: 0.05,
  Cu: 0.5,
  Si: 1,
};

/** A text that would be read: an everyday amount, or where the range leaves that out, the middle of the range. */
export function exampleOf(
  { quantity, species }: { quantity: Quantity; species?: Species | undefined },
  unit: Unit,
  [least, most]: readonly [number, number],
  context: UnitContext,
): string {
  const everyday = EVERYDAY[quantity === 'concentration' ? (species ?? 'Ca') : quantity];
  for (const si of [everyday, (least + most) / 2, least]) {
    for (const digits of [2, digitsOf(unit), 8]) {
      const amount = inFigures(unit.fromSi(si), digits);
      const back = unit.toSi(Number(amount));
      if (back >= least && back <= most) return amountWithUnit(Number(amount), unit);
    }
  }
  return amountWithUnit(shortly(least), baseUnit(quantity, context));
}
