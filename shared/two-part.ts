import { doseFor, type Dose } from './dose.ts';
import { MOST_RISE_DKH } from './dose-ranges.ts';
import { molarMass } from './formula.ts';
import { firstOutOfRange, type OutOfRange } from './range.ts';
import { densityKgPerM3 } from './seawater-density.ts';
import { MEQ_PER_L_PER_DKH } from './units/alkalinity.ts';

/**
 * Calcium that goes into a skeleton with each milliequivalent of alkalinity: half a mole a mole, as CaCO3.
 *
 * Units: mg per meq. Source: stoichiometry of CaCO3, IUPAC 2021 weights.
 */
export const CALCIUM_MG_PER_MEQ = molarMass('Ca').gPerMol / 2;

/**
 * What a tank used up in a day, from two readings and what was dosed between them.
 *
 * (first − last + dosed) ÷ days; below zero when it rose by itself. For more than two readings there is a robust line.
 *
 * Units: any one unit, days. Source: definition. Error: that of both kits over the days.
 *
 * @throws RangeError when the days are not positive or a number is not finite.
 */
export function usePerDay(input: { first: number; last: number; days: number; dosed?: number }): number {
  const { first, last, days, dosed = 0 } = input;
  if (!(days > 0) || ![first, last, dosed, days].every(Number.isFinite))
    throw new RangeError(`days must be positive and all numbers finite, got ${JSON.stringify(input)}`);
  return (first - last + dosed) / days;
}

export type TwoPart =
  | {
      kind: 'two-part';
      alkalinityMeqPerDay: number;
      alkalinityMassGPerDay: number;
      calciumMgPerLPerDay: number;
      calciumMassGPerDay: number;
      /** Salt that stays behind, as salinity by mass. */
      saltCreepGPerKgPerDay: number;
    }
  | Exclude<Dose, { kind: 'dose' }>;

/**
 * The daily need of a tank that builds skeletons: an alkalinity reagent and a calcium reagent in balance.
 *
 * meq = litres × use in meq/L; calcium = 20.039 mg for each meq.
 *
 * Units: net litres, dKH a day; g as weighed a day, mg/L a day, g/kg a day.
 * Source: stoichiometry of CaCO3. Error: corals also build in a few per cent of magnesium, so calcium use is a little lower.
 *
 * @throws RangeError for a formula that cannot be dosed.
 */
export function twoPartDaily(input: {
  volumeL: number;
  useDkhPerDay: number;
  alkalinityFormula: string;
  calciumFormula: string;
  alkalinityPurity?: number;
  calciumPurity?: number;
}): TwoPart {
  const { volumeL, useDkhPerDay, alkalinityFormula, calciumFormula, alkalinityPurity = 1, calciumPurity = 1 } = input;
  const meqPerL = useDkhPerDay * MEQ_PER_L_PER_DKH;
  const calciumMgPerLPerDay = meqPerL * CALCIUM_MG_PER_MEQ;
  const alkalinity = doseFor({
    formula: alkalinityFormula,
    volumeL,
    purity: alkalinityPurity,
    alkalinityRiseDkh: useDkhPerDay,
  });
  if (alkalinity.kind !== 'dose') return alkalinity;
  const calcium = doseFor({
    formula: calciumFormula,
    volumeL,
    purity: calciumPurity,
    ion: 'Ca',
    riseMgPerL: calciumMgPerLPerDay,
  });
  if (calcium.kind !== 'dose') return calcium;
  return {
    kind: 'two-part',
    alkalinityMeqPerDay: alkalinity.added,
    alkalinityMassGPerDay: alkalinity.massG,
    calciumMgPerLPerDay,
    calciumMassGPerDay: calcium.massG,
    saltCreepGPerKgPerDay:
      (meqPerL * molarMass('NaCl').gPerMol) / densityKgPerM3({ practicalSalinity: 35, temperatureC: 25 }),
  };
}

export type SaltCreep = { kind: 'creep'; saltGPerL: number; salinityRiseGPerKg: number } | OutOfRange;

/**
 * How salinity creeps up where sodium (bi)carbonate and calcium chloride are dosed in balance and skeletons take the rest.
 *
 * For each equivalent one mole of NaCl, 58.440 g, stays: 2 NaHCO3 + CaCl2 → CaCO3 + 2 NaCl + CO2 + H2O.
 *
 * Units: dKH a day, days; g/L and g/kg. Source: stoichiometry; EOS-80 density.
 * Error: none in the sum; water changes carry part of it away.
 */
export function saltCreep(input: {
  useDkhPerDay: number;
  days: number;
  practicalSalinity?: number;
  temperatureC?: number;
}): SaltCreep {
  const { useDkhPerDay, days, practicalSalinity = 35, temperatureC = 25 } = input;
  const outside = firstOutOfRange({ useDkhPerDay, days }, { useDkhPerDay: [0, MOST_RISE_DKH], days: [0, 3660] });
  if (outside) return outside;
  const saltGPerL = (useDkhPerDay * MEQ_PER_L_PER_DKH * days * molarMass('NaCl').gPerMol) / 1000;
  const kgPerL = densityKgPerM3({ practicalSalinity, temperatureC }) / 1000;
  return { kind: 'creep', saltGPerL, salinityRiseGPerKg: saltGPerL / kgPerL };
}
