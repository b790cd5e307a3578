import { firstOutOfRange, type OutOfRange } from './range.ts';
import { densityKgPerM3, EOS80_RANGE } from './seawater-density.ts';

/** Moles of one species in 10⁷ moles of sea salt, its mass with the weights of 2005, and its charge. */
type Species = { per1e7Mol: number; gPerMol: number; charge: number };

const species = (per1e7Mol: number, gPerMol: number, charge: number): Species => ({ per1e7Mol, gPerMol, charge });

/**
 * The reference composition of sea salt. It is defined with the atomic weights of 2005, so they are kept here.
 *
 * Source: Millero F.J., Feistel R., Wright D.G. & McDougall T.J. (2008) Deep-Sea Res. I 55, 50-72 (from memory; the
 * shares add up to one and the charges to zero, which the tests hold).
 */
const COMPOSITION = {
  Na: species(4_188_071, 22.98977, 1),
  Mg: species(471_678, 24.305, 2),
  Ca: species(91_823, 40.078, 2),
  K: species(91_159, 39.0983, 1),
  Sr: species(810, 87.62, 2),
  Cl: species(4_874_839, 35.453, -1),
  SO4: species(252_152, 96.0626, -2),
  HCO3: species(15_340, 61.01684, -1),
  Br: species(7_520, 79.904, -1),
  CO3: species(2_134, 60.0089, -2),
  BOH4: species(900, 78.84036, -1),
  F: species(610, 18.9984032, -1),
  OH: species(71, 17.00734, -1),
  BOH3: species(2_807, 61.83302, 0),
  CO2: species(86, 44.0095, 0),
} as const satisfies Record<string, Species>;

export type SeawaterSpecies = keyof typeof COMPOSITION;
/** Dissolved salt in water of practical salinity 35, by the same source. */
const SALT_G_PER_KG_AT_35 = 35.16504;
const B_G_PER_MOL = 10.811;

export const SEAWATER_SPECIES = Object.keys(COMPOSITION) as SeawaterSpecies[];
/** Charge of each species, in elementary charges. */
export const chargeOf = (name: SeawaterSpecies): number => COMPOSITION[name].charge;

const SALT_G_PER_1E7_MOL = Object.values(COMPOSITION).reduce((sum, each) => sum + each.per1e7Mol * each.gPerMol, 0);

export type Amount = { mgPerKg: number; mmolPerKg: number; mgPerL: number; mmolPerL: number };
export type ReferenceSeawater = {
  kind: 'seawater';
  species: Readonly<Record<SeawaterSpecies, Amount>>;
  /** Boron of both its acids, as B. */
  totalBoron: Amount;
  totalAlkalinity: { meqPerKg: number; meqPerL: number };
  /** What borate brings to the alkalinity: a kit counts it, corals do not use it. */
  borateAlkalinity: { meqPerKg: number; meqPerL: number };
  /** All dissolved salt. */
  saltGPerKg: number;
  saltGPerL: number;
  densityKgPerL: number;
};

const BOTH_BORATES = COMPOSITION.BOH3.per1e7Mol + COMPOSITION.BOH4.per1e7Mol;
const ALKALINITY =
  COMPOSITION.HCO3.per1e7Mol + 2 * COMPOSITION.CO3.per1e7Mol + COMPOSITION.BOH4.per1e7Mol + COMPOSITION.OH.per1e7Mol;

/**
 * What natural seawater of a salinity holds.
 *
 * Amounts per kg are those of the reference composition times S/35; per litre they are multiplied by the density.
 *
 * Units: practical salinity and °C in; mg and mmol per kg of seawater and per litre, meq for alkalinity.
 * Source: Millero et al. (2008), see `COMPOSITION`; density by EOS-80.
 * Error: below 0.01 % for the great ions of the open ocean. How carbonate and borate share their protons is that of about
 * pH 8.1 (total scale) at S 35 and 25 °C. Lee et al. (2010) found 4 % more boron.
 * Range: S 0 to 42, -2 to 40 °C.
 */
export function referenceSeawater(input: {
  practicalSalinity: number;
  temperatureC: number;
}): ReferenceSeawater | OutOfRange {
  const outside = firstOutOfRange(input, EOS80_RANGE);
  if (outside) return outside;
  const densityKgPerL = densityKgPerM3(input) / 1000;
  const saltGPerKg = (SALT_G_PER_KG_AT_35 * input.practicalSalinity) / 35;
  const mmolPerKgOf = (per1e7Mol: number) => (1000 * saltGPerKg * per1e7Mol) / SALT_G_PER_1E7_MOL;
  const amount = (per1e7Mol: number, gPerMol: number): Amount => {
    const mmolPerKg = mmolPerKgOf(per1e7Mol);
    const mgPerKg = mmolPerKg * gPerMol;
    return { mgPerKg, mmolPerKg, mgPerL: mgPerKg * densityKgPerL, mmolPerL: mmolPerKg * densityKgPerL };
  };
  const alkalinity = (per1e7Mol: number) => {
    const meqPerKg = mmolPerKgOf(per1e7Mol);
    return { meqPerKg, meqPerL: meqPerKg * densityKgPerL };
  };
  return {
    kind: 'seawater',
    species: Object.fromEntries(
      SEAWATER_SPECIES.map((name) => [name, amount(COMPOSITION[name].per1e7Mol, COMPOSITION[name].gPerMol)]),
    ) as Record<SeawaterSpecies, Amount>,
    totalBoron: amount(BOTH_BORATES, B_G_PER_MOL),
    totalAlkalinity: alkalinity(ALKALINITY),
    borateAlkalinity: alkalinity(COMPOSITION.BOH4.per1e7Mol),
    saltGPerKg,
    saltGPerL: saltGPerKg * densityKgPerL,
    densityKgPerL,
  };
}
