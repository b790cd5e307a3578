import { describe, expect, test } from 'vitest';
import { amountInterval, kitCanTell, landingInterval } from '../../shared/uncertainty.ts';

/** Numbers between 0 and 1 that are the same in every run: mulberry32 (public domain). */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Normal numbers whose 95 % lie within ±1 (Box and Muller 1958); 1.959964 is the 97.5 % point of the normal distribution. */
function normal95(random: () => number): () => number {
  return () => (Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())) / 1.959964;
}

const KITS = 40_000;
const cases = [
  { what: 'a usual tank', rise: 1.5, kitError: 0.3, volumeError: 0.1, purityError: 0 },
  { what: 'a good guess of the volume', rise: 1.5, kitError: 0.3, volumeError: 0.02, purityError: 0.01 },
  { what: 'calcium and damp flakes', rise: 50, kitError: 20, volumeError: 0.1, purityError: 0.05 },
  { what: 'magnesium, poor kit', rise: 100, kitError: 60, volumeError: 0.15, purityError: 0.03 },
  { what: 'a volume that is a guess', rise: 2, kitError: 0.2, volumeError: 0.25, purityError: 0 },
  { what: 'powder that is a guess', rise: 2, kitError: 0.2, volumeError: 0.1, purityError: 0.25 },
];

describe('simulated kits, jugs and tubs', () => {
  test.each(cases)('$what: 95 ± 2 of 100 are covered', ({ rise, kitError, volumeError, purityError }) => {
    const draw = normal95(seeded(20_261_125));
    const target = 10;
    let [needed, landed] = [0, 0];
    for (let kit = 0; kit < KITS; kit += 1) {
      // What is: the level, the litres and the purity. What is believed of them is off by the error of each.
      const [level, litres, purity] = [target - rise, 200, 0.9];
      const read = level + kitError * draw();
      const believedLitres = litres * (1 + volumeError * draw());
      const believedPurity = purity * (1 + purityError * draw());
      const doubts = { rise: target - read, kitError, volumeError, purityError };
      if (doubts.rise <= 0) continue;
      const amount = (doubts.rise * believedLitres) / believedPurity;
      const span = amountInterval({ amount, ...doubts });
      const reallyNeeded = (rise * litres) / purity;
      if (span.low <= reallyNeeded && reallyNeeded <= span.high) needed += 1;
      const lands = landingInterval({ target, ...doubts });
      const reallyReached = level + (amount * purity) / litres;
      if (lands.low <= reallyReached && reallyReached <= lands.high) landed += 1;
    }
    for (const share of [needed / KITS, landed / KITS]) {
      expect(share).toBeGreaterThan(0.93);
      expect(share).toBeLessThan(0.97);
    }
  });
});

describe('amountInterval', () => {
  // By hand: 9 g for 1.5 dKH, kit ±0.3 alone: 9 × 0.3/1.5 = 1.8 g either way.
  test('the kit alone', () => {
    const { low, high } = amountInterval({ amount: 9, rise: 1.5, kitError: 0.3 });
    expect([low, high]).toEqual([expect.closeTo(7.2, 12), expect.closeTo(10.8, 12)]);
  });
  // 9 g × √(0.2² + 0.1² + 0.05²) = 2.0622 g.
  test('independent errors add in quadrature', () => {
    const span = amountInterval({ amount: 9, rise: 1.5, kitError: 0.3, volumeError: 0.1, purityError: 0.05 });
    expect(span.high - 9).toBeCloseTo(9 * Math.sqrt(0.04 + 0.01 + 0.0025), 12);
  });
  test('nobody doses less than nothing', () => {
    expect(amountInterval({ amount: 2, rise: 0.3, kitError: 0.5 }).low).toBe(0);
  });
  test('a smaller error never makes the span wider', () => {
    const width = (kitError: number) => {
      const { low, high } = amountInterval({ amount: 9, rise: 1.5, kitError, volumeError: 0.1 });
      return high - low;
    };
    expect(width(0.1)).toBeLessThan(width(0.3));
    expect(width(0)).toBeCloseTo(1.8, 12);
  });
  test.each([
    [{ rise: 0, kitError: 0.3 }],
    [{ rise: Number.NaN, kitError: 0.3 }],
    [{ rise: 1, kitError: -0.1 }],
    [{ rise: 1, kitError: Number.POSITIVE_INFINITY }],
    [{ rise: 1, kitError: 0.3, volumeError: 0.6 }],
    [{ rise: 1, kitError: 0.3, purityError: -0.1 }],
  ])('refuses %o', (doubts) => {
    expect(() => amountInterval({ amount: 9, ...doubts })).toThrow(RangeError);
  });
});

test('a kit that is off by as much as the rise cannot tell', () => {
  expect(kitCanTell({ rise: 0.3, kitError: 0.3 })).toBe(false);
  expect(kitCanTell({ rise: 0.31, kitError: 0.3 })).toBe(true);
});
