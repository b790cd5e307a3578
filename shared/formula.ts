import { ATOMIC_WEIGHTS, isElement, type AtomicWeight, type ElementSymbol } from './atomic-weights.ts';

/** How many atoms of each element stand in one formula unit. */
export type Atoms = ReadonlyMap<ElementSymbol, number>;

export type FormulaRead =
  | { kind: 'formula'; atoms: Atoms }
  /** `at` counts characters from 0. */
  | { kind: 'unreadable'; at: number; expected: string };

const LONGEST = 60;
const TOKEN = /(?<element>[A-Z][a-z]?)|(?<open>[([])|(?<close>[)\]])|(?<count>\d+)|(?<dot>[.·])/y;
const COUNT = /^[1-9]\d{0,2}$/;
const CLOSING: Readonly<Record<string, string>> = { '(': ')', '[': ']' };

function add(into: Map<ElementSymbol, number>, atoms: Atoms, times: number): void {
  for (const [element, count] of atoms) into.set(element, (into.get(element) ?? 0) + count * times);
}

/**
 * The atoms in one formula unit: "CaCl2.2H2O" holds one calcium, two chlorine, four hydrogen and two oxygen.
 *
 * Reads the elements of `ATOMIC_WEIGHTS`, numbers from 1 to 999, round and square brackets, and what follows a dot (. or ·)
 * with a number before it; digits may stand below the line. No charges: an ion is written as its atoms, "SO4".
 */
export function readFormula(formula: string): FormulaRead {
  const text = formula.replace(/[₀-₉]/g, (digit) => String(digit.charCodeAt(0) - 0x2080));
  if (text.length > LONGEST) return { kind: 'unreadable', at: LONGEST, expected: `at most ${LONGEST} characters` };

  const total = new Map<ElementSymbol, number>();
  /** What is being filled: the part itself, and the brackets open in it. */
  type Level = { atoms: Map<ElementSymbol, number>; closing: string };
  let levels: Level[] = [];
  let innermost: Level = { atoms: new Map(), closing: '' };
  /** Before a part: 2 in 2H2O. */
  let multiplier: number | null = null;
  /** The element or bracket just read, which a number may still multiply. */
  let last: Atoms | null = null;
  const settle = (times: number) => {
    if (last) add(innermost.atoms, last, times);
    last = null;
  };
  const unreadable = (at: number, expected: string): FormulaRead => ({ kind: 'unreadable', at, expected });

  for (let at = 0; at <= text.length;) {
    TOKEN.lastIndex = at;
    const found = at < text.length ? TOKEN.exec(text) : null;
    if (at < text.length && !found) return unreadable(at, 'an element, a number, a bracket or a dot');
    const { element, open, close, count } = found?.groups ?? {};

    if (count !== undefined) {
      const isMultiplier = levels.length === 0 && innermost.atoms.size === 0 && multiplier === null && !last;
      if (!last && !isMultiplier) return unreadable(at, 'an element or a bracket before the number');
      if (!COUNT.test(count)) return unreadable(at, 'a number from 1 to 999');
      if (last) settle(Number(count));
      else multiplier = Number(count);
    } else {
      settle(1);
      if (element !== undefined) {
        if (!isElement(element)) return unreadable(at, `an element whose weight is known, not ${element}`);
        last = new Map([[element, 1]]);
      } else if (open !== undefined) {
        levels = [...levels, innermost];
        innermost = { atoms: new Map(), closing: CLOSING[open] ?? '' };
      } else if (close !== undefined) {
        const outer = levels.at(-1);
        if (!outer || innermost.closing !== close) return unreadable(at, 'brackets that match');
        if (innermost.atoms.size === 0) return unreadable(at, 'an element inside the brackets');
        last = innermost.atoms;
        innermost = outer;
        levels = levels.slice(0, -1);
      } else {
        // A dot, or the end: a part is complete.
        if (levels.length > 0) return unreadable(at, `${innermost.closing} before the part ends`);
        if (innermost.atoms.size === 0) return unreadable(at, 'an element');
        add(total, innermost.atoms, multiplier ?? 1);
        innermost = { atoms: new Map(), closing: '' };
        multiplier = null;
      }
    }
    at += found?.[0].length ?? 1;
  }
  return { kind: 'formula', atoms: total };
}

function atomsOf(formula: string): Atoms {
  const read = readFormula(formula);
  if (read.kind === 'formula') return read.atoms;
  throw new RangeError(`"${formula}" is no formula: at character ${read.at + 1} expected ${read.expected}`);
}

/**
 * Mass of one mole of a formula unit, crystal water included.
 *
 * M = Σ atoms × standard atomic weight.
 *
 * Units: g/mol.
 * Source: IUPAC 2021, see `ATOMIC_WEIGHTS`.
 * Error: `plusMinus`, the sum of what each element may vary by, so it is never exceeded; below 0.05 % for what keepers dose.
 *
 * @throws RangeError when the formula cannot be read; `readFormula` says where, for text that nobody has checked.
 */
export function molarMass(formula: string): AtomicWeight {
  let gPerMol = 0;
  let plusMinus = 0;
  for (const [element, count] of atomsOf(formula)) {
    gPerMol += count * ATOMIC_WEIGHTS[element].gPerMol;
    plusMinus += count * ATOMIC_WEIGHTS[element].plusMinus;
  }
  return { gPerMol, plusMinus };
}
