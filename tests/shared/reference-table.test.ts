import { describe, expect, test } from 'vitest';
import { readReference, within } from '../reference/read-csv.ts';
import { seawaterChecks, tableOf, type Check } from './reference-table.ts';

const checks = seawaterChecks();

describe('tableOf', () => {
  const check = (id: string, got: number, tolerance: Check['tolerance']): Check => ({
    file: 'list',
    quantity: 'mass, g',
    source: 'by hand',
    id,
    got,
    expected: 10,
    tolerance,
  });

  test('counts rows, and finds the worst error and the tightest tolerance apart from each other', () => {
    expect(
      tableOf([check('a', 10.5, { abs: 1 }), check('b', 10.25, { rel: 0.01 }), check('c', 10, { abs: 1 })]),
    ).toEqual([
      {
        file: 'list',
        quantity: 'mass, g',
        source: 'by hand',
        rows: 3,
        worstError: 0.5,
        worstId: 'a',
        worstShareOfTolerance: 2.5,
      },
    ]);
  });
});

describe('reference values, each within its own tolerance', () => {
  for (const row of tableOf(checks)) {
    const { file, quantity, source, rows, worstError, worstId, worstShareOfTolerance } = row;
    const worst = `worst ${worstError.toExponential(1)} at ${worstId}, ${(100 * worstShareOfTolerance).toFixed(0)} % of tolerance`;
    test(`${file}.csv · ${quantity} · ${source} · ${rows} rows · ${worst}`, () => {
      const mine = checks.filter((each) => each.file === file && each.quantity === quantity && each.source === source);
      const astray = mine.filter(({ got, expected, tolerance }) => !within(got, expected, tolerance));
      expect(astray).toEqual([]);
      expect(mine).toHaveLength(rows);
    });
  }
});

test('every row of the files is checked, but for other formulas for ammonia', () => {
  const checked = new Set(checks.map(({ file, id }) => `${file}/${id}`));
  const left = (file: string, column: string) =>
    readReference(file).filter((row) => !checked.has(`${file}/${row[column]}`));
  for (const file of ['pss78', 'density', 'specific-gravity']) expect(left(file, 'id')).toEqual([]);
  expect(left('atomic-weights', 'symbol')).toEqual([]);
  expect(left('reference-seawater', 'species')).toEqual([]);
  expect(checks.filter(({ file }) => file === 'gsw-grid')).toHaveLength(3 * 38 * 15);
  // ammonia.test.ts holds these against the default, as formulas that were found independently of it.
  expect(new Set(left('ammonia', 'id').map((row) => row['formula_or_table']))).toEqual(
    new Set(['BELL2008', 'EMERSON1975', 'CW95 free']),
  );
});
