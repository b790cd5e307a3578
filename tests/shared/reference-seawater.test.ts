import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { molarMass } from '../../shared/formula.ts';
import {
  chargeOf,
  referenceSeawater,
  SEAWATER_SPECIES,
  type SeawaterSpecies,
} from '../../shared/reference-seawater.ts';

// Every row of reference-seawater.csv, S 35 at 25 °C, is held in reference-table.test.ts.

function seawater(practicalSalinity: number, temperatureC: number) {
  const found = referenceSeawater({ practicalSalinity, temperatureC });
  if (found.kind !== 'seawater') throw new Error(`refused: ${JSON.stringify(found)}`);
  return found;
}

describe('referenceSeawater', () => {
  test('holds as much positive charge as negative', () => {
    const { species } = seawater(35, 25);
    const charge = SEAWATER_SPECIES.reduce((sum, name) => sum + chargeOf(name) * species[name].mmolPerKg, 0);
    expect(Math.abs(charge)).toBeLessThan(1e-9);
  });

  test('holds 35.165 g/kg of salt at S 35, which is what its parts weigh', () => {
    // Millero et al. (2008): reference salinity 35.16504 g/kg.
    const { species, saltGPerKg } = seawater(35, 25);
    expect(saltGPerKg).toBeCloseTo(35.16504, 5);
    expect(SEAWATER_SPECIES.reduce((sum, name) => sum + species[name].mgPerKg, 0)).toBeCloseTo(35165.04, 5);
  });

  // Dickson A.G., Sabine C.L. & Christian J.R. (2007) Guide to best practices for ocean CO2 measurements, chapter 5, table 3,
  // S 35 in mol/kg (from memory): an older composition, so the last digits differ.
  test.each([
    { name: 'Na', molPerKg: 0.46906 },
    { name: 'Mg', molPerKg: 0.05282 },
    { name: 'Ca', molPerKg: 0.01028 },
    { name: 'K', molPerKg: 0.01021 },
    { name: 'Sr', molPerKg: 0.00009 },
    { name: 'Cl', molPerKg: 0.54586 },
    { name: 'SO4', molPerKg: 0.02824 },
    { name: 'Br', molPerKg: 0.00084 },
    { name: 'F', molPerKg: 0.00007 },
  ] as const)('holds $molPerKg mol/kg of $name at S 35', ({ name, molPerKg }) => {
    const { mmolPerKg } = seawater(35, 25).species[name];
    expect(Math.abs(mmolPerKg / 1000 - molPerKg)).toBeLessThan(Math.max(6e-6, 3e-4 * molPerKg));
  });

  test('holds amounts by mass in proportion to salinity, and less in a litre when it is warm', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 21, noNaN: true }),
        fc.double({ min: 10, max: 38, noNaN: true }),
        fc.constantFrom(...SEAWATER_SPECIES),
        (practicalSalinity, temperatureC, name) => {
          const once = seawater(practicalSalinity, temperatureC);
          const twice = seawater(2 * practicalSalinity, temperatureC);
          expect(twice.species[name].mgPerKg / once.species[name].mgPerKg).toBeCloseTo(2, 10);
          expect(twice.totalAlkalinity.meqPerKg / once.totalAlkalinity.meqPerKg).toBeCloseTo(2, 10);
          const warmer = seawater(practicalSalinity, temperatureC + 1);
          expect(warmer.species[name].mgPerKg).toBe(once.species[name].mgPerKg);
          expect(warmer.species[name].mgPerL).toBeLessThan(once.species[name].mgPerL);
        },
      ),
    );
  });

  // The composition keeps the weights of 2005; those of 2021 may differ by no more than their own variation.
  const FORMULAS: Partial<Record<SeawaterSpecies, string>> = { BOH4: 'B(OH)4', BOH3: 'B(OH)3' };
  test.each(SEAWATER_SPECIES)('weighs %s as its formula does', (name) => {
    const { mgPerKg, mmolPerKg } = seawater(35, 25).species[name];
    const { gPerMol, plusMinus } = molarMass(FORMULAS[name] ?? name);
    expect(Math.abs(mgPerKg / mmolPerKg - gPerMol)).toBeLessThan(plusMinus);
  });

  test('is pure water at S 0', () => {
    const { species, saltGPerL, totalAlkalinity } = seawater(0, 25);
    expect([species.Na.mgPerL, species.Cl.mmolPerL, saltGPerL, totalAlkalinity.meqPerL]).toEqual([0, 0, 0, 0]);
  });

  test.each([
    { practicalSalinity: 43, temperatureC: 25, quantity: 'practicalSalinity', given: 43, least: 0, most: 42 },
    { practicalSalinity: 35, temperatureC: 77, quantity: 'temperatureC', given: 77, least: -2, most: 40 },
  ])('refuses S $practicalSalinity at $temperatureC °C', ({ practicalSalinity, temperatureC, ...refusal }) => {
    expect(referenceSeawater({ practicalSalinity, temperatureC })).toEqual({ kind: 'out-of-range', ...refusal });
  });
});
