import { describe, expect, test } from 'vitest';
import { splitOverDays } from '../../shared/dose-days.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

describe('splitOverDays', () => {
  test.each(workedCases('dose_split'))('$id $output', (row) => {
    const split = told(splitOverDays({ rise: row.number('rise'), capPerDay: row.number('max_per_day') }), 'days');
    const dosePerDay = (row.number('total_dose') * split.risePerDay) / row.number('rise');
    expectPass(row, row.output === 'days' ? split.days : dosePerDay);
  });

  // 1.1 / 0.1 is 11.000000000000002 for a computer; it is eleven days for everybody else.
  test.each([
    [1.1, 0.1, 11],
    [0.7, 0.1, 7],
    [1, 1, 1],
    [1.01, 1, 2],
    [0.001, 1, 1],
  ])('a rise of %f under a cap of %f takes %i days', (rise, capPerDay, days) => {
    expect(splitOverDays({ rise, capPerDay })).toEqual({ kind: 'days', days, risePerDay: rise / days });
  });

  test('knows when there is nothing to raise, and when it would take too long', () => {
    expect(splitOverDays({ rise: 0, capPerDay: 1 })).toEqual({ kind: 'not-needed' });
    expect(splitOverDays({ rise: -2, capPerDay: 1 })).toEqual({ kind: 'cannot-lower', fall: 2 });
    expect(splitOverDays({ rise: 185, capPerDay: 1 })).toMatchObject({
      kind: 'out-of-range',
      quantity: 'days',
      given: 185,
    });
    for (const capPerDay of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => splitOverDays({ rise: 1, capPerDay })).toThrow(RangeError);
    expect(() => splitOverDays({ rise: Number.NaN, capPerDay: 1 })).toThrow(RangeError);
  });
});
