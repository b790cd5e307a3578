import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pumpForTurnover, turnover } from '../../shared/turnover.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

test.each(workedCases('turnover'))('$id $output', (row) => {
  const got = turnover({
    ratedLPerH: row.number('pump_rated_L_h'),
    headLossFraction: row.number('head_loss_fraction'),
    volumeL: row.number('volume_L'),
  });
  expectPass(row, told(got, 'turnover').turnoverPerH);
});

test.each(workedCases('turnover_flow'))('$id $output', (row) => {
  const got = pumpForTurnover({
    turnoverPerH: row.number('turnover_target_per_h'),
    headLossFraction: row.number('head_loss_fraction'),
    volumeL: row.number('volume_L'),
  });
  expectPass(row, told(got, 'pump').ratedLPerH);
});

test('the pump for a turnover turns the tank over that often', () => {
  const positive = (max: number) => fc.double({ min: 1, max, noNaN: true });
  fc.assert(
    fc.property(
      positive(60),
      // With the rest at its largest the pump stays below the ten million litres an hour that are allowed.
      positive(15_000),
      fc.double({ min: 0, max: 0.9, noNaN: true }),
      (turns, volumeL, loss) => {
        const { ratedLPerH } = told(pumpForTurnover({ turnoverPerH: turns, headLossFraction: loss, volumeL }), 'pump');
        const got = told(turnover({ ratedLPerH, headLossFraction: loss, volumeL }), 'turnover');
        expect(got.turnoverPerH / turns).toBeCloseTo(1, 9);
      },
    ),
  );
});

test.each([
  [{ ratedLPerH: 0, headLossFraction: 0.3, volumeL: 300 }, 'ratedLPerH'],
  [{ ratedLPerH: 3000, headLossFraction: 1, volumeL: 300 }, 'headLossFraction'],
  [{ ratedLPerH: 3000, headLossFraction: -0.1, volumeL: 300 }, 'headLossFraction'],
  [{ ratedLPerH: 3000, headLossFraction: 0.3, volumeL: 0 }, 'volumeL'],
])('%j is refused for its %s', (input, quantity) => {
  expect(turnover(input)).toMatchObject({ kind: 'out-of-range', quantity });
});
