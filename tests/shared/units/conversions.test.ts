import { describe, expect, test } from 'vitest';
import { dailyLight } from '../../../shared/daily-light.ts';
import { molarMass } from '../../../shared/formula.ts';
import { readQuantity, type Wanted } from '../../../shared/quantity-text.ts';
import { MEQ_PER_L_PER_DKH } from '../../../shared/units/alkalinity.ts';
import { unitNamed } from '../../../shared/units/tables.ts';
import type { Quantity, Species } from '../../../shared/units/unit.ts';
import { numberIn, readReference, textIn } from '../../reference/read-csv.ts';

// tests/reference/conversions.csv: NIST Special Publication 811, UK Weights and Measures Act 1985, DIN 38409-6 (from memory),
// IUPAC abridged atomic weights 2021. Each row says which.

/** One of a unit, typed by a keeper, in the unit in which the quantity is kept. */
function typed(text: string, wanted: Wanted): number {
  const outcome = readQuantity(text, { ...wanted, least: -Infinity, most: Infinity });
  if (outcome.kind !== 'read') throw new Error(`${text}: ${JSON.stringify(outcome)}`);
  return outcome.si;
}
const of = (quantity: Exclude<Quantity, 'concentration'>, text: string, unit?: string) =>
  unit === undefined
    ? typed(text, { quantity })
    : unitNamed(quantity, unit, { gallon: 'US gal' }).fromSi(typed(text, { quantity }));
const kit = (species: Species, text: string) => typed(text, { quantity: 'concentration', species });
const mass = (formula: string) => molarMass(formula).gPerMol;
const CA_PER_MEQ = () => mass('CaCO3') / 2 / (1 / kit('Ca', '1 mg/L CaCO3'));

const ROWS: Readonly<Record<string, () => number>> = {
  'meq/L alkalinity → dKH': () => of('alkalinity', '1 meq/L'),
  'dKH → meq/L alkalinity': () => of('alkalinity', '1 dkh', 'meq/L'),
  'meq/L alkalinity → mg/L CaCO3 (ppm)': () => of('alkalinity', '1 meq/L', 'ppm CaCO3'),
  'dKH → mg/L CaCO3 (ppm)': () => of('alkalinity', '1 dKH', 'ppm CaCO3'),
  'mg/L CaCO3 → dKH': () => of('alkalinity', '1 ppm'),
  'mmol/L CaCO3 equivalent → meq/L': () => of('alkalinity', '1 mmol/L CaCO3', 'meq/L'),
  'French degree fH → mg/L CaCO3': () => of('alkalinity', '1 fH', 'ppm CaCO3'),
  'Clark degree → mg/L CaCO3': () => of('alkalinity', '1 Clark', 'ppm CaCO3'),
  'mg/L Ca → mg/L CaCO3 (calcium hardness)': () => 1 / kit('Ca', '1 mg/L CaCO3'),
  'meq/L alkalinity used as CaCO3 → mg/L Ca used': CA_PER_MEQ,
  'dKH used as CaCO3 → mg/L Ca used': () => CA_PER_MEQ() * MEQ_PER_L_PER_DKH,
  'US gallon → L': () => of('volume', '1 US gallon'),
  'imperial gallon → L': () => of('volume', '1 imperial gallon'),
  'US fluid ounce → mL': () => of('volume', '1 US fl. oz.', 'mL'),
  'US cup → mL': () => of('volume', '1 US cup', 'mL'),
  'US teaspoon → mL': () => of('volume', '1 US teaspoon', 'mL'),
  'US tablespoon → mL': () => of('volume', '1 US tbsp', 'mL'),
  'metric teaspoon → mL': () => of('volume', '1 metric teaspoon', 'mL'),
  'inch → cm': () => of('length', '1 inch'),
  'foot → cm': () => of('length', '1 foot'),
  'cubic inch → L': () => of('volume', '1 cubic inch'),
  'cubic foot → L': () => of('volume', '1 cu ft'),
  'pound → g': () => of('mass', '1 pound'),
  'ounce avoirdupois → g': () => of('mass', '1 oz'),
  'US gal/h → L/h': () => of('flow', '1 US gal/h'),
  'temperature difference degF → degC': () => of('temperature', '78 °F') - of('temperature', '77 °F'),
  'NO3-N mg/L → NO3 mg/L': () => kit('NO3', '1 mg/L NO3-N'),
  'NO2-N mg/L → NO2 mg/L': () => kit('NO2', '1 mg/L NO2-N'),
  'NH3-N mg/L → NH3 mg/L': () => 1 / kit('NH3-N', '1 mg/L NH3'),
  'NH4-N mg/L → NH4 mg/L': () => 1 / kit('NH3-N', '1 mg/L NH4'),
  'PO4-P mg/L → PO4 mg/L': () => kit('PO4', '1 ppm P'),
  'P ug/L (ppb) → PO4 mg/L': () => kit('PO4', '1 ppb P'),
  'SiO2 mg/L → Si mg/L': () => kit('Si', '1 mg/L SiO2'),
  'NaHCO3 g → Na2CO3 g after baking': () => mass('Na2CO3') / (2 * mass('NaHCO3')),
  'CaCl2.2H2O g → CaCl2 g': () => mass('CaCl2') / mass('CaCl2.2H2O'),
  'mg/kg seawater → mg/L seawater S=35 25 degC': () => kit('Ca', '1 mg/kg'),
  'practical salinity → reference salinity g/kg': () => of('salinity', '1 psu', 'g/kg'),
  'PAR umol/m2/s for 1 hour → mol/m2': () => {
    const day = { kind: 'plateau', plateauH: 1, rampUpH: 0, rampDownH: 0 } as const;
    const light = dailyLight({ parUmol: of('light', '1 PAR'), day });
    return light.kind === 'daily-light' ? light.dailyLightMol : NaN;
  },
};

/** Factors that the file gives in fewer than nine digits. */
const COARSE: Readonly<Record<string, number>> = {
  'dKH → meq/L alkalinity': 2e-8,
  'mg/kg seawater → mg/L seawater S=35 25 degC': 5e-6,
};

describe('published conversions', () => {
  const rows = readReference('conversions').map((row) => ({
    row,
    name: `${textIn(row, 'from_unit')} → ${textIn(row, 'to_unit')}`,
  }));

  test.each(rows.filter(({ name }) => name !== 'degF → degC'))('$name', ({ row, name }) => {
    const convert = ROWS[name];
    if (!convert) throw new Error(`nobody converts ${name}`);
    const expected = numberIn(row, 'multiply_by');
    expect(Math.abs(convert() / expected - 1)).toBeLessThanOrEqual(COARSE[name] ?? 1e-9);
  });

  test('degF → degC, by the three examples of its row', () => {
    const row = rows.find(({ name }) => name === 'degF → degC')?.row;
    const examples = [...textIn(row ?? {}, 'derivation').matchAll(/([\d.]+) F = ([\d.]+) C/g)];
    expect(examples).toHaveLength(3);
    for (const [, fahrenheit, celsius] of examples) {
      expect(of('temperature', `${fahrenheit} F`)).toBeCloseTo(Number(celsius), 4);
    }
  });

  test('no row is left out, and no conversion is without a row', () => {
    const names = rows.map(({ name }) => name).filter((name) => name !== 'degF → degC');
    expect(Object.keys(ROWS).toSorted()).toEqual(names.toSorted());
  });
});
