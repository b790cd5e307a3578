import { amountInText, type Amount } from './units/amount-in-text.ts';
import { shortly } from './units/figures.ts';
import { sensibleRange } from './units/ranges.ts';
import { baseUnit, findUnit, UNIT_TABLES, unitNamed } from './units/tables.ts';
import { tidy } from './units/tidy.ts';
import type { Note, Quantity, Species, Unit, UnitContext } from './units/unit.ts';
import { amountWithUnit, exampleOf, rangeInUnit } from './units/written.ts';

export type { Note, Quantity, Species, Unit } from './units/unit.ts';

/** What a text is to be read as. */
export type Wanted = {
  /** The unit of a bare number, by its id; absent: the one in which the quantity is kept. */
  unit?: string;
  /** What a gallon is to whoever wrote it; absent: the US gallon. */
  gallon?: UnitContext['gallon'];
  /** The allowed range, both ends included, in the unit in which the quantity is kept. */
  least?: number;
  most?: number;
  /** Density of the water, for mg/kg. */
  densityKgPerL?: number;
  /** Loose density of a powder, for spoons. */
  spoonDensityGPerMl?: number;
  /** A text that would be read. */
  example?: string;
} & (
  { quantity: 'concentration'; species: Species } | { quantity: Exclude<Quantity, 'concentration'>; species?: never }
);

export type ReadQuantity = {
  kind: 'read';
  quantity: Quantity;
  /** In the unit in which the quantity is kept: L, g, dKH, practical salinity, °C, mg/L of the species, … */
  si: number;
  amount: number;
  /** The unit that was written or assumed, by its id. */
  unit: string;
  /** "80 US gal = 303 L". Read again it gives the same value. */
  understood: string;
  assumedUnit: boolean;
  /** What else was taken for granted. */
  notes: readonly Note[];
};

type Refused = {
  quantity: Quantity;
  /** What came, shortened. */
  came: string;
  /** As much as was understood: "5 L"; null when that is nothing. */
  readAs: string | null;
  /** The allowed range, in the unit in which the quantity is kept. */
  least: number;
  most: number;
  /** The same in the unit of the member: "3–5000 US gal". */
  allowed: string;
  /** A text that would be read. */
  example: string;
};

export type UnreadableWhy =
  | 'empty'
  | 'too-long'
  | 'no-number'
  | 'garbled-number'
  | 'fraction'
  | 'range'
  | 'two-numbers'
  | 'unknown-unit'
  | 'which-unit'
  | 'no-density';

export type UnreadQuantity =
  /** `choices`: units to choose from, where a unit was written that could mean several. */
  | (Refused & { kind: 'unreadable'; why: UnreadableWhy; choices: readonly string[] })
  | (Refused & { kind: 'wrong-unit'; unitOf: Quantity })
  /** `given`: NaN where no relation reaches it. `perhaps`: what a bare number may have meant: "78 °F". */
  | (Refused & { kind: 'out-of-range'; given: number; perhaps: string | null });

export type QuantityOutcome = ReadQuantity | UnreadQuantity;

/** Nobody writes an amount as long as this; what is longer is not looked at. */
const LONGEST = 120;
const MOST_SHOWN = 40;

type Ground = { wanted: Wanted; context: UnitContext; fallback: Unit; range: readonly [number, number]; came: string };

/**
 * Reads an amount with its unit as keepers write it, and says what it understood. Never throws, whatever the text.
 *
 * Units: see `shared/units/`; result in the unit in which the quantity is kept. A bare number takes `wanted.unit`, except a
 * salinity near 1, which is a specific gravity, and the outcome says so.
 *
 * @throws RangeError when `wanted` names a unit that its quantity has not, which only a programming mistake can do.
 */
export function readQuantity(text: string, wanted: Wanted): QuantityOutcome {
  const { quantity, species } = wanted;
  const context: UnitContext = { gallon: wanted.gallon ?? 'US gal', ...omitAbsent(wanted) };
  const fallback = wanted.unit === undefined ? baseUnit(quantity, context) : unitNamed(quantity, wanted.unit, context);
  const [least, most] = sensibleRange(quantity, species);
  const range = [wanted.least ?? least, wanted.most ?? most] as const;
  const ground: Ground = { wanted, context, fallback, range, came: shown(text) };
  if (text.length > LONGEST) return unreadable(ground, 'too-long');
  const plain = tidy(text);
  return plain === '' ? unreadable(ground, 'empty') : readPlain(plain, ground, true);
}

