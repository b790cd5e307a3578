import { found, foldUnit, plainTable, scaled, type FoundUnit, type UnitContext, type UnitTable } from './unit.ts';

/**
 * Litres in one unit. Every factor is exact.
 *
 * Source: NIST Special Publication 811 (US gallon 231 cubic inches, inch 2.54 cm); UK Weights and Measures Act 1985
 * (imperial gallon). The metric teaspoon is 5 mL by common practice.
 */
export const L_PER = {
  L: 1,
  mL: 0.001,
  'm³': 1000,
  'US gal': 3.785411784,
  'imp gal': 4.54609,
  'in³': 0.016387064,
  'ft³': 28.316846592,
} as const;

const US_FL_OZ = L_PER['US gal'] / 128;
const US_TSP = US_FL_OZ / 6;

const TABLE = plainTable(
  [
    [scaled('L', 1), 'l ls'],
    [scaled('mL', L_PER.mL), 'ml mls millil cc cm3 ccm'],
    [scaled('cL', 0.01), 'cl centil'],
    [scaled('dL', 0.1), 'dl decil'],
    [scaled('m³', L_PER['m³']), 'm3 cbm cubicmetre cubicmeter cubicmetres cubicmeters'],
    [scaled('US gal', L_PER['US gal']), 'usgal galus usg ugal americangal'],
    [scaled('imp gal', L_PER['imp gal']), 'impgal imperialgal ukgal galuk galimp igal brgal britishgal'],
    [scaled('US qt', L_PER['US gal'] / 4), 'usqt usquart usquarts'],
    [scaled('imp qt', L_PER['imp gal'] / 4), 'impqt ukqt ukquart ukquarts imperialquart imperialquarts'],
    [scaled('US pt', L_PER['US gal'] / 8), 'uspt uspint uspints'],
    [scaled('imp pt', L_PER['imp gal'] / 8), 'imppt ukpt ukpint ukpints imperialpint imperialpints'],
    [scaled('US fl oz', US_FL_OZ), 'usfloz flozus usfluidounce usfluidounces usoz'],
    [scaled('imp fl oz', L_PER['imp gal'] / 160), 'impfloz ukfloz flozuk imperialfloz ukfluidounce ukfluidounces'],
    [scaled('US cup', L_PER['US gal'] / 16), 'uscup uscups'],
    [scaled('metric cup', 0.25), 'metriccup metriccups'],
    [scaled('in³', L_PER['in³']), 'in3 cuin cubicinch cubicinches cubicin'],
    [scaled('ft³', L_PER['ft³']), 'ft3 cuft cubicfoot cubicfeet cubicft'],
    [scaled('US tsp', US_TSP), 'ustsp usteaspoon usteaspoons', 'spoon'],
    [scaled('metric tsp', 0.005), 'metrictsp metricteaspoon metricteaspoons', 'spoon'],
    [scaled('US tbsp', 3 * US_TSP), 'ustbsp ustablespoon ustablespoons', 'spoon'],
    [scaled('metric tbsp', 0.015), 'metrictbsp metrictablespoon metrictablespoons', 'spoon'],
  ],
  'volume tank water net',
);

/** Names that mean one thing in the United States and another elsewhere. */
const BY_COUNTRY: readonly (readonly [names: string, us: string, imperial: string])[] = [
  ['gal', 'US gal', 'imp gal'],
  ['qt qts quart quarts', 'US qt', 'imp qt'],
  ['pt pts pint pints', 'US pt', 'imp pt'],
  ['floz fluidounce fluidounces oz', 'US fl oz', 'imp fl oz'],
];
const SPOONS: readonly (readonly [names: string, us: string, metric: string])[] = [
  ['tsp tsps teaspoon teaspoons', 'US tsp', 'metric tsp'],
  ['tbsp tbsps tbs tablespoon tablespoons', 'US tbsp', 'metric tbsp'],
];
const pairs = (rows: typeof BY_COUNTRY) =>
  new Map(rows.flatMap(([names, us, other]) => names.split(' ').map((name) => [name, [us, other] as const])));
const LOCAL = pairs(BY_COUNTRY);
const LOCAL_SPOONS = pairs(SPOONS);

const unitOf = (id: string) => {
  const known = TABLE.find(foldUnit(id), { gallon: 'US gal' });
  if (known?.kind !== 'unit') throw new RangeError(`no unit of volume is called ${id}`);
  return known.unit;
};

/** A spoon by its name, as a volume. Level, and even so only a rough measure. */
export function findSpoon(folded: string, { gallon }: Pick<UnitContext, 'gallon'>): FoundUnit | null {
  const plain = folded.replace(/^level/, '');
  const local = LOCAL_SPOONS.get(plain);
  if (local) {
    return gallon === 'US gal'
      ? found(unitOf(local[0]), 'us-spoon-assumed', 'spoon')
      : found(unitOf(local[1]), 'metric-spoon-assumed', 'spoon');
  }
  return /^(us|metric)t/.test(plain) ? TABLE.find(plain, { gallon }) : null;
}

/** Volume in litres. A gallon without a country is the gallon of whoever asks. */
export const VOLUME: UnitTable = {
  ...TABLE,
  find: (folded, context) => {
    const local = LOCAL.get(folded);
    if (local) {
      return context.gallon === 'US gal'
        ? found(unitOf(local[0]), 'us-measure-assumed')
        : found(unitOf(local[1]), 'imperial-measure-assumed');
    }
    if (folded === 'cup' || folded === 'cups') return found(unitOf('US cup'), 'us-measure-assumed');
    return findSpoon(folded, context) ?? TABLE.find(folded, context);
  },
};
