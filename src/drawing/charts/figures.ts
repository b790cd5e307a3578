// Numbers of charts: refused when they cannot be drawn, and written as people read them.

/** Beyond this no axis is readable. */
const LARGEST = 1e12;

export type Span = { low: number; high: number };

/** The number itself. @throws RangeError when it is not a number that can be drawn; `what` names it. */
export function drawable(what: string, value: number): number {
  if (!Number.isFinite(value) || Math.abs(value) > LARGEST) throw new RangeError(`${what} cannot be drawn: ${value}`);
  return value;
}

/** The span itself. @throws RangeError when an end cannot be drawn or the higher one comes first. */
export function drawableSpan(what: string, span: Span): Span {
  if (drawable(what, span.low) > drawable(what, span.high)) throw new RangeError(`${what} is upside down`);
  return span;
}

const three = new Intl.NumberFormat('en-GB', { maximumSignificantDigits: 3 });

/** A number in three significant digits; very large and very small ones with a power of ten. */
export function inFigures(value: number): string {
  const size = Math.abs(value);
  if (size >= 1e6 || (size > 0 && size < 1e-4)) return powered(value);
  return three.format(value + 0);
}

/** How the values of one chart are written: as fine as is needed to tell its steps apart, and no finer. */
export function figuresFor(span: number): (value: number) => string {
  const digits = Math.min(6, Math.max(0, Math.ceil(-Math.log10(Math.max(span, 1e-9) / 40))));
  const format = new Intl.NumberFormat('en-GB', { maximumFractionDigits: digits });
  return (value) => (Math.abs(value) >= 1e6 ? powered(value) : format.format(Object.is(value, -0) ? 0 : value));
}

const powered = (value: number) => value.toExponential(2).replace(/\.?0*e\+?/, 'e');

/** The lowest and highest value with some air round them, also when all are equal. */
export function airy(values: readonly number[], share: number): [number, number] {
  const [low, high] = extent(values);
  // Differences below the accuracy of the numbers themselves are none.
  const equal = high - low <= Math.max(Math.abs(low), Math.abs(high)) * 1e-9 + 1e-9;
  const air = equal ? Math.max(Math.abs(high) * 0.1, 1e-3) : (high - low) * share;
  return [low - air, high + air];
}

/** The lowest and highest of any number of values. */
export function extent(values: readonly number[]): [number, number] {
  return values.reduce<[number, number]>(([low, high], value) => [Math.min(low, value), Math.max(high, value)], [Infinity, -Infinity]); // prettier-ignore
}

/** "7 to 9", or "8" when both ends read the same. */
export function spanInWords({ low, high }: Span): string {
  const [from, to] = [inFigures(low), inFigures(high)];
  return from === to ? from : `${from} to ${to}`;
}

/** "one dose", "3 doses". */
export const counted = (count: number, one: string, many = `${one}s`) => `${count} ${count === 1 ? one : many}`;

/** Words from outside on one line, without signs that break a picture. */
export function plainWords(words: string): string {
  return words.toWellFormed().replace(/[\p{Cc}\p{Cs}\p{Cn}\p{Co}\p{Cf}\s]+/gu, ' ').trim(); // prettier-ignore
}

/** Words cut at a length, at a word where there is one. */
export function atMost(words: string, length: number): string {
  return words.length <= length ? words : `${words.slice(0, length - 2).replace(/\s+\S*$/, '')} …`;
}
