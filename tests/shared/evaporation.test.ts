import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { afterEvaporation, evaporationADay, topOffForRise } from '../../shared/evaporation.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

test.each(workedCases('evaporation'))('$id $output', (row) => {
  const { number, output } = row;
  const got = told(
    afterEvaporation({
      volumeL: number('volume_L'),
      evaporatedL: number('evaporated_L'),
      salinityBefore: number('salinity_before'),
      temperatureC: number('t_degC'),
    }),
    'evaporated',
  );
  const results: Record<string, number> = {
    salinity_after_mass_basis: got.salinity,
    salinity_after_volume_approx: got.roughSalinity,
    topoff_fresh_L: got.topOffL,
  };
  expectPass(row, results[output]);
});

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('evaporation', () => {
  test('is read back from the salinity to which it led', () => {
    fc.assert(
      fc.property(number(10, 5000), number(0.001, 0.1), number(5, 37), number(15, 32), (volumeL, share, S, t) => {
        const tank = { volumeL, salinityBefore: S, temperatureC: t };
        const { salinity } = told(afterEvaporation({ ...tank, evaporatedL: volumeL * share }), 'evaporated');
        const { topOffL } = told(topOffForRise({ ...tank, salinityAfter: salinity }), 'top-off');
        expect(topOffL / (volumeL * share)).toBeCloseTo(1, 8);
      }),
    );
  });

  test('of twice the water raises salinity more than twice as much', () => {
    const after = (evaporatedL: number) =>
      told(afterEvaporation({ volumeL: 250, evaporatedL, salinityBefore: 35, temperatureC: 25 }), 'evaporated')
        .salinity;
    expect(after(12) - 35).toBeGreaterThan(2 * (after(6) - 35));
  });

  test('of one millimetre over a square metre is a litre', () => {
    expect(evaporationADay({ surfaceM2: 1, mmPerDay: 1 })).toEqual({ kind: 'a-day', evaporatedLPerDay: 1 });
  });
});

test('a tank cannot lose more than it holds, and a salinity that did not rise needs no fresh water', () => {
  expect(afterEvaporation({ volumeL: 20, evaporatedL: 20, salinityBefore: 35, temperatureC: 25 }).kind).toBe('dry');
  const input = { volumeL: 20, salinityBefore: 35, salinityAfter: 35, temperatureC: 25 };
  expect(topOffForRise(input).kind).toBe('not-risen');
});

test.each([
  [{ volumeL: 250, evaporatedL: -1, salinityBefore: 35, temperatureC: 25 }, 'evaporatedL'],
  [{ volumeL: 250, evaporatedL: 6, salinityBefore: 1, temperatureC: 25 }, 'salinityBefore'],
  [{ volumeL: NaN, evaporatedL: 6, salinityBefore: 35, temperatureC: 25 }, 'volumeL'],
])('%j is refused for its %s', (input, quantity) => {
  expect(afterEvaporation(input)).toMatchObject({ kind: 'out-of-range', quantity });
});
