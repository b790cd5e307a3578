import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { geometricPar, lightRamp, linearPar } from '../../shared/light-ramp.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

test.each(workedCases('light_ramp'))('$id $output', (row) => {
  const { number, output } = row;
  const point = {
    startPar: number('start_PAR'),
    targetPar: number('target_PAR'),
    days: number('days'),
    day: number('day'),
  };
  const got: Record<string, number> = {
    linear_PAR: linearPar(point),
    geometric_PAR: geometricPar(point),
    linear_percent: (100 * linearPar(point)) / number('PAR_at_100_percent'),
  };
  expectPass(row, got[output]);
});

const par = fc.double({ min: 1, max: 1000, noNaN: true });

describe('a ramp', () => {
  test('rises with every step, never by more than the cap, and ends on the target', () => {
    fc.assert(
      fc.property(
        par,
        par,
        fc.double({ min: 10, max: 200, noNaN: true }),
        fc.integer({ min: 1, max: 6 }),
        (a, b, capPar, least) => {
          fc.pre(Math.abs(a - b) > 0.01);
          const [startPar, targetPar] = [Math.min(a, b), Math.max(a, b)];
          const { steps, days } = told(
            lightRamp({ startPar, targetPar, capPar, stepDays: 7, leastSteps: least }),
            'ramp',
          );
          const rises = steps.map(({ par: to }, at) => to - (steps[at - 1]?.par ?? startPar));
          expect(Math.max(...rises)).toBeLessThanOrEqual(capPar + 1e-9);
          expect(Math.min(...rises)).toBeGreaterThan(0);
          expect(steps.at(-1)!.par).toBe(targetPar);
          expect(steps.at(-1)!.day).toBe(days);
          expect(steps.length).toBeGreaterThanOrEqual(least);
          // One step fewer would break the cap, unless more were asked for.
          if (steps.length > Math.max(1, least))
            expect((targetPar - startPar) / (steps.length - 1)).toBeGreaterThan(capPar);
        },
      ),
    );
  });

  test('says each step as a share of what the lamp gives there', () => {
    const { steps } = told(
      lightRamp({ startPar: 100, targetPar: 300, capPar: 100, stepDays: 7, parAtFull: 400 }),
      'ramp',
    );
    expect(steps).toEqual([
      { day: 0, par: 200, lampShare: 0.5 },
      { day: 7, par: 300, lampShare: 0.75 },
    ]);
  });

  test('is not needed downwards, and not to be had beyond the lamp', () => {
    expect(lightRamp({ startPar: 300, targetPar: 200, capPar: 30, stepDays: 7 })).toEqual({ kind: 'not-brighter' });
    const beyond = lightRamp({ startPar: 100, targetPar: 300, capPar: 30, stepDays: 7, parAtFull: 250 });
    expect(beyond).toEqual({ kind: 'beyond-lamp', parAtFull: 250 });
    expect(lightRamp({ startPar: 1, targetPar: 3000, capPar: 0.1, stepDays: 7 }).kind).toBe('too-many-steps');
  });
});

test.each([
  [{ startPar: 0, targetPar: 300, capPar: 30, stepDays: 7 }, 'startPar'],
  [{ startPar: 100, targetPar: 9000, capPar: 30, stepDays: 7 }, 'targetPar'],
  [{ startPar: 100, targetPar: 300, capPar: 0, stepDays: 7 }, 'capPar'],
  [{ startPar: 100, targetPar: 300, capPar: 30, stepDays: 0 }, 'stepDays'],
])('%j is refused for its %s', (input, quantity) => {
  expect(lightRamp(input)).toMatchObject({ kind: 'out-of-range', quantity });
});

test('a day outside of the ramp is a mistake', () => {
  expect(() => linearPar({ startPar: 1, targetPar: 2, days: 7, day: 8 })).toThrow(RangeError);
  expect(() => geometricPar({ startPar: 0, targetPar: 2, days: 7, day: 1 })).toThrow(RangeError);
});
