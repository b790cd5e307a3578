import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { brineDensityKgPerL } from '../../../shared/brine-density.ts';
import { salinityAfterSwap, swapForSalinity } from '../../../shared/salinity-correction.ts';
import { salinityPlan, totalOf, type SalinityAsked } from '../../../src/water/salinity-plan.ts';
import { told } from '../../reference/worked-cases.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const salt: SalinityAsked['raiseBy'] = { kind: 'dry-salt', saltFraction: 0.9 };

describe('a correction of salinity', () => {
  test('lands on the target in steps that keep the cap, whichever way', () => {
    fc.assert(
      fc.property(number(10, 1000), number(10, 40), number(10, 40), number(0.5, 6), (volumeL, now, target, most) => {
        fc.pre(Math.abs(now - target) > 0.01);
        const raiseBy: SalinityAsked['raiseBy'] = { kind: 'stronger-water', salinity: 50 };
        const asked = { volumeL, now, target, temperatureC: 25, mostPerStep: most, raiseBy };
        const { steps, by } = told(salinityPlan(asked), 'plan');
        let salinity = now;
        for (const step of steps) {
          expect(Math.abs(step.to - step.from)).toBeLessThanOrEqual(most + 1e-6);
          salinity = salinityAfterSwap({
            volumeL,
            salinityNow: salinity,
            salinityNewWater: by === 'fresh-water' ? 0 : 50,
            swapL: step.swapL,
            temperatureC: 25,
          });
          expect(salinity).toBeCloseTo(step.to, 8);
        }
        expect(salinity).toBeCloseTo(target, 8);
      }),
    );
  });

  test('in steps swaps more than in one go', () => {
    const asked = { volumeL: 300, now: 38, target: 35, temperatureC: 25, raiseBy: salt };
    const once = told(
      swapForSalinity({ volumeL: 300, salinityNow: 38, salinityTarget: 35, salinityNewWater: 0, temperatureC: 25 }),
      'swap',
    );
    const { steps } = told(salinityPlan({ ...asked, mostPerStep: 1 }), 'plan');
    expect(steps).toHaveLength(3);
    expect(totalOf(steps)).toBeGreaterThan(once.swapL);
  });

  test('by dry salt adds the salt that is missing', () => {
    const asked = { volumeL: 300, now: 33, target: 35, temperatureC: 25, mostPerStep: 10, raiseBy: salt };
    const { steps } = told(salinityPlan(asked), 'plan');
    const waterG = 300_000 * brineDensityKgPerL(33, 25);
    const mixG = totalOf(steps);
    expect((1000 * ((waterG * 33) / 1000 + 0.9 * mixG)) / (waterG + mixG)).toBeCloseTo(35, 9);
  });

  test('needs no steps at the target, and no weak water above it', () => {
    const asked = { volumeL: 300, now: 35, target: 35, temperatureC: 25, mostPerStep: 1, raiseBy: salt };
    expect(salinityPlan(asked).kind).toBe('already-there');
    const weak = { ...asked, now: 33, raiseBy: { kind: 'stronger-water', salinity: 34.5 } as const };
    expect(salinityPlan(weak).kind).toBe('too-weak');
    expect(salinityPlan({ ...asked, target: 50 })).toMatchObject({ kind: 'out-of-range', quantity: 'salinityTarget' });
  });
});
