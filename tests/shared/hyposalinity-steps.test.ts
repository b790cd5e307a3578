import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hyposalinitySteps } from '../../shared/hyposalinity-steps.ts';
import { salinityAfterSwap, swapForSalinity } from '../../shared/salinity-correction.ts';
import { SPECIFIC_GRAVITY_SCALES, specificGravityFromSalinity } from '../../shared/specific-gravity.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

test.each(workedCases('hyposalinity_steps'))('$id $output', (row) => {
  const { number, output } = row;
  const { steps, dropPerStep, totalFreshL } = told(
    hyposalinitySteps({
      volumeL: number('volume_L'),
      salinityStart: number('salinity_start'),
      salinityTarget: number('salinity_target'),
      mostDropPerStep: number('max_drop_per_step'),
      temperatureC: number('t_degC'),
    }),
    'steps',
  );
  const step = /^step(\d)_fresh_L$/.exec(output);
  const got: Record<string, number> = {
    steps: steps.length,
    salinity_drop_per_step: dropPerStep,
    total_fresh_L: totalFreshL,
    SG_25_25_at_target: told(
      specificGravityFromSalinity({ practicalSalinity: steps.at(-1)!.to, ...SPECIFIC_GRAVITY_SCALES['25/25'] }),
      'specific-gravity',
    ).specificGravity,
  };
  expectPass(row, step ? steps[Number(step[1]) - 1]?.freshL : got[output]);
});

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('steps', () => {
  test('each lead to the next, none is larger than allowed, and they end on the target', () => {
    fc.assert(
      fc.property(
        number(10, 2000),
        number(25, 40),
        number(5, 24),
        number(0.5, 8),
        number(18, 30),
        (volumeL, from, to, most, t) => {
          const input = { volumeL, salinityStart: from, salinityTarget: to, mostDropPerStep: most, temperatureC: t };
          const { steps } = told(hyposalinitySteps(input), 'steps');
          let salinity = from;
          for (const step of steps) {
            expect(step.from).toBeCloseTo(salinity, 9);
            expect(step.from - step.to).toBeLessThanOrEqual(most + 1e-6);
            salinity = salinityAfterSwap({
              volumeL,
              salinityNow: salinity,
              salinityNewWater: 0,
              swapL: step.freshL,
              temperatureC: t,
            });
          }
          expect(salinity).toBeCloseTo(to, 9);
        },
      ),
    );
  });

  test('take more fresh water than one step would, the more steps the more', () => {
    const input = { volumeL: 80, salinityStart: 35, salinityTarget: 12, temperatureC: 25 };
    const one = told(swapForSalinity({ ...input, salinityNow: 35, salinityNewWater: 0 }), 'swap').swapL;
    const totals = [23, 8, 4, 2].map(
      (mostDropPerStep) => told(hyposalinitySteps({ ...input, mostDropPerStep }), 'steps').totalFreshL,
    );
    expect(totals[0]).toBeCloseTo(one, 9);
    expect(totals).toEqual([...totals].sort((a, b) => a - b));
    expect(totals[1]!).toBeGreaterThan(one);
  });

  test('of exactly the largest size are not split by rounding', () => {
    const input = { volumeL: 80, salinityStart: 35, salinityTarget: 12, mostDropPerStep: 2.3, temperatureC: 25 };
    expect(told(hyposalinitySteps(input), 'steps').steps).toHaveLength(10);
  });
});

test('a target that is not lower is told', () => {
  const input = { volumeL: 80, salinityStart: 12, salinityTarget: 35, mostDropPerStep: 4, temperatureC: 25 };
  expect(hyposalinitySteps(input)).toEqual({ kind: 'not-lower' });
});

test.each([
  [{ volumeL: 80, salinityStart: 35, salinityTarget: 1, mostDropPerStep: 4, temperatureC: 25 }, 'salinityTarget'],
  [{ volumeL: 80, salinityStart: 50, salinityTarget: 12, mostDropPerStep: 4, temperatureC: 25 }, 'salinityStart'],
  [{ volumeL: 80, salinityStart: 35, salinityTarget: 12, mostDropPerStep: 0, temperatureC: 25 }, 'mostDropPerStep'],
])('%j is refused for its %s', (input, quantity) => {
  expect(hyposalinitySteps(input)).toMatchObject({ kind: 'out-of-range', quantity });
});
