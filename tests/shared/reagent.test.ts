import { describe, expect, test } from 'vitest';
import {
  anhydrousFraction,
  bringsPerGram,
  canBeDosed,
  ION_KEYS,
  phDirection,
  SEA_SALT,
  type Ion,
} from '../../shared/reagent.ts';
import { molarMass } from '../../shared/formula.ts';
import { numberIn, readReference, textIn } from '../reference/read-csv.ts';

// Molar masses and fractions: computed from the IUPAC 2021 weights, a second path agrees within 2.5e-4; see reagents.csv.
const rows = readReference('reagents');
const share = (got: number, expected: number) => Math.abs(got / expected - 1);

describe('reagents.csv', () => {
  test.each(rows)('$name', (row) => {
    const formula = textIn(row, 'formula');
    expect(share(molarMass(formula).gPerMol, numberIn(row, 'molar_mass_g_mol'))).toBeLessThan(1e-5);
    expect(share(anhydrousFraction(formula), numberIn(row, 'anhydrous_mass_fraction'))).toBeLessThan(1e-5);
    const brings = bringsPerGram(formula);
    const alkalinity = textIn(row, 'alk_meq_per_g');
    if (alkalinity === '') expect(brings.alkalinityMeq).toBe(0);
    else expect(share(brings.alkalinityMeq, Number(alkalinity))).toBeLessThan(1e-5);
    const ions = textIn(row, 'mass_fraction_ions_g_per_g').split('; ');
    for (const ion of ions) {
      const [symbol = '', fraction] = ion.split('=');
      expect(share(brings[ION_KEYS[symbol as Ion]] / 1000, Number(fraction)), symbol).toBeLessThan(1e-5);
    }
    // Nothing comes along that the row does not name.
    const named = new Set(ions.map((ion) => ION_KEYS[ion.split('=')[0] as Ion]));
    for (const key of Object.values(ION_KEYS)) if (!named.has(key)) expect(brings[key], key).toBe(0);
  });
});

describe('bringsPerGram', () => {
  // Millero et al. (2008): mass fractions of the reference sea salt, as in reference-seawater.csv.
  test('sea salt brings its ions in natural proportion', () => {
    const brings = bringsPerGram(SEA_SALT);
    for (const row of readReference('reference-seawater')) {
      const key = ION_KEYS[textIn(row, 'species') as Ion];
      // Seven decimals are given, so half of the last digit is the tolerance.
      if (key)
        expect(Math.abs(brings[key] / 1000 - numberIn(row, 'mass_fraction_g_per_g_salt')), key).toBeLessThan(5.1e-8);
    }
    // 2.30437 meq/kg in 35.16504 g/kg.
    expect(brings.alkalinityMeq).toBeCloseTo(2.30437 / 35.16504, 5);
    expect(brings.saltG).toBe(1);
  });

  test('a hydrate and its dry salt bring the same for the same salt', () => {
    const dry = bringsPerGram('CaCl2');
    const wet = bringsPerGram('CaCl2.2H2O');
    expect(wet.calciumMg / wet.saltG).toBeCloseTo(dry.calciumMg, 9);
    expect(bringsPerGram('CaCl2·2H2O')).toEqual(wet);
  });

  test.each(['', 'H2O', 'NaCl2H2O', 'XyCl', 'Na', 'CaCl2.2H2O ', 'NH4Cl'])('does not dose "%s"', (formula) => {
    expect(canBeDosed(formula)).toBe(false);
    expect(() => bringsPerGram(formula)).toThrow(RangeError);
  });

  // General chemistry; the first two also stand in the notes of reagents.csv.
  test.each([
    ['NaHCO3', 'lowers slightly'],
    ['Na2CO3.H2O', 'raises'],
    ['Ca(OH)2', 'raises strongly'],
    ['CaCl2', 'hardly'],
    [SEA_SALT, 'hardly'],
  ])('%s %s pH', (formula, direction) => {
    expect(phDirection(formula)).toBe(direction);
  });
});
