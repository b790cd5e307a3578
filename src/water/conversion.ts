import { readQuantity, type Quantity, type ReadQuantity, type Species } from '../../shared/quantity-text.ts';
import { inFigures, shortly } from '../../shared/units/figures.ts';
import { unitNamed } from '../../shared/units/tables.ts';
import { amountWithUnit, digitsOf } from '../../shared/units/written.ts';
import { gallonOf } from '../calculators/units-in-words.ts';
import type { TankUnits } from '../tanks/tank.ts';

/** What can be converted, in the words of the option, with the units that keepers meet. */
export type Convertible = {
  of: string;
  quantity: Quantity;
  species?: Species;
  units: readonly string[];
  /** What the factors rest on. */
  from: string;
};

const IUPAC = 'Masses: IUPAC 2021 standard atomic weights.';
const NIST = 'Exact factors (NIST SP 811).';
const concentration = (of: string, species: Species, forms: readonly string[], bases: readonly string[]) =>
  ({
    of,
    quantity: 'concentration',
    species,
    units: bases.flatMap((basis) => forms.map((form) => `${basis} ${form}`)),
    from: `${IUPAC} ppm of a kit means mg/L; per kilogram it is 2.3% less in sea water.`,
  }) as const;

export const CONVERTIBLES: readonly Convertible[] = [
  {
    of: 'volume',
    quantity: 'volume',
    units: ['L', 'US gal', 'imp gal', 'mL', 'US qt', 'US fl oz', 'ft³'],
    from: NIST,
  },
  { of: 'weight', quantity: 'mass', units: ['g', 'kg', 'mg', 'oz', 'lb'], from: NIST },
  {
    of: 'alkalinity',
    quantity: 'alkalinity',
    units: ['dKH', 'meq/L', 'ppm CaCO3', 'fH'],
    from: `1 dKH is 10 mg/L CaO (German degree, from memory). ${IUPAC}`,
  },
  {
    of: 'salinity',
    quantity: 'salinity',
    units: ['ppt', 'SG 25/25', 'SG 20/20', 'SG 60F/60F', 'mS/cm', 'g/kg'],
    from: 'PSS-78 for conductivity (UNESCO 1983), EOS-80 densities for specific gravity (Millero & Poisson 1981). mS/cm as a meter shows it that refers to 25 °C.',
  },
  { of: 'temperature', quantity: 'temperature', units: ['°C', '°F'], from: 'Exact.' },
  { of: 'length', quantity: 'length', units: ['cm', 'mm', 'in', 'ft'], from: NIST },
  { of: 'flow', quantity: 'flow', units: ['L/h', 'L/min', 'US gph', 'imp gph'], from: NIST },
  { of: 'strength of a stock', quantity: 'strength', units: ['g/L', 'g/100 mL', 'g/US gal'], from: NIST },
  concentration('nitrate', 'NO3', ['NO3', 'NO3-N'], ['mg/L', 'mg/kg']),
  concentration('nitrite', 'NO2', ['NO2', 'NO2-N'], ['mg/L', 'mg/kg']),
  concentration('ammonia', 'NH3-N', ['NH3-N', 'NH3', 'NH4'], ['mg/L']),
  concentration('phosphate', 'PO4', ['PO4', 'PO4-P', 'P2O5'], ['mg/L', 'µg/L']),
  concentration('calcium', 'Ca', ['Ca', 'CaCO3'], ['mg/L', 'mg/kg']),
  concentration('magnesium', 'Mg', ['Mg'], ['mg/L', 'mg/kg', 'mmol/L']),
  concentration('potassium', 'K', ['K'], ['mg/L', 'mg/kg', 'mmol/L']),
  concentration('strontium', 'Sr', ['Sr'], ['mg/L', 'mg/kg']),
  concentration('iodine', 'I', ['I'], ['mg/L', 'µg/L', 'µmol/L']),
  concentration('copper', 'Cu', ['Cu'], ['mg/L', 'µg/L']),
  concentration('silicon', 'Si', ['Si', 'SiO2'], ['mg/L']),
];

