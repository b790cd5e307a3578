import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ATOMIC_WEIGHTS, isElement, type ElementSymbol } from '../../shared/atomic-weights.ts';
import { molarMass, readFormula } from '../../shared/formula.ts';
import { readReference } from '../reference/read-csv.ts';

// Every row of atomic-weights.csv is held in reference-table.test.ts.

const atomsOf = (formula: string) => {
  const read = readFormula(formula);
  return read.kind === 'formula' ? Object.fromEntries(read.atoms) : read;
};

describe('readFormula', () => {
  test.each([
    { formula: 'Ca', atoms: { Ca: 1 } },
    { formula: 'NaHCO3', atoms: { Na: 1, H: 1, C: 1, O: 3 } },
    { formula: 'CaCl2.2H2O', atoms: { Ca: 1, Cl: 2, H: 4, O: 2 } },
    { formula: 'CaCl₂·2H₂O', atoms: { Ca: 1, Cl: 2, H: 4, O: 2 } },
    { formula: 'Ca(OH)2', atoms: { Ca: 1, O: 2, H: 2 } },
    { formula: 'CuSO4.5H2O', atoms: { Cu: 1, S: 1, O: 9, H: 10 } },
    { formula: 'Na2HPO4.12H2O', atoms: { Na: 2, H: 25, P: 1, O: 16 } },
    { formula: 'Na2CO3.H2O', atoms: { Na: 2, C: 1, O: 4, H: 2 } },
    { formula: '[Cu(NH3)4]SO4.H2O', atoms: { Cu: 1, N: 4, H: 14, S: 1, O: 5 } },
    { formula: '2NaCl.3KI', atoms: { Na: 2, Cl: 2, K: 3, I: 3 } },
    { formula: 'KAl(SO4)2.12H2O', atoms: { K: 1, Al: 1, S: 2, O: 20, H: 24 } },
  ])('counts the atoms of $formula', ({ formula, atoms }) => {
    expect(atomsOf(formula)).toEqual(atoms);
  });

  test.each([
    { formula: '', at: 0, expected: 'an element' },
    { formula: '2', at: 1, expected: 'an element' },
    { formula: 'sea-salt', at: 0, expected: 'an element, a number, a bracket or a dot' },
    { formula: 'Xx2O', at: 0, expected: 'an element whose weight is known, not Xx' },
    { formula: 'CaCl2.', at: 6, expected: 'an element' },
    { formula: '.2H2O', at: 0, expected: 'an element' },
    { formula: 'CaCl2..2H2O', at: 6, expected: 'an element' },
    { formula: 'Ca(OH2', at: 6, expected: ') before the part ends' },
    { formula: 'Ca(OH.H2O)', at: 5, expected: ') before the part ends' },
    { formula: 'CaOH)2', at: 4, expected: 'brackets that match' },
    { formula: 'Ca(OH]2', at: 5, expected: 'brackets that match' },
    { formula: 'Ca()2', at: 3, expected: 'an element inside the brackets' },
    { formula: 'CaCl0', at: 4, expected: 'a number from 1 to 999' },
    { formula: 'CaCl02', at: 4, expected: 'a number from 1 to 999' },
    { formula: 'CaCl1000', at: 4, expected: 'a number from 1 to 999' },
    { formula: 'CaSO4.0.5H2O', at: 6, expected: 'a number from 1 to 999' },
    { formula: 'Ca(2OH)', at: 3, expected: 'an element or a bracket before the number' },
    { formula: 'Ca 2', at: 2, expected: 'an element, a number, a bracket or a dot' },
    { formula: 'SO4-2', at: 3, expected: 'an element, a number, a bracket or a dot' },
  ])('stops in "$formula" at $at', ({ formula, ...stop }) => {
    expect(readFormula(formula)).toEqual({ kind: 'unreadable', ...stop });
  });

  test('stops at a formula that is too long to be one', () => {
    expect(readFormula('H'.repeat(2000))).toEqual({ kind: 'unreadable', at: 60, expected: 'at most 60 characters' });
    expect(readFormula('H'.repeat(60))).toMatchObject({ kind: 'formula' });
  });

  test('answers whatever it is given', () => {
    const noise = fc.array(fc.constantFrom('Ca', 'Cl', 'H', 'O', '(', ')', '[', ']', '2', '10', '.', '·', 'x', ' '));
    fc.assert(
      fc.property(noise, (parts) => {
        const text = parts.join('');
        const read = readFormula(text);
        if (read.kind === 'formula') expect([...read.atoms.values()].every((count) => count > 0)).toBe(true);
        else expect(read.at).toBeLessThanOrEqual(text.length);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('molarMass', () => {
  // CRC Handbook of Chemistry and Physics, physical constants of inorganic compounds (from memory).
  test.each([
    { formula: 'NaHCO3', gPerMol: 84.007 },
    { formula: 'Na2CO3', gPerMol: 105.989 },
    { formula: 'CaCl2.2H2O', gPerMol: 147.015 },
    { formula: 'Ca(OH)2', gPerMol: 74.093 },
    { formula: 'MgCl2.6H2O', gPerMol: 203.302 },
    { formula: 'MgSO4.7H2O', gPerMol: 246.474 },
    { formula: 'SrCl2.6H2O', gPerMol: 266.62 },
    { formula: 'KI', gPerMol: 166.003 },
    { formula: 'CuSO4.5H2O', gPerMol: 249.685 },
  ])('of $formula agrees with the printed $gPerMol within what the elements vary by', ({ formula, gPerMol }) => {
    const mass = molarMass(formula);
    expect(Math.abs(mass.gPerMol - gPerMol)).toBeLessThan(mass.plusMinus);
    expect(mass.plusMinus / mass.gPerMol).toBeLessThan(5e-4);
  });

  // Computed by other code from the same weights, IUPAC 2021, and printed with three decimals.
  test.each(readReference('reagents'))('of $formula is $molar_mass_g_mol', ({ formula = '', molar_mass_g_mol }) => {
    expect(molarMass(formula).gPerMol).toBeCloseTo(Number(molar_mass_g_mol), 3);
  });

  const element = fc.constantFrom(...Object.keys(ATOMIC_WEIGHTS).filter(isElement));
  const group = fc
    .array(fc.tuple(element, fc.integer({ min: 1, max: 9 })), { minLength: 1, maxLength: 4 })
    .map((parts) => parts.map(([symbol, count]: [ElementSymbol, number]) => `${symbol}${count}`).join(''));

  test('adds up: parts side by side, in brackets and after a dot weigh what they weigh alone', () => {
    fc.assert(
      fc.property(group, group, fc.integer({ min: 1, max: 12 }), (one, other, times) => {
        const alone = molarMass(one).gPerMol + times * molarMass(other).gPerMol;
        for (const joined of [`${one}(${other})${times}`, `[${other}]${times}${one}`, `${one}.${times}${other}`]) {
          expect(molarMass(joined).gPerMol).toBeCloseTo(alone, 8);
        }
      }),
    );
  });

  test('throws at what is no formula, and says where', () => {
    expect(() => molarMass('CaCl2.2h2o')).toThrow(
      new RangeError('"CaCl2.2h2o" is no formula: at character 8 expected an element, a number, a bracket or a dot'),
    );
  });
});
