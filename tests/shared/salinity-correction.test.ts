import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { brineDensityKgPerL } from '../../shared/brine-density.ts';
import {
  mixNewWater,
  newWaterForTarget,
  salinityAfterSwap,
  saltForSalinity,
  swapForSalinity,
} from '../../shared/salinity-correction.ts';
import { expectPass, told, workedCases, type WorkedCase } from '../reference/worked-cases.ts';

const given = ({ number }: WorkedCase) => ({
  volumeL: number('volume_L'),
  salinityNow: number('salinity_now'),
  salinityTarget: number('salinity_target'),
  temperatureC: number('t_degC'),
});

describe('worked cases (EOS-80 densities, two independent code paths each)', () => {
  test.each(workedCases('salinity_lower'))('$id $output', (row) => {
    const swap = told(swapForSalinity({ ...given(row), salinityNewWater: 0 }), 'swap');
    expectPass(row, row.output.endsWith('mass_basis') ? swap.swapL : swap.roughL);
  });

  test.each(workedCases('salinity_raise_replace'))('$id $output', (row) => {
    const swap = told(swapForSalinity({ ...given(row), salinityNewWater: row.number('salinity_new_water') }), 'swap');
    expectPass(row, row.output.endsWith('mass_basis') ? swap.swapL : swap.roughL);
  });

  test.each(workedCases('salinity_raise_salt'))('$id $output', (row) => {
    const saltFraction = row.number('salt_fraction_of_mix');
    expectPass(row, told(saltForSalinity({ ...given(row), saltFraction }), 'salt').saltMixG);
  });
});

const volume = fc.double({ min: 5, max: 5000, noNaN: true });
const salinity = fc.double({ min: 5, max: 40, noNaN: true });
const temperature = fc.double({ min: 15, max: 32, noNaN: true });

describe('salt is conserved to 1e-9', () => {
  test('by every swap for fresh or stronger water', () => {
    fc.assert(
      fc.property(volume, salinity, salinity, temperature, (volumeL, salinityNow, salinityTarget, temperatureC) => {
        fc.pre(Math.abs(salinityNow - salinityTarget) > 0.01);
        const salinityNewWater = salinityTarget < salinityNow ? 0 : 50;
        const input = { volumeL, salinityNow, salinityTarget, temperatureC };
        const { swapL } = told(swapForSalinity({ ...input, salinityNewWater }), 'swap');
        expect(swapL).toBeGreaterThan(0);
        expect(swapL).toBeLessThan(volumeL);
        const kg = (litres: number, S: number) => brineDensityKgPerL(S, temperatureC) * litres;
        const [kept, added] = [kg(volumeL - swapL, salinityNow), kg(swapL, salinityNewWater)];
        const saltIn = kept * salinityNow + added * salinityNewWater;
        const saltThere = (kept + added) * salinityTarget;
        expect(Math.abs(saltIn / saltThere - 1)).toBeLessThan(1e-9);
        expect(salinityAfterSwap({ ...input, salinityNewWater, swapL })).toBeCloseTo(salinityTarget, 9);
      }),
    );
  });

  test('by dry mix', () => {
    const share = fc.double({ min: 0.5, max: 1, noNaN: true });
    fc.assert(
      fc.property(volume, salinity, salinity, temperature, share, (volumeL, a, b, temperatureC, saltFraction) => {
        fc.pre(Math.abs(a - b) > 0.01);
        const [salinityNow, salinityTarget] = [Math.min(a, b), Math.max(a, b)];
        const input = { volumeL, salinityNow, salinityTarget, temperatureC, saltFraction };
        const { saltMixG } = told(saltForSalinity(input), 'salt');
        const waterG = 1000 * brineDensityKgPerL(salinityNow, temperatureC) * volumeL;
        const saltG = (waterG * salinityNow) / 1000 + saltMixG * saltFraction;
        expect(Math.abs((1000 * saltG) / (waterG + saltMixG) / salinityTarget - 1)).toBeLessThan(1e-9);
      }),
    );
  });

  test('by a batch of new water', () => {
    const { saltMixG, freshL } = told(
      mixNewWater({ volumeL: 50, salinityTarget: 35, temperatureC: 25, saltFraction: 0.9 }),
      'mix',
    );
    const allG = saltMixG + 1000 * brineDensityKgPerL(0, 25) * freshL;
    expect((1000 * saltMixG * 0.9) / allG).toBeCloseTo(35, 9);
    expect(allG / 1000 / brineDensityKgPerL(35, 25)).toBeCloseTo(50, 9);
  });
});

