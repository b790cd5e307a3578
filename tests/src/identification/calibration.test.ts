import { expect, test } from 'vitest';
import { calibrationTable, calibrationText } from './calibration.ts';
import { sizeLikelihood } from '../../../src/identification/model.ts';
import { base, model } from './engine.ts';
import { seeded } from './seeded.ts';

const CASES = 30_000;
/** A bin with fewer cases than this says little. */
const ENOUGH = 300;

test('on simulated animals, what is said to be 80 % is so in 75 to 85 %', async ({ annotate }) => {
  const rows = calibrationTable(model, base, CASES, 20_261_201);
  const table = calibrationText(rows);
  await annotate(`\n${table}`, 'calibration');
  expect(rows.reduce((sum, row) => sum + row.cases, 0)).toBe(CASES);
  const eighty = rows.find(({ from, to }) => from < 0.8 && to > 0.8);
  expect(eighty?.cases, table).toBeGreaterThan(ENOUGH);
  expect(eighty?.observed, table).toBeGreaterThanOrEqual(0.75);
  expect(eighty?.observed, table).toBeLessThanOrEqual(0.85);
  for (const { cases, stated, observed } of rows)
    if (cases > ENOUGH) expect(Math.abs(stated - observed), table).toBeLessThan(0.05);
}, 60_000);

test.each([
  [20, 20, 15, 30],
  [20, 20, 30, 60],
  [5, 50, 40, 80],
  [5, 50, 100, 200],
  [1, 1, 2, 4],
])('an animal of %d to %d mm is said to have %d to %d mm as often as lengths spread', (low, high, from, to) => {
  const random = seeded(7);
  const wide = Math.exp(0.35 / 2);
  const draws = Array.from(
    { length: 40_000 },
    () => (low / wide) * ((high / low) * wide ** 2) ** random.next() * Math.exp(0.35 * random.normal()),
  );
  const share = draws.filter((mm) => mm > from && mm < to).length / draws.length;
  expect(sizeLikelihood([low, high], from, to)).toBeCloseTo(share, 1.7);
});