function omitAbsent({ species, densityKgPerL, spoonDensityGPerMl }: Wanted): Partial<UnitContext> {
  return {
    ...(species === undefined ? {} : { species }),
    ...(densityKgPerL === undefined ? {} : { densityKgPerL }),
    ...(spoonDensityGPerMl === undefined ? {} : { spoonDensityGPerMl }),
  };
}

const shown = (text: string) => {
  const line = text
    .slice(0, 4 * MOST_SHOWN)
    .replace(/\s+/g, ' ')
    .trim();
  return line.length > MOST_SHOWN ? `${line.slice(0, MOST_SHOWN - 1).toWellFormed()}…` : line.toWellFormed();
};

/** A word before the number, "sg 1.026", "ca: 420", "alk 8". */
const LEAD = /^([a-z°][a-z°]*(?:[0-9a-z/+-]*)?(?: [a-z]+)?)(?: *[:=] *| +)(?=[+-]?[.,]?\d)|^([a-z°]+)(?=[+-]?[.,]?\d)/;
const ABOUT = /^(?:about|approx|approximately|around|roughly|circa|~|≈|it is|is) */;
const SPAN = /^[a-z°%/ ]{0,20}(?:-|–|—|\.\.+|…|\bto\b|\bor\b|±|\+\/?-) *\d/;

function readPlain(plain: string, ground: Ground, mayCompare: boolean): QuantityOutcome {
  const { quantity } = ground.wanted;
  if (/[½¼¾⅓⅔⅛⁄]|^\d+ ?\/ ?\d|^\d+ \d+\/\d/.test(plain)) return unreadable(ground, 'fraction');
  if (/^between\b|^[<>≤≥]/.test(plain)) return unreadable(ground, 'range');
  // "ca" is short for circa, unless calcium may be meant.
  const stripped = plain.replace(ABOUT, '').replace(quantity === 'concentration' ? /^$/ : /^ca\.? /, '');
  const leadMatch = LEAD.exec(stripped);
  const lead = leadMatch?.[1] ?? leadMatch?.[2] ?? '';
  const number = amountInText(leadMatch ? stripped.slice(leadMatch[0].length) : stripped);
  if (number.kind !== 'amount') {
    return unreadable(ground, number.kind === 'garbled' ? 'garbled-number' : 'no-number');
  }
  const [written = '', ...others] = number.rest.split(/ ?= ?/);
  const isWord = UNIT_TABLES[quantity].words.includes(lead);
  const unitText = (isWord ? written : `${lead} ${written}`).trim();

  if (unitText === '') {
    return others.length > 0 ? unreadable(ground, 'two-numbers') : readBare(number.amounts, ground);
  }
  const unit = findUnit(quantity, unitText, ground.context);
  if (unit === null) return unknown(unitText, number.amounts, ground);
  if (unit.kind === 'which') return unreadable(ground, 'which-unit', numberOnly(number.amounts), unit.ids);
  if (unit.kind === 'no-density') return unreadable(ground, 'no-density', numberOnly(number.amounts));
  const read = settle(number.amounts, unit.unit, unit.notes, ground);
  if (others.length === 0 || read.kind !== 'read') return read;
  return mayCompare && others.length === 1 && sameAs(others[0] ?? '', read, ground)
    ? read
    : unreadable(ground, 'two-numbers', numberOnly(number.amounts));
}

/** Whether the other side of "80 US gal = 303 L" says the same, as far as it was rounded. */
function sameAs(text: string, read: ReadQuantity, ground: Ground): boolean {
  const other = readPlain(text, { ...ground, range: [-Infinity, Infinity] }, false);
  return other.kind === 'read' && Math.abs(other.si - read.si) <= 0.006 * Math.abs(read.si) + 1e-9;
}

