import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  afterChanges,
  afterContinuousChange,
  changesForTarget,
  fractionForTarget,
  pumpedForTarget,
  steadyState,
} from '../../shared/water-change.ts';
import { expectPass, told, workedCases, type WorkedCase } from '../reference/worked-cases.ts';

const startAndNew = ({ number }: WorkedCase) => ({ start: number('start'), newWater: number('new_water') });

describe('worked cases (two independent code paths each)', () => {
  test.each(workedCases('water_change'))('$id $output', (row) => {
    const { number, output } = row;
    const got = told(
      afterChanges({ ...startAndNew(row), fraction: number('fraction'), changes: number('changes') }),
      'changed',
    );
    expectPass(row, output === 'final' ? got.final : got.replaced);
  });

  test.each(workedCases('water_change_continuous'))('$id $output', (row) => {
    const pumped = { pumpedL: row.number('pumped_L'), volumeL: row.number('volume_L') };
    expectPass(row, told(afterContinuousChange({ ...startAndNew(row), ...pumped }), 'changed').final);
  });

  test.each(workedCases('water_change_count'))('$id $output', (row) => {
    const { number, output } = row;
    const got = changesForTarget({ ...startAndNew(row), fraction: number('fraction'), target: number('target') });
    expectPass(row, told(got, 'changes')[output === 'changes' ? 'changes' : 'final']);
  });

  test.each(workedCases('water_change_fraction'))('$id $output', (row) => {
    const { fraction } = told(fractionForTarget({ ...startAndNew(row), target: row.number('target') }), 'fraction');
    expectPass(row, row.output === 'fraction' ? fraction : fraction * row.number('volume_L'));
  });

  test.each(workedCases('nutrient_steady_state'))('$id $output', (row) => {
    const { number, output } = row;
    const got = told(
      steadyState({
        productionPerDay: number('production_per_day'),
        intervalDays: number('interval_days'),
        fraction: number('fraction'),
        newWater: number('new_water'),
      }),
      'steady',
    );
    expectPass(row, output === 'steady_state_before_change' ? got.beforeChange : got.afterChange);
  });
});

const level = fc.double({ min: 0.01, max: 500, noNaN: true });
const share = fc.double({ min: 0.01, max: 0.95, noNaN: true });
const count = fc.integer({ min: 1, max: 40 });

describe('at any level', () => {
  test('repeated changes are one change after another', () => {
    fc.assert(
      fc.property(level, level, share, count, (start, newWater, fraction, changes) => {
        let each = start;
        for (let turn = 0; turn < changes; turn++)
          each = told(afterChanges({ start: each, newWater, fraction, changes: 1 }), 'changed').final;
        const all = told(afterChanges({ start, newWater, fraction, changes }), 'changed').final;
        expect(Math.abs(all - each)).toBeLessThan(1e-9 * Math.max(start, newWater));
      }),
    );
  });

  test('what was thinned with one water is brought back with a stronger one', () => {
    fc.assert(
      fc.property(level, share, (start, fraction) => {
        const thin = told(afterChanges({ start, newWater: 0, fraction, changes: 1 }), 'changed').final;
        const strong = (start - thin * (1 - fraction)) / fraction;
        const back = told(afterChanges({ start: thin, newWater: strong, fraction, changes: 1 }), 'changed').final;
        expect(back).toBeCloseTo(start, 8);
      }),
    );
  });

  test('the share, the number and the litres for a target lead there', () => {
    fc.assert(
      fc.property(
        level,
        level,
        share,
        fc.double({ min: 0.02, max: 0.98, noNaN: true }),
        (start, newWater, fraction, way) => {
          fc.pre(Math.abs(start - newWater) > 1e-3);
          const target = start + (newWater - start) * way;
          const input = { start, newWater, target };
          const one = told(fractionForTarget(input), 'fraction').fraction;
          expect(told(afterChanges({ ...input, fraction: one, changes: 1 }), 'changed').final).toBeCloseTo(target, 8);

          const { changes, final } = told(changesForTarget({ ...input, fraction }), 'changes');
          const past = (value: number) => (value - target) * Math.sign(newWater - start);
          expect(past(final)).toBeGreaterThan(-1e-6);
          if (changes > 1) {
            const before = told(afterChanges({ ...input, fraction, changes: changes - 1 }), 'changed').final;
            expect(past(before)).toBeLessThan(1e-6);
          }

          const { pumpedL } = told(pumpedForTarget({ ...input, volumeL: 300 }), 'pumped');
          expect(pumpedL).toBeGreaterThan(300 * one);
          const pumped = afterContinuousChange({ ...input, pumpedL, volumeL: 300 });
          expect(told(pumped, 'changed').final).toBeCloseTo(target, 8);
        },
      ),
    );
  });

  test('the steady state repeats itself', () => {
    fc.assert(
      fc.property(
        level,
        level,
        share,
        fc.double({ min: 1, max: 14, noNaN: true }),
        (grown, newWater, fraction, days) => {
          const steady = told(
            steadyState({ productionPerDay: grown, intervalDays: days, fraction, newWater }),
            'steady',
          );
          const after = told(
            afterChanges({ start: steady.beforeChange, newWater, fraction, changes: 1 }),
            'changed',
          ).final;
          expect(after / steady.afterChange).toBeCloseTo(1, 9);
          expect((after + grown * days) / steady.beforeChange).toBeCloseTo(1, 9);
        },
      ),
    );
  });
});

describe('what no change of water can do', () => {
  test('a target beyond the new water, or at it, is out of reach', () => {
    expect(fractionForTarget({ start: 40, newWater: 5, target: 4 })).toEqual({ kind: 'out-of-reach', newWater: 5 });
    expect(fractionForTarget({ start: 40, newWater: 5, target: 41 })).toEqual({ kind: 'out-of-reach', newWater: 5 });
    expect(changesForTarget({ start: 40, newWater: 5, target: 5, fraction: 0.2 }).kind).toBe('out-of-reach');
    expect(pumpedForTarget({ start: 40, newWater: 5, target: 5, volumeL: 100 }).kind).toBe('out-of-reach');
    expect(fractionForTarget({ start: 8, newWater: 8, target: 7 }).kind).toBe('out-of-reach');
  });

  test('all of the water at once reaches the new water', () => {
    expect(fractionForTarget({ start: 40, newWater: 5, target: 5 })).toEqual({ kind: 'fraction', fraction: 1 });
    expect(changesForTarget({ start: 40, newWater: 5, target: 5, fraction: 1 })).toMatchObject({
      changes: 1,
      final: 5,
    });
  });

  test('a tank at the target needs none', () => {
    expect(fractionForTarget({ start: 8, newWater: 0, target: 8 })).toEqual({ kind: 'already-there' });
  });

  test.each([
    [{ start: 40, newWater: 0, fraction: 0, changes: 1 }, 'fraction'],
    [{ start: 40, newWater: 0, fraction: 1.01, changes: 1 }, 'fraction'],
    [{ start: -1, newWater: 0, fraction: 0.1, changes: 1 }, 'start'],
    [{ start: 40, newWater: NaN, fraction: 0.1, changes: 1 }, 'newWater'],
    [{ start: 40, newWater: 0, fraction: 0.1, changes: 0 }, 'changes'],
  ])('%j is refused for its %s', (input, quantity) => {
    expect(afterChanges(input)).toMatchObject({ kind: 'out-of-range', quantity });
  });
});
