import type { Ion } from './reagent.ts';
import { VOLUME_L } from './water-ranges.ts';

/** What can be answered for: any tank, and reagents of which at least a tenth is what the label says. */
export const DOSE_RANGES = { volumeL: VOLUME_L, purity: [0.1, 1] } as const;

/** Largest rise of alkalinity that is no slip of the finger; about three times that of sea water. */
export const MOST_RISE_DKH = 20;

/** Largest rise of an ion that is no slip of the finger: the amount in sea water or more, and for traces far more. mg/L. */
export const MOST_RISE_MG_PER_L: Readonly<Record<Ion, number>> = {
  Na: 12_000,
  K: 500,
  Ca: 1000,
  Mg: 2000,
  Sr: 50,
  Cu: 1,
  Cl: 20_000,
  SO4: 3000,
  NO3: 200,
  PO4: 5,
  I: 1,
};
