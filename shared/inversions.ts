/**
 * The chance that so many pairs stand in the wrong order, when every order is equally likely: the null distribution of Kendall's
 * tau, exactly. Entry `q` of the result is the probability of at most `q` inversions. Groups are ordered by themselves, and
 * pairs across groups do not count.
 *
 * The m-th of a group stands before 0 to m-1 of those already there, each equally likely; the counts add up.
 *
 * Source: Kendall M.G. (1938) A new measure of rank correlation, Biometrika 30, 81-93 (from memory); the test holds it
 * against all orders written out. Error: rounding of doubles, below 1e-12.
 *
 * @throws RangeError when a size is not a whole number from 0 up.
 */
export function inversionsAtMost(groupSizes: readonly number[]): readonly number[] {
  const key = groupSizes.toSorted((one, other) => one - other).join(' ');
  const known = KNOWN.get(key);
  if (known) return known;
  let chances = [1];
  for (const size of groupSizes) {
    if (!Number.isInteger(size) || size < 0)
      throw new RangeError(`a group has a whole number of readings, got ${size}`);
    for (let m = 2; m <= size; m += 1) chances = withOneMore(chances, m);
  }
  let sum = 0;
  const atMost = chances.map((chance) => (sum += chance));
  if (KNOWN.size >= MOST_KNOWN) KNOWN.clear();
  KNOWN.set(key, atMost);
  return atMost;
}

const KNOWN = new Map<string, readonly number[]>();
const MOST_KNOWN = 500;

/** Each count goes over to itself and the next m-1 counts in equal parts. */
function withOneMore(chances: readonly number[], m: number): number[] {
  let window = 0;
  return Array.from({ length: chances.length + m - 1 }, (_, q) => {
    window += (chances[q] ?? 0) - (chances[q - m] ?? 0);
    return window / m;
  });
}
