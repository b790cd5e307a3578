/** A value that lies outside what a calculator can answer for. Views turn it into words with an example. */
export type OutOfRange = {
  kind: 'out-of-range';
  /** The key of the input, which ends in its unit: `volumeL`. */
  quantity: string;
  given: number;
  least: number;
  most: number;
};

/**
 * The first of the values that lies outside its range, or null. A value that is not a number is outside of every range.
 */
export function firstOutOfRange(
  values: Readonly<Record<string, number>>,
  ranges: Readonly<Record<string, readonly [least: number, most: number]>>,
): OutOfRange | null {
  for (const [quantity, [least, most]] of Object.entries(ranges)) {
    const given = values[quantity];
    if (given === undefined) continue;
    if (!(given >= least && given <= most)) return { kind: 'out-of-range', quantity, given, least, most };
  }
  return null;
}
