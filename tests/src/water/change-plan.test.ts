import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { changePlan } from '../../../src/water/change-plan.ts';
import { told } from '../../reference/worked-cases.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('a plan of changes', () => {
  test('ends on the target, and no change passes the cap of a day or the largest share', () => {
    fc.assert(
      fc.property(number(5, 100), number(0, 4), number(0.05, 0.95), number(0.5, 20), (start, newWater, way, cap) => {
        const target = start - (start - newWater) * way;
        const plan = changePlan({ start, newWater, target, capADay: cap, mostShare: 0.5 });
        if (plan.kind === 'too-many') return;
        const { after, share, oneGoMoves } = told(plan, 'plan');
        const moves = after.map((left, at) => (after[at - 1] ?? start) - left);
        expect(Math.max(...moves)).toBeLessThanOrEqual(cap + 1e-6);
        expect(share).toBeLessThanOrEqual(0.5 + 1e-9);
        expect(after.at(-1)).toBeCloseTo(target, 6);
        // No change more than is needed.
        if (oneGoMoves <= cap && way <= 0.5) expect(after).toHaveLength(1);
      }),
    );
  });

  test('goes up as well as down, towards richer new water', () => {
    const plan = told(changePlan({ start: 7.2, newWater: 9, target: 8.5, capADay: 1, mostShare: 0.5 }), 'plan');
    expect(plan.after).toHaveLength(2);
    expect(plan.after[0]!).toBeGreaterThan(7.2);
    expect(plan.after.at(-1)).toBeCloseTo(8.5, 9);
  });

  test('says so where it would take months, or lead nowhere', () => {
    const input = { newWater: 0, capADay: 0.02, mostShare: 0.5 };
    expect(changePlan({ ...input, start: 2, target: 0.05 }).kind).toBe('too-many');
    expect(changePlan({ ...input, start: 0.1, target: 0 }).kind).toBe('out-of-reach');
    expect(changePlan({ ...input, start: 0.1, target: 0.2 }).kind).toBe('out-of-reach');
    expect(changePlan({ ...input, start: 0.1, target: 0.1 }).kind).toBe('already-there');
  });
});