test('what was thinned with fresh water is brought back with stronger water', () => {
  fc.assert(
    fc.property(volume, salinity, salinity, temperature, (volumeL, a, b, temperatureC) => {
      fc.pre(Math.abs(a - b) > 0.01);
      const [high, low] = [Math.max(a, b), Math.min(a, b)];
      const down = told(
        swapForSalinity({ volumeL, salinityNow: high, salinityTarget: low, salinityNewWater: 0, temperatureC }),
        'swap',
      );
      const thin = salinityAfterSwap({
        volumeL,
        salinityNow: high,
        salinityNewWater: 0,
        swapL: down.swapL,
        temperatureC,
      });
      const up = told(
        swapForSalinity({ volumeL, salinityNow: thin, salinityTarget: high, salinityNewWater: 50, temperatureC }),
        'swap',
      );
      const back = salinityAfterSwap({
        volumeL,
        salinityNow: thin,
        salinityNewWater: 50,
        swapL: up.swapL,
        temperatureC,
      });
      expect(back).toBeCloseTo(high, 9);
    }),
  );
});

describe('new water', () => {
  test('that leaves a tank as it is has the salinity of the tank', () => {
    const input = { volumeL: 300, salinityNow: 34.2, salinityTarget: 34.2, temperatureC: 25, exchangedL: 30 };
    expect(told(newWaterForTarget(input), 'new-water').salinityNewWater).toBeCloseTo(34.2, 9);
  });

  test('for a target brings the tank there', () => {
    const litres = fc.double({ min: 0.1, max: 0.9, noNaN: true });
    const gap = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        volume,
        fc.double({ min: 25, max: 38, noNaN: true }),
        gap,
        temperature,
        litres,
        (volumeL, now, by, t, share) => {
          const input = {
            volumeL,
            salinityNow: now,
            salinityTarget: now + by,
            temperatureC: t,
            exchangedL: volumeL * share,
          };
          const got = newWaterForTarget(input);
          fc.pre(got.kind === 'new-water');
          const { salinityNewWater } = told(got, 'new-water');
          expect(salinityAfterSwap({ ...input, salinityNewWater, swapL: input.exchangedL })).toBeCloseTo(now + by, 7);
        },
      ),
    );
  });

  test('cannot do with a few litres what only many can', () => {
    const input = { volumeL: 300, salinityNow: 30, salinityTarget: 35, temperatureC: 25, exchangedL: 30 };
    const { reachable } = told(newWaterForTarget(input), 'beyond');
    expect(reachable).toBeGreaterThan(31.9);
    expect(reachable).toBeLessThan(32.1);
    expect(told(newWaterForTarget({ ...input, salinityTarget: 20 }), 'beyond').reachable).toBeLessThan(30);
  });

  test('cannot be more than the tank holds', () => {
    const input = { volumeL: 300, salinityNow: 34, salinityTarget: 35, temperatureC: 25, exchangedL: 301 };
    expect(newWaterForTarget(input)).toMatchObject({ kind: 'out-of-range', quantity: 'exchangedL', most: 300 });
  });
});

describe('the wrong side', () => {
  const input = { volumeL: 300, salinityNow: 35, temperatureC: 25 };
  test('fresh water does not raise, stronger water does not lower, salt does not lower', () => {
    expect(swapForSalinity({ ...input, salinityTarget: 36, salinityNewWater: 0 }).kind).toBe('wrong-side');
    expect(swapForSalinity({ ...input, salinityTarget: 33, salinityNewWater: 45 }).kind).toBe('wrong-side');
    expect(swapForSalinity({ ...input, salinityTarget: 36, salinityNewWater: 36 }).kind).toBe('wrong-side');
    expect(saltForSalinity({ ...input, salinityTarget: 33, saltFraction: 0.9 }).kind).toBe('wrong-side');
  });

  test.each([
    [{ ...input, salinityTarget: 1, salinityNewWater: 0 }, 'salinityTarget'],
    [{ ...input, salinityTarget: 43, salinityNewWater: 50 }, 'salinityTarget'],
    [{ ...input, salinityTarget: 36, salinityNewWater: 70 }, 'salinityNewWater'],
    [{ ...input, volumeL: 0, salinityTarget: 34, salinityNewWater: 0 }, 'volumeL'],
    [{ ...input, temperatureC: 78, salinityTarget: 34, salinityNewWater: 0 }, 'temperatureC'],
  ])('%j is refused for its %s', (bad, quantity) => {
    expect(swapForSalinity(bad)).toMatchObject({ kind: 'out-of-range', quantity });
  });
});
