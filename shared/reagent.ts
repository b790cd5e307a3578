import { molarMass } from './formula.ts';
import { referenceSeawater } from './reference-seawater.ts';

/** What a gram of a reagent brings, by the symbol that test kits use. Phosphate of any acidity counts as PO4. */
export const IONS = ['Na', 'K', 'Ca', 'Mg', 'Sr', 'Cu', 'Cl', 'SO4', 'NO3', 'PO4', 'I'] as const;
export type Ion = (typeof IONS)[number];

/** What one gram of a pure reagent brings into the water. */
export type BringsPerGram = {
  /** Milliequivalents of alkalinity. */
  alkalinityMeq: number;
  sodiumMg: number;
  potassiumMg: number;
  calciumMg: number;
  magnesiumMg: number;
  strontiumMg: number;
  copperMg: number;
  chlorideMg: number;
  sulfateMg: number;
  nitrateMg: number;
  phosphateMg: number;
  iodideMg: number;
  /** Dissolved salt, without crystal water. */
  saltG: number;
};

/** Under which key a gram's worth of an ion stands. */
export const ION_KEYS = {
  Na: 'sodiumMg',
  K: 'potassiumMg',
  Ca: 'calciumMg',
  Mg: 'magnesiumMg',
  Sr: 'strontiumMg',
  Cu: 'copperMg',
  Cl: 'chlorideMg',
  SO4: 'sulfateMg',
  NO3: 'nitrateMg',
  PO4: 'phosphateMg',
  I: 'iodideMg',
} as const satisfies Record<Ion, keyof BringsPerGram>;

/** Which way one addition pushes pH, before gas exchange evens it out. */
export type PhDirection = 'raises strongly' | 'raises' | 'hardly' | 'lowers slightly';

/** The formula word for a mix of salts in natural proportion. */
export const SEA_SALT = 'sea-salt';

type Anion = { ion: Ion | null; meqPerMmol: number; ph: PhDirection };

/** Equivalents are those of total alkalinity near pH 8: Dickson A.G. (1981) Deep-Sea Res. 28A, 609-623 (from memory). */
const ANIONS: Readonly<Record<string, Anion>> = {
  HCO3: { ion: null, meqPerMmol: 1, ph: 'lowers slightly' },
  CO3: { ion: null, meqPerMmol: 2, ph: 'raises' },
  OH: { ion: null, meqPerMmol: 1, ph: 'raises strongly' },
  // Takes up water at once and is hydroxide then.
  O: { ion: null, meqPerMmol: 2, ph: 'raises strongly' },
  Cl: { ion: 'Cl', meqPerMmol: 0, ph: 'hardly' },
  SO4: { ion: 'SO4', meqPerMmol: 0, ph: 'hardly' },
  NO3: { ion: 'NO3', meqPerMmol: 0, ph: 'hardly' },
  // By the book HPO4 counts one equivalent; at a dose of 0.1 mg/L that is 0.003 dKH, so it is left out.
  HPO4: { ion: 'PO4', meqPerMmol: 0, ph: 'hardly' },
  H2PO4: { ion: 'PO4', meqPerMmol: 0, ph: 'hardly' },
  I: { ion: 'I', meqPerMmol: 0, ph: 'hardly' },
};

const SALT =
  /^(?<dry>(?<cation>Na|K|Ca|Mg|Sr|Cu)(?<cations>\d?)\(?(?<anion>HCO3|CO3|OH|Cl|SO4|NO3|HPO4|H2PO4|I|O)\)?(?<anions>\d?))(?:[.·]\d{0,2}H2O)?$/;

type Salt = { dry: string; cation: Ion; cations: number; anion: Anion; anions: number };

function readSalt(formula: string): Salt | null {
  const groups = SALT.exec(formula)?.groups;
  const anion = ANIONS[groups?.['anion'] ?? ''];
  if (!groups || !anion) return null;
  const { dry = '', cation, cations, anions } = groups;
  return { dry, cation: cation as Ion, cations: Number(cations || 1), anion, anions: Number(anions || 1) };
}

