import { molarMass } from './formula.ts';
import { firstOutOfRange, type OutOfRange } from './range.ts';
import { kelvinFromCelsius } from './temperature.ts';

/**
 * How the pH was measured. `nbs`: a meter set with ordinary buffers, or a colour kit. `total`: the total hydrogen ion
 * scale of oceanographic laboratories, about 0.11 to 0.14 lower in seawater (Takahashi T. et al. 1982, GEOSECS Pacific
 * Expedition vol. 3).
 */
export type PhScale = 'nbs' | 'total';

/** What the mg/L of a kit count: the nitrogen alone, or all of the ammonia as if it were NH3 or NH4. */
export const AMMONIA_UNITS = ['NH3-N', 'NH3', 'NH4'] as const;
export type AmmoniaUnit = (typeof AMMONIA_UNITS)[number];

export type AmmoniaWater = { ph: number; temperatureC: number; practicalSalinity: number; phScale?: PhScale };

export type UnionisedShare = { kind: 'share'; share: number; pKa: number };
export type UnionisedAmmonia = {
  kind: 'ammonia';
  share: number;
  pKa: number;
  /** All ammonia, ionised or not, as nitrogen. */
  totalNMgPerL: number;
  /** The un-ionised, poisonous part as nitrogen; 0.0288 is the chronic limit of US EPA 1989. */
  nh3NMgPerL: number;
  /** The same part as NH3; 0.035 is the same limit. */
  nh3MgPerL: number;
};

const PH_RANGE = [5, 10] as const;
/** The ionic strength of the EPA formula has to stay below 0.85, which is S 40.9. */
const RANGES = {
  nbs: { ph: PH_RANGE, temperatureC: [0, 35], practicalSalinity: [0, 40.9] },
  total: { ph: PH_RANGE, temperatureC: [-2, 40], practicalSalinity: [0, 40] },
} as const satisfies Record<PhScale, unknown>;
const LARGEST_TOTAL_MG_PER_L = 100;

/** US EPA 1989: pKa = 9.245 + 0.116 I + 0.0324 (298 - T) + 0.0415 P/T, at P = 1 atm. */
function pKaEpa1989(kelvin: number, s: number): number {
  const ionicStrength = (19.9273 * s) / (1000 - 1.005109 * s);
  return 9.245 + 0.116 * ionicStrength + 0.0324 * (298 - kelvin) + 0.0415 / kelvin;
}

/** Clegg & Whitfield 1995, total scale, mol per kg of water. */
function pKaCleggWhitfield1995(kelvin: number, s: number): number {
  const rootT = Math.sqrt(kelvin);
  const rootS = Math.sqrt(s);
  return (
    9.244605 -
    2729.33 * (1 / 298.15 - 1 / kelvin) +
    Math.sqrt(rootS) * (0.04203362 - 11.24742 / kelvin) +
    rootS * (-13.6416 + 1.176949 * rootT - 0.02860785 * kelvin + 545.4834 / kelvin) +
    s * rootS * (-0.1462507 + 0.0090226468 * rootT - 0.0001471361 * kelvin + 10.5425 / kelvin) +
    s * s * (0.004669309 - 0.0001691742 * rootT - 0.5677934 / kelvin) +
    s * s * rootS * (-2.354039e-5 + 0.009698623 / kelvin)
  );
}

/**
 * Share of all ammonia that is un-ionised, NH3, the part that poisons.
 *
 * share = 1 / (1 + 10^(pKa - pH)), with the pKa of the scale on which the pH was measured (`nbs` when not given).
 *
 * Units: °C, practical salinity; moles of NH3 per mole of NH3 and NH4+, hence the same share of the nitrogen.
 * Source: `nbs`: US EPA (1989) Ambient Water Quality Criteria for Ammonia (Saltwater), EPA 440/5-88-004. `total`: Clegg
 * S.L. & Whitfield M. (1995) Geochim. Cosmochim. Acta 59, 2403-2421.
 * Error: EPA reads 5 to 9 % above the table of Bower & Bidwell (1978) and Bell et al. (2008) in seawater at 20 to 28 °C,
 * which is the safe side; 0.1 in pH is 25 %. `total` counts hydrogen per kg of water; a pH per kg of solution,
 * taken as it is, reads up to 4 % high.
 * Range: pH 5 to 10; `nbs` S 0 to 40.9 and 0 to 35 °C, `total` S 0 to 40 and -2 to 40 °C.
 */
export function unionisedShare(water: AmmoniaWater): UnionisedShare | OutOfRange {
  const { ph, temperatureC, practicalSalinity, phScale = 'nbs' } = water;
  const outside = firstOutOfRange({ ph, temperatureC, practicalSalinity }, RANGES[phScale]);
  if (outside) return outside;
  const pKaOf = phScale === 'nbs' ? pKaEpa1989 : pKaCleggWhitfield1995;
  const pKa = pKaOf(kelvinFromCelsius(temperatureC), practicalSalinity);
  return { kind: 'share', share: 1 / (1 + 10 ** (pKa - ph)), pKa };
}

const N_G_PER_MOL = molarMass('N').gPerMol;
/** mg of nitrogen in one mg of what a kit counts. */
const N_PER: Readonly<Record<AmmoniaUnit, number>> = {
  'NH3-N': 1,
  NH3: N_G_PER_MOL / molarMass('NH3').gPerMol,
  NH4: N_G_PER_MOL / molarMass('NH4').gPerMol,
};

/**
 * Un-ionised ammonia from the total that a kit shows.
 *
 * Units: mg/L of `unit` in, mg/L as nitrogen and as NH3 out; see `unionisedShare` for the water.
 * Source: `unionisedShare`, and IUPAC 2021 weights between the units: 1 mg NH3-N is 1.21589 mg NH3 or 1.28786 mg NH4.
 * Error: that of the share, and of the kit. After a dose of an ammonia binder a kit can read high although the NH3 is bound
 * (common practice, no source).
 * Range: totals of 0 to 100 mg/L, and the range of `unionisedShare`.
 */
export function unionisedAmmonia(
  input: AmmoniaWater & { totalMgPerL: number; unit: AmmoniaUnit },
): UnionisedAmmonia | OutOfRange {
  const { totalMgPerL, unit, ...water } = input;
  const outside = firstOutOfRange({ totalMgPerL }, { totalMgPerL: [0, LARGEST_TOTAL_MG_PER_L] });
  if (outside) return outside;
  const ionisation = unionisedShare(water);
  if (ionisation.kind === 'out-of-range') return ionisation;
  const { share, pKa } = ionisation;
  const totalNMgPerL = totalMgPerL * N_PER[unit];
  const nh3NMgPerL = totalNMgPerL * share;
  return { kind: 'ammonia', share, pKa, totalNMgPerL, nh3NMgPerL, nh3MgPerL: nh3NMgPerL / N_PER.NH3 };
}
