import { MM_PER } from '../length.ts';
import { celsiusFromFahrenheit, fahrenheitFromCelsius } from '../temperature.ts';
import { plainTable, scaled, type Unit, type UnitTable } from './unit.ts';
import { L_PER } from './volume.ts';

const ABSOLUTE_ZERO_F = -459.67;
const ABSOLUTE_ZERO_C = -273.15;
const FAHRENHEIT: Unit = {
  id: '°F',
  toSi: (f) => (f >= ABSOLUTE_ZERO_F && f < Infinity ? celsiusFromFahrenheit(f) : NaN),
  fromSi: (c) => (c >= ABSOLUTE_ZERO_C && c < Infinity ? fahrenheitFromCelsius(c) : NaN),
};

/** Temperature in °C. */
export const TEMPERATURE: UnitTable = plainTable(
  [
    [scaled('°C', 1), 'c celsius centigrade'],
    [FAHRENHEIT, 'f fahrenheit'],
  ],
  'temp temperature',
);

/** Light in µmol/m²/s of photosynthetically active photons, which keepers call PAR. */
export const LIGHT: UnitTable = plainTable(
  [[scaled('µmol/m²/s', 1), 'par ppfd umol umol/m2/s umol/m2s umol/m2 umolm-2s-1 umols umol/s/m2 micromol micromoles']],
  'par ppfd light',
);

/** Electrical conductivity in mS/cm. */
export const CONDUCTIVITY: UnitTable = plainTable(
  [
    [scaled('mS/cm', 1), 'ms mscm millisiemens'],
    [scaled('µS/cm', 0.001), 'us uscm microsiemens'],
    [scaled('S/m', 10), 's/m'],
  ],
  'conductivity ec cond',
);

export const PH: UnitTable = plainTable([[{ id: 'pH', toSi: (ph) => ph, fromSi: (ph) => ph }, '']], 'ph');

export const PERCENT: UnitTable = plainTable([[scaled('%', 1), '% percent pct percents']]);

/** Time in hours. */
export const DURATION: UnitTable = plainTable(
  [
    [scaled('h', 1), 'h hr hrs hour hours'],
    [scaled('min', 1 / 60), 'min mins minute minutes'],
    [scaled('days', 24), 'd day days'],
    [scaled('weeks', 168), 'w wk wks week weeks'],
  ],
  'for',
);

const cmOf = (unit: keyof typeof MM_PER) => MM_PER[unit] / 10;

/** Length in centimetres. */
export const LENGTH: UnitTable = plainTable(
  [
    [scaled('cm', 1), 'cm cms centimetre centimeter centimetres centimeters'],
    [scaled('mm', cmOf('mm')), 'mm mms millimetre millimeter millimetres millimeters'],
    [scaled('m', 100), 'm metre meter metres meters'],
    [scaled('in', cmOf('in')), "in inch inches ins \" ” ''"],
    [scaled('ft', cmOf('ft')), "ft foot feet ' ’"],
  ],
  'length width height depth',
);

const L_PER_H = { us: L_PER['US gal'], imperial: L_PER['imp gal'] };
const FLOW_TABLE = plainTable(
  [
    [scaled('L/h', 1), 'l/h lph lh l/hr'],
    [scaled('L/min', 60), 'l/min lpm l/m'],
    [scaled('mL/min', 0.06), 'ml/min mlpm'],
    [scaled('m³/h', 1000), 'm3/h'],
    [scaled('US gph', L_PER_H.us), 'usgph gphus usgal/h'],
    [scaled('imp gph', L_PER_H.imperial), 'impgph ukgph gphuk impgal/h ukgal/h imperialgph imperialgal/h'],
    [scaled('US gpm', 60 * L_PER_H.us), 'usgpm usgal/min'],
    [scaled('imp gpm', 60 * L_PER_H.imperial), 'impgpm ukgpm impgal/min ukgal/min'],
  ],
  'flow pump',
);

/** Flow in litres an hour. A gallon without a country is the gallon of whoever asks. */
export const FLOW: UnitTable = {
  ...FLOW_TABLE,
  find: (folded, context) => {
    const rate = /^(?:gph|gal\/h)$/.test(folded) ? 'gph' : /^(?:gpm|gal\/min)$/.test(folded) ? 'gpm' : null;
    if (rate === null) return FLOW_TABLE.find(folded, context);
    const imperial = context.gallon === 'imp gal';
    const known = FLOW_TABLE.find(`${imperial ? 'imp' : 'us'}${rate}`, context);
    if (known?.kind !== 'unit') return known;
    return { ...known, notes: [imperial ? 'imperial-measure-assumed' : 'us-measure-assumed'] };
  },
};

const STRENGTH_TABLE = plainTable(
  [
    [scaled('g/L', 1), 'g/l gl gram/l grams/l g/1l mg/ml g/1000ml'],
    [scaled('mg/L', 0.001), 'mgl'],
    [scaled('mg/L', 0.001), 'ppm', 'ppm-as-mg-per-l'],
    [scaled('g/100 mL', 10), 'g/100ml %w/v w/v g/dl'],
    [scaled('g/mL', 1000), 'g/ml'],
    [scaled('g/US gal', 1 / L_PER['US gal']), 'g/usgal'],
    [scaled('g/imp gal', 1 / L_PER['imp gal']), 'g/impgal g/ukgal'],
  ],
  'stock',
);

/** Strength of a solution in grams a litre. */
export const STRENGTH: UnitTable = {
  ...STRENGTH_TABLE,
  find: (folded, context) => {
    if (folded !== 'g/gal') return STRENGTH_TABLE.find(folded, context);
    const imperial = context.gallon === 'imp gal';
    const known = STRENGTH_TABLE.find(imperial ? 'g/impgal' : 'g/usgal', context);
    if (known?.kind !== 'unit') return known;
    return { ...known, notes: [imperial ? 'imperial-measure-assumed' : 'us-measure-assumed'] };
  },
};
