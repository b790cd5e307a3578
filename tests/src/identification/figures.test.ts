import { expect, test } from 'vitest';
import { calibrationTable, calibrationText } from './calibration.ts';
import { base, identifier, model } from './engine.ts';
import { keyFigures, keyRuns, keyText } from './key-simulation.ts';

test('what is stated as 80 % holds in 75 to 85 % of simulated animals', () => {
  const rows = calibrationTable(model, base, 20_000, 20261125);
  const row = rows.find(({ from }) => Math.abs(from - 0.75) < 1e-9);
  expect(row?.cases, calibrationText(rows)).toBeGreaterThan(100);
  expect(row?.observed, calibrationText(rows)).toBeGreaterThanOrEqual(0.75);
  expect(row?.observed, calibrationText(rows)).toBeLessThanOrEqual(0.85);
});

test('the key: usually five questions or fewer, and next to nothing harmful is left', () => {
  const figures = keyFigures(keyRuns(identifier, 1, 0.1, 7));
  expect(figures.medianWeighted, keyText(figures)).toBeLessThanOrEqual(5);
  expect(figures.withinFive, keyText(figures)).toBeGreaterThanOrEqual(0.5);
});
