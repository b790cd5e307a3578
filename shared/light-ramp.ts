import { firstOutOfRange, type OutOfRange } from './range.ts';

const RANGES = {
  startPar: [1, 3000],
  targetPar: [1, 3000],
  capPar: [0.1, 3000],
  stepDays: [1, 60],
  leastSteps: [1, 104],
  parAtFull: [1, 5000],
} as const;

/** A ramp longer than two years is a slip of the pen. */
const MOST_STEPS = 104;

export type PointInput = { startPar: number; targetPar: number; days: number; day: number };

/**
 * Light on one day of a ramp with equal differences: a + (b − a) d ÷ N.
 *
 * Units: µmol/m²/s, days. Source: straight line. Error: none.
 *
 * @throws RangeError when the day does not lie within the ramp.
 */
export function linearPar({ startPar, targetPar, days, day }: PointInput): number {
  refuseDayOutside(days, day);
  return startPar + ((targetPar - startPar) * day) / days;
}

/**
 * Light on one day of a ramp with equal ratios: a (b ÷ a)^(d ÷ N). Gentler at first, steeper at the end.
 *
 * Units: µmol/m²/s, days. Source: geometric series. Error: none.
 *
 * @throws RangeError when the day does not lie within the ramp, or there is no light to start from.
 */
export function geometricPar({ startPar, targetPar, days, day }: PointInput): number {
  refuseDayOutside(days, day);
  if (!(startPar > 0 && targetPar > 0)) throw new RangeError(`light must be positive, got ${startPar}, ${targetPar}`);
  return startPar * (targetPar / startPar) ** (day / days);
}

function refuseDayOutside(days: number, day: number): void {
  if (!(days > 0 && day >= 0 && day <= days)) throw new RangeError(`day ${day} does not lie within ${days} days`);
}

export type LightRampInput = {
  startPar: number;
  targetPar: number;
  /** The most by which one step may rise. */
  capPar: number;
  /** Days between two steps. */
  stepDays: number;
  /** Steps to take even where the cap would allow fewer. */
  leastSteps?: number;
  /** What the lamp gives at this spot at 100 %, to say each step in per cent of it. */
  parAtFull?: number;
};
export type LightStep = { day: number; par: number; lampShare: number | null };
export type LightRamp =
  | { kind: 'ramp'; steps: LightStep[]; days: number; risePar: number }
  /** Less light needs no ramp. */
  | { kind: 'not-brighter' }
  /** The lamp does not give that much at this spot. */
  | { kind: 'beyond-lamp'; parAtFull: number }
  | { kind: 'too-many-steps'; most: number }
  | OutOfRange;

/**
 * Equal steps from today's light to a target, none above the cap; the last one is the target to the letter.
 *
 * Relation: n = ⌈(target − start) ÷ cap⌉, each step (target − start) ÷ n; the first step is taken on day 0.
 * Units: µmol/m²/s, days; `lampShare` is 0-1 of the lamp's full output, straight through nought (dimmers are close to it).
 * Source: arithmetic; cap and length are the caller's and common practice. Error: that of the two light readings.
 */
export function lightRamp(input: LightRampInput): LightRamp {
  const outside = firstOutOfRange(
    Object.fromEntries(Object.entries(input).filter(([, value]) => value !== undefined)),
    RANGES,
  );
  if (outside) return outside;
  const { startPar, targetPar, capPar, stepDays, leastSteps = 1, parAtFull } = input;
  if (targetPar <= startPar) return { kind: 'not-brighter' };
  if (parAtFull !== undefined && targetPar > parAtFull) return { kind: 'beyond-lamp', parAtFull };
  const rise = targetPar - startPar;
  const count = Math.max(Math.ceil(leastSteps), Math.ceil(rise / capPar));
  if (count > MOST_STEPS) return { kind: 'too-many-steps', most: MOST_STEPS };
  const steps = Array.from({ length: count }, (_, at): LightStep => {
    const par = at + 1 === count ? targetPar : linearPar({ startPar, targetPar, days: count, day: at + 1 });
    return { day: at * stepDays, par, lampShare: parAtFull === undefined ? null : par / parAtFull };
  });
  return { kind: 'ramp', steps, days: (count - 1) * stepDays, risePar: rise / count };
}
