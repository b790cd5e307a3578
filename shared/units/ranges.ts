import type { Quantity, Species } from './unit.ts';

/** What can be meant at all, in the unit in which a quantity is kept; a calculator asks for less. */
const SENSIBLE: Readonly<Record<Exclude<Quantity, 'concentration'>, readonly [least: number, most: number]>> = {
  volume: [0.0001, 1_000_000],
  mass: [0.001, 100_000],
  alkalinity: [0, 40],
  // Where both PSS-78 and EOS-80 hold.
  salinity: [2, 42],
  temperature: [0, 40],
  strength: [0.01, 1000],
  conductivity: [1, 100],
  ph: [0, 14],
  light: [0, 3000],
  flow: [0.1, 100_000],
  length: [0.1, 3000],
  duration: [0, 10_000],
  percent: [0, 100],
};

const SENSIBLE_MG_PER_L: Readonly<Record<Species, number>> = {
  Ca: 2000,
  Mg: 5000,
  K: 2000,
  Sr: 100,
  I: 5,
  NO3: 1000,
  NO2: 100,
  'NH3-N': 100,
  PO4: 50,
  Cu: 10,
  Si: 100,
};

/** The widest range that is taken for a quantity when a calculator names none. */
export function sensibleRange(quantity: Quantity, species?: Species): readonly [least: number, most: number] {
  if (quantity !== 'concentration') return SENSIBLE[quantity];
  return [0, species === undefined ? Infinity : SENSIBLE_MG_PER_L[species]];
}
