import { expect, test } from 'vitest';
import { inversionsAtMost } from '../../shared/inversions.ts';

/** Every order of the numbers below `count`. */
function orders(count: number): number[][] {
  if (count === 0) return [[]];
  return orders(count - 1).flatMap((order) =>
    Array.from({ length: count }, (_, at) => order.toSpliced(at, 0, count - 1)),
  );
}
const inversions = (order: readonly number[]) =>
  order.flatMap((one, at) => order.slice(at + 1).filter((other) => other < one)).length;

test.each([2, 3, 4, 5, 6, 7])('%i readings: as counted over all orders', (count) => {
  const counts = orders(count).map(inversions);
  inversionsAtMost([count]).forEach((chance, q) => {
    expect(chance).toBeCloseTo(counts.filter((each) => each <= q).length / counts.length, 12);
  });
  expect(inversionsAtMost([count])).toHaveLength((count * (count - 1)) / 2 + 1);
});

test('groups of their own: as counted over all orders of both', () => {
  const counts = orders(4).flatMap((one) => orders(3).map((other) => inversions(one) + inversions(other)));
  inversionsAtMost([3, 4]).forEach((chance, q) => {
    expect(chance).toBeCloseTo(counts.filter((each) => each <= q).length / counts.length, 12);
  });
});

// Kendall (1938): of n = 10, S >= 23 has probability 0.023 (printed tables give 0.0233), that is 11 inversions or fewer.
test('agrees with the printed table for ten', () => {
  expect(inversionsAtMost([10])[11]).toBeCloseTo(0.0233, 4);
});

test('one reading alone has no pair, and a size must be a whole number', () => {
  expect(inversionsAtMost([1, 0])).toEqual([1]);
  expect(() => inversionsAtMost([2.5])).toThrow(RangeError);
  expect(() => inversionsAtMost([-1])).toThrow(RangeError);
});