function saltOf(formula: string): Salt {
  const salt = readSalt(formula);
  if (salt) return salt;
  throw new RangeError(
    `"${formula}" is no salt that can be dosed: expected one cation and one anion, or "${SEA_SALT}"`,
  );
}

/** Whether the calculators know how a reagent of this formula comes apart in water. */
export const canBeDosed = (formula: string): boolean => formula === SEA_SALT || readSalt(formula) !== null;

/** Which way one addition of a reagent pushes pH. @throws RangeError for a formula that cannot be dosed. */
export const phDirection = (formula: string): PhDirection =>
  formula === SEA_SALT ? 'hardly' : saltOf(formula).anion.ph;

/**
 * Share of a reagent's mass that is salt; the rest is crystal water.
 *
 * Units: g/g. Source: `molarMass`. Error: below 0.1 %.
 *
 * @throws RangeError for a formula that cannot be dosed.
 */
export const anhydrousFraction = (formula: string): number =>
  formula === SEA_SALT ? 1 : molarMass(saltOf(formula).dry).gPerMol / molarMass(formula).gPerMol;

const kept = new Map<string, BringsPerGram>();

/**
 * What one gram of a pure reagent brings, crystal water weighed along.
 *
 * Each mole brings its ions whole: mg of ion = 1000 × count × M(ion) ÷ M(reagent), meq = 1000 × equivalents ÷ M(reagent).
 * "sea-salt" brings what is in a gram of the reference sea salt.
 *
 * Units: mg, meq and g per gram.
 * Source: IUPAC 2021 weights through `molarMass`; sea salt by Millero et al. (2008) through `referenceSeawater`.
 * Error: below 0.1 % for a pure reagent; what is in the tub is dealt with as purity.
 *
 * @throws RangeError for a formula that cannot be dosed; `canBeDosed` tells.
 */
export function bringsPerGram(formula: string): BringsPerGram {
  const known = kept.get(formula);
  if (known) return known;
  const brings = formula === SEA_SALT ? seaSaltPerGram() : saltPerGram(formula);
  // Formulas that can be dosed are few, so this never grows.
  kept.set(formula, brings);
  return brings;
}

const NOTHING: BringsPerGram = {
  alkalinityMeq: 0,
  sodiumMg: 0,
  potassiumMg: 0,
  calciumMg: 0,
  magnesiumMg: 0,
  strontiumMg: 0,
  copperMg: 0,
  chlorideMg: 0,
  sulfateMg: 0,
  nitrateMg: 0,
  phosphateMg: 0,
  iodideMg: 0,
  saltG: 0,
};

function saltPerGram(formula: string): BringsPerGram {
  const { cation, cations, anion, anions } = saltOf(formula);
  const mmolPerG = 1000 / molarMass(formula).gPerMol;
  const mg = (ion: Ion, count: number) => ({ [ION_KEYS[ion]]: count * mmolPerG * molarMass(ion).gPerMol });
  return {
    ...NOTHING,
    ...mg(cation, cations),
    ...(anion.ion ? mg(anion.ion, anions) : {}),
    alkalinityMeq: anions * anion.meqPerMmol * mmolPerG,
    saltG: anhydrousFraction(formula),
  };
}

function seaSaltPerGram(): BringsPerGram {
  const sea = referenceSeawater({ practicalSalinity: 35, temperatureC: 25 });
  if (sea.kind !== 'seawater')
    throw new RangeError('sea water of salinity 35 lies outside the range of its own formula');
  const { species, saltGPerKg, totalAlkalinity } = sea;
  return {
    ...NOTHING,
    alkalinityMeq: totalAlkalinity.meqPerKg / saltGPerKg,
    sodiumMg: species.Na.mgPerKg / saltGPerKg,
    potassiumMg: species.K.mgPerKg / saltGPerKg,
    calciumMg: species.Ca.mgPerKg / saltGPerKg,
    magnesiumMg: species.Mg.mgPerKg / saltGPerKg,
    strontiumMg: species.Sr.mgPerKg / saltGPerKg,
    chlorideMg: species.Cl.mgPerKg / saltGPerKg,
    sulfateMg: species.SO4.mgPerKg / saltGPerKg,
    saltG: 1,
  };
}
