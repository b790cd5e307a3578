import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { editDistance } from '../../../src/knowledge/edit-distance.ts';

/** The textbook table with every cell kept: slow and plain. */
function reference(one: string, other: string): number[][] {
  const table = Array.from({ length: one.length + 1 }, () => new Array<number>(other.length + 1).fill(0));
  const cell = (row: number, column: number) => table[row]?.[column] ?? Infinity;
  for (let row = 0; row <= one.length; row += 1)
    for (let column = 0; column <= other.length; column += 1) {
      const same = one[row - 1] === other[column - 1] ? 0 : 1;
      const swapped = row > 1 && column > 1 && one[row - 1] === other[column - 2] && one[row - 2] === other[column - 1];
      const line = table[row];
      if (line)
        line[column] =
          row === 0 || column === 0
            ? row + column
            : Math.min(
                cell(row - 1, column) + 1,
                cell(row, column - 1) + 1,
                cell(row - 1, column - 1) + same,
                swapped ? cell(row - 2, column - 2) + 1 : Infinity,
              );
    }
  return table;
}

const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c', 'd'), maxLength: 48 });

describe('editDistance', () => {
  // Worked by hand; the third is the example on which Damerau's swap and Levenshtein's measure part.
  test.each([
    ['worm', 'worm', 0],
    ['worm', 'wrom', 1],
    ['ab', 'ba', 1],
    ['worm', 'wurm', 1],
    ['worm', 'worms', 1],
    ['worm', 'wor', 1],
    ['', 'worm', 4],
    ['ca', 'abc', 3],
    ['kitten', 'sitting', 3],
  ])('%s to %s is %d', (one, other, distance) => {
    expect(editDistance(one, other).whole).toBe(distance);
  });

  test('a half-typed name is at no distance from its beginning', () => {
    expect(editDistance('harle', 'harlequinshrimp')).toEqual({ whole: 10, beginning: 0 });
    expect(editDistance('halre', 'harlequinshrimp').beginning).toBe(1);
    expect(editDistance('', 'worm').beginning).toBe(0);
  });

  test('agrees with the plain table, for the whole and for the best beginning', () => {
    fc.assert(
      fc.property(word, word, (one, other) => {
        const last = reference(one, other).at(-1) ?? [];
        expect(editDistance(one, other)).toEqual({ whole: last.at(-1), beginning: Math.min(...last) });
      }),
      { numRuns: 1_000 },
    );
  });

  test('is the same both ways and never longer than the longer word', () => {
    fc.assert(
      fc.property(word, word, (one, other) => {
        const { whole } = editDistance(one, other);
        expect(editDistance(other, one).whole).toBe(whole);
        expect(whole).toBeLessThanOrEqual(Math.max(one.length, other.length));
        expect(whole === 0).toBe(one === other);
      }),
    );
  });

  test('looks at the first 48 characters of each', () => {
    const long = 'a'.repeat(48);
    expect(editDistance(`${long}bbbb`, `${long}c`).whole).toBe(0);
    expect(editDistance('b'.repeat(5_000), long).whole).toBe(48);
  });
});
