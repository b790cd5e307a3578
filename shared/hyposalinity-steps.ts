import { firstOutOfRange, type OutOfRange } from './range.ts';
import { swapForSalinity } from './salinity-correction.ts';
import { PRACTICAL_SALINITY, TEMPERATURE_C, VOLUME_L } from './water-ranges.ts';

const RANGES = {
  volumeL: VOLUME_L,
  salinityStart: PRACTICAL_SALINITY,
  salinityTarget: PRACTICAL_SALINITY,
  mostDropPerStep: [0.1, 40],
  temperatureC: TEMPERATURE_C,
} as const;

/** A share of a step that is rounding and not another step. */
const SLACK = 1e-9;

export type HyposalinityInput = {
  volumeL: number;
  salinityStart: number;
  salinityTarget: number;
  mostDropPerStep: number;
  temperatureC: number;
};
export type HyposalinityStep = { from: number; to: number; freshL: number };
export type HyposalinitySteps =
  | { kind: 'steps'; steps: HyposalinityStep[]; dropPerStep: number; totalFreshL: number }
  | { kind: 'not-lower' }
  | OutOfRange;

/**
 * Equal steps down to a low salinity, each by swapping tank water for fresh water.
 *
 * Relation: n = ⌈(S₁ − S₂) ÷ most⌉, each step by the mass balance of salinity-correction.ts. The litres add up to more than in
 * one go, since every step also throws away fresh water of the step before.
 * Units: litres, practical salinity, °C. Source: mass balance with EOS-80 densities. Error: that of the volume and the meter.
 */
export function hyposalinitySteps(input: HyposalinityInput): HyposalinitySteps {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const { volumeL, salinityStart, salinityTarget, mostDropPerStep, temperatureC } = input;
  const drop = salinityStart - salinityTarget;
  if (drop <= 0) return { kind: 'not-lower' };
  const count = Math.max(1, Math.ceil(drop / mostDropPerStep - SLACK));
  const at = (step: number) => (step === count ? salinityTarget : salinityStart - (drop * step) / count);
  const steps = Array.from({ length: count }, (_, step): HyposalinityStep => {
    const [from, to] = [at(step), at(step + 1)];
    const swap = swapForSalinity({
      volumeL,
      salinityNow: from,
      salinityTarget: to,
      salinityNewWater: 0,
      temperatureC,
    });
    if (swap.kind !== 'swap') throw new RangeError(`no step leads from ${from} to ${to}`);
    return { from, to, freshL: swap.swapL };
  });
  return {
    kind: 'steps',
    steps,
    dropPerStep: drop / count,
    totalFreshL: steps.reduce((sum, { freshL }) => sum + freshL, 0),
  };
}