function readBare(amounts: readonly Amount[], ground: Ground): QuantityOutcome {
  const { wanted, context, fallback } = ground;
  // pH has no unit that could be left out.
  if (wanted.quantity === 'ph') return settle(amounts, fallback, [], ground);
  if (wanted.quantity === 'salinity') {
    const gravity = amounts.find(({ value }) => value >= 0.98 && value < 1.1);
    const usual = fallback.id.startsWith('SG') ? fallback : unitNamed('salinity', 'SG 25/25', context);
    const notes: Note[] = fallback.id.startsWith('SG') ? ['unit-assumed'] : ['unit-assumed', 'sg-at-25'];
    if (gravity) return settle([gravity], usual, notes, ground);
    if (fallback.id.startsWith('SG')) return settle(amounts, baseUnit('salinity', context), ['unit-assumed'], ground);
  }
  const notes: Note[] = wanted.species === 'NH3-N' ? ['unit-assumed', 'ammonia-as-nitrogen'] : ['unit-assumed'];
  return settle(amounts, fallback, notes, ground);
}

/** Takes the first reading of the number that lies in the range. */
function settle(amounts: readonly Amount[], unit: Unit, notes: readonly Note[], ground: Ground): QuantityOutcome {
  const [least, most] = ground.range;
  const fits = amounts.find(({ value }) => {
    const si = unit.toSi(value);
    return Number.isFinite(si) && si >= least && si <= most;
  });
  const { value, commaAsThousands } = fits ?? amounts[0] ?? { value: NaN, commaAsThousands: false };
  const readAs = amountWithUnit(value, unit);
  const si = unit.toSi(value);
  if (!fits) {
    const assumed = notes.includes('unit-assumed');
    return {
      ...refusal(ground, readAs),
      kind: 'out-of-range',
      given: si,
      perhaps: assumed ? meant(value, ground) : null,
    };
  }
  const base = baseUnit(ground.wanted.quantity, ground.context);
  return {
    kind: 'read',
    quantity: ground.wanted.quantity,
    si,
    amount: value,
    unit: unit.id,
    understood: unit.id === base.id ? readAs : `${readAs} = ${amountWithUnit(Number(shortly(si)), base)}`,
    assumedUnit: notes.includes('unit-assumed'),
    notes: commaAsThousands ? [...notes, 'comma-as-thousands'] : notes,
  };
}

/** Units that people leave out although the number alone does not say which. */
const OFTEN_LEFT_OUT: Partial<Record<Quantity, readonly string[]>> = {
  temperature: ['°C', '°F'],
  salinity: ['ppt', 'mS/cm'],
};

/** What a bare number may have meant that is out of range in the unit that was assumed. */
function meant(value: number, { wanted, context, range: [least, most] }: Ground): string | null {
  const other = (OFTEN_LEFT_OUT[wanted.quantity] ?? [])
    .map((id) => unitNamed(wanted.quantity, id, context))
    .find((unit) => unit.toSi(value) >= least && unit.toSi(value) <= most);
  return other ? amountWithUnit(value, other) : null;
}

function unknown(unitText: string, amounts: readonly Amount[], ground: Ground): UnreadQuantity {
  const readAs = numberOnly(amounts);
  if (SPAN.test(unitText)) return unreadable(ground, 'range', readAs);
  if (/(?:^|[^a-z^/(])\d/.test(unitText)) return unreadable(ground, 'two-numbers', readAs);
  for (const other of Object.keys(UNIT_TABLES) as Quantity[]) {
    if (other === ground.wanted.quantity) continue;
    const elsewhere = findUnit(other, unitText, ground.context);
    if (elsewhere?.kind === 'unit') {
      const written = amountWithUnit(amounts[0]?.value ?? NaN, elsewhere.unit);
      return { ...refusal(ground, written), kind: 'wrong-unit', unitOf: other };
    }
  }
  return unreadable(ground, 'unknown-unit', readAs);
}

const numberOnly = (amounts: readonly Amount[]) => (amounts[0] ? String(amounts[0].value) : null);

function unreadable(
  ground: Ground,
  why: UnreadableWhy,
  readAs: string | null = null,
  choices: readonly string[] = [],
): UnreadQuantity {
  return { ...refusal(ground, readAs), kind: 'unreadable', why, choices };
}

function refusal({ wanted, context, fallback, range, came }: Ground, readAs: string | null): Refused {
  const [least, most] = range;
  return {
    quantity: wanted.quantity,
    came,
    readAs,
    least,
    most,
    allowed: rangeInUnit(least, most, fallback, baseUnit(wanted.quantity, context)),
    example: wanted.example ?? exampleOf(wanted, fallback, range, context),
  };
}
