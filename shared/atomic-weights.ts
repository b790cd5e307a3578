/** A standard atomic weight, rounded to what holds for any natural sample, and by how much a sample may differ. */
export type AtomicWeight = { gPerMol: number; plusMinus: number };

const weight = (gPerMol: number, plusMinus: number): AtomicWeight => ({ gPerMol, plusMinus });

/**
 * Abridged standard atomic weights of the elements that keepers dose or measure.
 *
 * Units: g/mol.
 * Source: Prohaska T. et al. (2022) Standard atomic weights of the elements 2021 (IUPAC Technical Report), Pure Appl.
 * Chem. 94, 573-600. The abridged values are from memory; each agrees with the unabridged value on ciaaw.org (seen).
 * Error: `plusMinus`, which is natural variation more than measurement; at most 0.2 %, of boron.
 */
export const ATOMIC_WEIGHTS = {
  H: weight(1.008, 0.0002),
  B: weight(10.81, 0.02),
  C: weight(12.011, 0.002),
  N: weight(14.007, 0.001),
  O: weight(15.999, 0.001),
  F: weight(18.998, 0.001),
  Na: weight(22.99, 0.001),
  Mg: weight(24.305, 0.002),
  Al: weight(26.982, 0.001),
  Si: weight(28.085, 0.001),
  P: weight(30.974, 0.001),
  S: weight(32.06, 0.02),
  Cl: weight(35.45, 0.01),
  K: weight(39.098, 0.001),
  Ca: weight(40.078, 0.004),
  Fe: weight(55.845, 0.002),
  Cu: weight(63.546, 0.003),
  Br: weight(79.904, 0.003),
  Sr: weight(87.62, 0.01),
  I: weight(126.9, 0.01),
} as const satisfies Record<string, AtomicWeight>;

export type ElementSymbol = keyof typeof ATOMIC_WEIGHTS;

export const isElement = (symbol: string): symbol is ElementSymbol => Object.hasOwn(ATOMIC_WEIGHTS, symbol);
