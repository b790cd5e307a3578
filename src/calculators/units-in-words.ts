import { inFigures, shortly } from '../../shared/units/figures.ts';
import { unitNamed } from '../../shared/units/tables.ts';
import type { Quantity, UnitContext } from '../../shared/units/unit.ts';
import type { TankUnits } from '../tanks/tank.ts';

/** What `inUnits` can say: a quantity, the difference of two temperatures, or something poured by the millilitre. */
export type Sayable = Quantity | 'temperature-change' | 'dose-volume';

const SALINITY_UNIT = { ppt: 'ppt', SG: 'SG 25/25', 'mS/cm': 'mS/cm' } as const;
const FLOW_UNIT = { L: 'L/h', 'US gal': 'US gph', 'imp gal': 'imp gph' } as const;

/** What a gallon is to a member. */
export const gallonOf = ({ volume }: TankUnits): UnitContext['gallon'] => (volume === 'imp gal' ? 'imp gal' : 'US gal');

/** The unit that a member's bare number is in, by its id; null where everybody uses the one it is kept in. */
export function usualUnit(quantity: Quantity, units: TankUnits): string | null {
  switch (quantity) {
    case 'volume':
      return units.volume;
    case 'alkalinity':
      return units.alkalinity;
    case 'temperature':
      return units.temperature;
    case 'salinity':
      return SALINITY_UNIT[units.salinity];
    case 'flow':
      return FLOW_UNIT[units.volume];
    case 'length':
      return units.volume === 'US gal' ? 'in' : 'cm';
    case 'mass':
    case 'concentration':
    case 'strength':
    case 'conductivity':
    case 'ph':
    case 'light':
    case 'duration':
    case 'percent':
      return null;
  }
}

/**
 * An amount in the units of a member, in as many digits as can be measured: "9.0 g", "57 mL", "303 L", "1.0264 SG 25/25".
 *
 * `value` is in the unit in which the quantity is kept; a concentration is said in mg/L of whatever it counts.
 *
 * @throws RangeError when the value is not a finite number.
 */
export function inUnits(value: number, kind: Sayable, units: TankUnits): string {
  if (!Number.isFinite(value)) throw new RangeError(`a ${kind} has to be a number, got ${value}`);
  if (value < 0 && kind !== 'temperature') return `-${inUnits(-value, kind, units)}`;
  switch (kind) {
    case 'mass':
      return massInWords(value);
    case 'dose-volume':
      return metricVolume(value);
    case 'volume':
      return volumeInWords(value, units);
    case 'alkalinity':
      return alkalinityInWords(value, units);
    case 'salinity':
      return salinityInWords(value, units);
    case 'temperature':
      return `${decimals(converted(value, 'temperature', units.temperature), 1)} ${units.temperature}`;
    case 'temperature-change':
      return `${decimals(units.temperature === '°F' ? value * 1.8 : value, 1)} ${units.temperature}`;
    case 'flow':
      return rounded(value, 'flow', FLOW_UNIT[units.volume]);
    case 'length':
      return rounded(value, 'length', usualUnit('length', units) ?? 'cm');
    case 'concentration':
      return `${shortly(value)} mg/L`;
    case 'strength':
      return `${shortly(value)} g/L`;
    case 'conductivity':
      return `${decimals(value, 1)} mS/cm`;
    case 'ph':
      return `pH ${decimals(value, 2)}`;
    case 'light':
      return `${shortly(value)} µmol/m²/s`;
    case 'duration':
      return value >= 48 ? `${shortly(value / 24, 2)} days` : `${shortly(value, 2)} h`;
    case 'percent':
      return `${shortly(value, 2)}%`;
  }
}

const converted = (value: number, quantity: Quantity, id: string) =>
  unitNamed(quantity, id, { gallon: 'US gal' }).fromSi(value);
const rounded = (value: number, quantity: Quantity, id: string) => `${shortly(converted(value, quantity, id))} ${id}`;
/** Without the sign that rounding leaves on a zero. */
const decimals = (value: number, places: number) => value.toFixed(places).replace(/^-(?=[0.]+$)/, '');

/** Tenths up to 20, then whole ones, as scales and syringes show them; two digits of what is less than one. */
const measurable = (amount: number) => {
  if (amount === 0) return '0';
  if (amount < 0.995) return inFigures(amount, 2);
  return amount < 19.95 ? amount.toFixed(1) : amount < 999.5 ? amount.toFixed(0) : inFigures(amount, 3);
};

function massInWords(g: number): string {
  if (g > 0 && g < 0.0995) return `${measurable(g * 1000)} mg`;
  return g < 999.5 ? `${measurable(g)} g` : `${shortly(g / 1000)} kg`;
}

const metricVolume = (l: number) => (l < 0.9995 ? `${measurable(l * 1000)} mL` : `${shortly(l)} L`);

/** Less than half a gallon is measured with a jug, and jugs have millilitres on them. */
function volumeInWords(l: number, { volume }: TankUnits): string {
  const amount = converted(l, 'volume', volume);
  return volume === 'L' || amount < 0.5 ? metricVolume(l) : `${shortly(amount)} ${volume}`;
}

const ALKALINITY_PLACES = { dKH: 1, 'meq/L': 2, 'ppm CaCO3': 0 } as const;

function alkalinityInWords(dkh: number, { alkalinity }: TankUnits): string {
  const amount = converted(dkh, 'alkalinity', alkalinity);
  const places = ALKALINITY_PLACES[alkalinity];
  // A tenth of a small rise would be lost.
  const small = amount !== 0 && amount < 10 ** (1 - places);
  return `${small ? inFigures(amount, 2) : decimals(amount, places)} ${alkalinity}`;
}

function salinityInWords(practicalSalinity: number, { salinity }: TankUnits): string {
  const id = SALINITY_UNIT[salinity];
  const amount = converted(practicalSalinity, 'salinity', id);
  // The relations of meters end at fresh and at very salty water.
  if (id === 'ppt' || Number.isNaN(amount)) return `${decimals(practicalSalinity, 1)} ppt`;
  return `${decimals(amount, id === 'mS/cm' ? 1 : 4)} ${id}`;
}