export type Conversion =
  | { kind: 'converted'; what: Convertible; read: ReadQuantity; sisters: string[]; byHand: string | null }
  /** The unit is used of several things. */
  | { kind: 'of-what'; what: readonly Convertible[] }
  /** A number without a unit. */
  | { kind: 'no-unit' }
  | { kind: 'unreadable'; outcome: ReturnType<typeof readQuantity> };

/** Finds out what an amount is of by its unit, and says it in all the others. */
export function convert(text: string, of: string | undefined, units: TankUnits): Conversion {
  const named = CONVERTIBLES.find((each) => each.of === of);
  const asked = named ? [named] : CONVERTIBLES;
  const outcomes = asked.map((what) => ({ what, outcome: readAs(text, what, units) }));
  const hits = outcomes.flatMap(({ what, outcome }) => {
    if (outcome.kind !== 'read') return [];
    // A bare number can only be a specific gravity, unless the member says what it is.
    const said = named !== undefined || !outcome.assumedUnit || outcome.notes.includes('sg-at-25');
    return said ? [{ what, read: outcome }] : [];
  });
  const [first, ...others] = hits;
  if (first && others.length === 0)
    return {
      kind: 'converted',
      ...first,
      sisters: sistersOf(first.what, first.read, units),
      byHand: byHand(first.what, first.read, units),
    };
  if (first) return { kind: 'of-what', what: hits.map(({ what }) => what) };
  // A number that every table would take, had it a unit.
  if (outcomes.some(({ outcome }) => outcome.kind === 'read' && outcome.assumedUnit)) return { kind: 'no-unit' };
  const telling = outcomes.find(({ outcome }) => outcome.kind === 'out-of-range') ?? outcomes[0];
  if (!telling) throw new RangeError('nothing can be converted');
  return { kind: 'unreadable', outcome: telling.outcome };
}

function readAs(text: string, { quantity, species }: Convertible, units: TankUnits) {
  const gallon = gallonOf(units);
  return quantity === 'concentration'
    ? readQuantity(text, { quantity, species: species ?? 'Ca', gallon })
    : readQuantity(text, { quantity, gallon });
}

/** Amounts that are read at a glance come first: "9.86 mL" before "0.00986 L". */
const isHandy = (amount: number) => Math.abs(amount) >= 0.01 && Math.abs(amount) < 10_000;

/** The same amount in every other unit that reaches it, handy ones first. */
function sistersOf({ quantity, species, units }: Convertible, read: ReadQuantity, member: TankUnits): string[] {
  const context = { gallon: gallonOf(member), ...(species ? { species } : {}) };
  const said = units
    .filter((id) => id !== read.unit)
    .map((id) => unitNamed(quantity, id, context))
    .map((unit) => ({ unit, amount: unit.fromSi(read.si) }))
    .filter(({ amount }) => Number.isFinite(amount));
  const handy = said.filter(({ amount }) => isHandy(amount));
  const rest = said.filter(({ amount }) => !isHandy(amount));
  return [...handy, ...rest].map(({ unit, amount }) => {
    const digits = digitsOf(unit);
    // A specific gravity keeps its zeros: 1.027 and 1.0270 are not read alike.
    return amountWithUnit(digits > 3 ? inFigures(amount, digits) : shortly(amount, 4), unit);
  });
}

/** How the first of them is worked out on paper; null where it takes an equation of state. */
function byHand({ quantity, species, units }: Convertible, read: ReadQuantity, member: TankUnits): string | null {
  if (quantity === 'salinity') return null;
  if (quantity === 'temperature')
    return read.unit === '°C' ? `${read.amount} × 1.8 + 32` : `(${read.amount} − 32) ÷ 1.8`;
  const other = units.find((id) => id !== read.unit);
  if (other === undefined) return null;
  const context = { gallon: gallonOf(member), ...(species ? { species } : {}) };
  const factor = unitNamed(quantity, other, context).fromSi(unitNamed(quantity, read.unit, context).toSi(1));
  return `${read.amount} × ${shortly(factor, 5)} = ${shortly(read.amount * factor, 4)} ${other}`;
}
