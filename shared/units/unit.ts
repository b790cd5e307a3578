/** What a member can be asked for. Behind it stands the unit in which the value is kept: "SI" below, though salinity and dKH are not. */
export type Quantity =
  | 'volume' // L
  | 'mass' // g
  | 'alkalinity' // dKH
  | 'salinity' // practical salinity
  | 'temperature' // °C
  | 'concentration' // mg/L of the species asked for
  | 'strength' // g/L, of a solution
  | 'conductivity' // mS/cm
  | 'ph'
  | 'light' // µmol/m²/s
  | 'flow' // L/h
  | 'length' // cm
  | 'duration' // h
  | 'percent'; // %

/** What was taken for granted in reading a unit, and has to be said. */
export type Note =
  | 'unit-assumed'
  | 'us-measure-assumed'
  | 'imperial-measure-assumed'
  | 'comma-as-thousands'
  | 'ppm-as-mg-per-l'
  | 'ppm-as-caco3'
  | 'mmol-as-meq'
  | 'sg-at-25'
  | 'compensated-to-25'
  | 'usual-density'
  | 'ammonia-as-nitrogen'
  | 'ammonia-is-all'
  | 'us-spoon-assumed'
  | 'metric-spoon-assumed'
  | 'spoon';

/** What decides about units that mean more than one thing. */
export type UnitContext = {
  /** The gallon of whoever is asking; quarts, pints and fluid ounces go with it. */
  gallon: 'US gal' | 'imp gal';
  /** What mg/L counts. */
  species?: Species;
  /** Of the water, for what is counted by its mass. */
  densityKgPerL?: number;
  /** Of a loose powder, for spoons; without it no spoon is read as a mass. */
  spoonDensityGPerMl?: number;
};

/** What concentrations are kept as. "NH3-N": all ammonia, ionised or not, counted as its nitrogen. */
export const SPECIES = ['Ca', 'Mg', 'K', 'Sr', 'I', 'NO3', 'NO2', 'NH3-N', 'PO4', 'Cu', 'Si'] as const;
export type Species = (typeof SPECIES)[number];

export type Unit = {
  /** As it is printed after an amount; read back, it is the same unit. */
  id: string;
  /** NaN where the relation does not reach. */
  toSi: (amount: number) => number;
  /** NaN where the relation does not reach. */
  fromSi: (si: number) => number;
};

export type FoundUnit =
  | { kind: 'unit'; unit: Unit; notes: readonly Note[] }
  /** The unit is known, yet it could mean several things that differ too much to guess. */
  | { kind: 'which'; ids: readonly string[] }
  /** A spoon of a powder whose density nobody gave. */
  | { kind: 'no-density' };

/** The units of one quantity. */
export type UnitTable = {
  /** The unit in which values are kept. */
  base: Unit;
  /** Words that may stand before the number and say only what is meant: "alk 8". */
  words: readonly string[];
  /** Finds a unit by what was written, folded by `foldUnit`. */
  find: (folded: string, context: UnitContext) => FoundUnit | null;
  /** Every unit that `find` knows by its id, for lists and round trips. */
  all: (context: UnitContext) => readonly Unit[];
};

/** A unit that is a multiple of the one in which values are kept. */
export const scaled = (id: string, si: number): Unit => ({
  id,
  toSi: (amount) => amount * si,
  fromSi: (value) => value / si,
});

export const found = (unit: Unit, ...notes: Note[]): FoundUnit => ({ kind: 'unit', unit, notes });

/** A table of units that always mean the same. Names are parted by spaces; a unit may have several rows, with different notes. */
export function plainTable(
  rows: readonly (readonly [unit: Unit, names: string, note?: Note])[],
  words = '',
): UnitTable {
  const byName = new Map<string, FoundUnit>();
  for (const [unit, names, note] of rows) {
    byName.set(foldUnit(unit.id), found(unit));
    for (const name of names.split(' ').filter(Boolean)) byName.set(name, note ? found(unit, note) : found(unit));
  }
  const [first] = rows;
  if (!first) throw new RangeError('a table of units needs a unit');
  return {
    base: first[0],
    words: words.split(' ').filter(Boolean),
    find: (folded) => byName.get(folded) ?? null,
    all: () => [...new Map(rows.map(([unit]) => [unit.id, unit])).values()],
  };
}

const SPELLINGS: readonly (readonly [RegExp, string])[] = [
  [/\.(?!\d)/g, ''],
  [/\bdeg(?:ree)?s?/g, ''],
  [/\bper\b/g, '/'],
  [/[\s°()^·]/g, ''],
  [/(?:litre|liter|ltr)s?/g, 'l'],
  [/gal(?:lon)?s?(?![a-z])/g, 'gal'],
  [/\/(?:hours?|hrs?)$/, '/h'],
  [/\/(?:minutes?|mins?)$/, '/min'],
];

/** A unit without what people write differently: case, spaces, dots, degree signs, spellings of the litre. */
export function foldUnit(text: string): string {
  const plain = text.toLowerCase().replaceAll('µ', 'u').replaceAll('³', '3').replaceAll('²', '2');
  return SPELLINGS.reduce((folded, [from, to]) => folded.replace(from, to), plain);
}
