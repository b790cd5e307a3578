import { DRIFTING, type Brings, type Drifting, type JointPlanInput, type Planned } from './joint-plan-model.ts';
import { bringsPerGram, SEA_SALT } from './reagent.ts';
import { densityKgPerM3 } from './seawater-density.ts';
import { MEQ_PER_L_PER_DKH } from './units/alkalinity.ts';

/** Milligrams of each ion in one gram of sea salt; the same at every salinity. */
const NATURAL = bringsPerGram(SEA_SALT);

/** What one gram of a reagent, as weighed, does to one litre of the tank. */
export type Effects = {
  /** psu, mg/L, dKH and mg/L. */
  rises: Readonly<Record<Planned, number>>;
  /** mg/L. */
  ions: Readonly<Record<Drifting, number>>;
  strontiumMgPerL: number;
  saltG: number;
  /** Grams in one litre of the tank that may go in on one day; Infinity where nothing but the caps holds it. */
  mostGPerLADay: number;
};

/**
 * What one gram of each reagent does to one litre.
 *
 * Relation: ions go by the tank's constant net volume. Salinity goes by mass, ΔS = x (1000 w − S₂) ÷ ρ(S₁) for x g/L that
 * bring w gram of salt a gram, S₂ the target (or S₁ where none is set), so that a lone sea salt gives the same grams as
 * `saltForSalinity`.
 * Error: of the salinity on the way to the target, 0.1 % of its rise for every psu it rises.
 */
export function effectsOf({
  reagents,
  practicalSalinity,
  targetSalinity,
  temperatureC,
  volumeL,
}: JointPlanInput): Effects[] {
  const gramsPerL = densityKgPerM3({ practicalSalinity, temperatureC });
  const end = targetSalinity ?? practicalSalinity;
  return reagents.map(({ brings, purity = 1, mostGADay = Infinity }) => ({
    rises: {
      salinity: (1000 * brings.saltG * purity - end) / gramsPerL,
      magnesium: brings.magnesiumMg * purity,
      alkalinity: (brings.alkalinityMeq * purity) / MEQ_PER_L_PER_DKH,
      calcium: brings.calciumMg * purity,
    },
    ions: each((ion) => brings[ION_KEYS[ion]] * purity),
    strontiumMgPerL: brings.strontiumMg * purity,
    saltG: brings.saltG * purity,
    mostGPerLADay: mostGADay / volumeL,
  }));
}

const ION_KEYS = {
  sodium: 'sodiumMg',
  chloride: 'chlorideMg',
  sulfate: 'sulfateMg',
  potassium: 'potassiumMg',
} as const satisfies Record<Drifting, keyof Brings>;

/** How far an ion lies off its share of the salt that was added, in mg. Sea salt has no such drift. */
export const offNaturalMg = (ion: Drifting, { ions, saltG }: Pick<Effects, 'ions' | 'saltG'>): number =>
  ions[ion] - NATURAL[ION_KEYS[ion]] * saltG;

/**
 * The same as salt: the grams of sea salt that hold as much of the ion as is too much (or, below zero, missing). In this
 * measure one hundredth of each ion counts alike, though sea water holds fifty times more chloride than potassium.
 */
export const offNaturalAsSaltG = (ion: Drifting, effects: Pick<Effects, 'ions' | 'saltG'>): number =>
  offNaturalMg(ion, effects) / NATURAL[ION_KEYS[ion]];

/** What sea water with so many grams of salt in a litre holds of an ion, mg/L. */
export const naturalMgPerL = (ion: Drifting, saltGPerL: number): number => NATURAL[ION_KEYS[ion]] * saltGPerL;

export const each = <T>(of: (ion: Drifting) => T): Record<Drifting, T> => ({
  sodium: of(DRIFTING[0]),
  chloride: of(DRIFTING[1]),
  sulfate: of(DRIFTING[2]),
  potassium: of(DRIFTING[3]),
});
