import { firstOutOfRange, type OutOfRange } from './range.ts';
import { VOLUME_L } from './water-ranges.ts';

/** No change at all is no change, and a whole tank at once is the most there is. */
const RANGES = {
  fraction: [0.001, 1],
  changes: [1, 1000],
  start: [0, 1e6],
  newWater: [0, 1e6],
  target: [0, 1e6],
  volumeL: VOLUME_L,
  pumpedL: [0, 1e7],
  intervalDays: [0.1, 365],
  productionPerDay: [0, 1e6],
} as const;

export type WaterChangeInput = { start: number; newWater: number; fraction: number; changes: number };
export type Changed = {
  kind: 'changed';
  /** What the water holds after the last change. */
  final: number;
  /** The share of the first water that is gone by then: three changes of 20 % replace 48.8 %, not 60 %. */
  replaced: number;
};

/**
 * What is left after equal water changes, one after another.
 *
 * Relation: C = Cₙ + (C₀ − Cₙ)(1 − f)ⁿ, with C₀ in the tank, Cₙ in the new water, f the share changed.
 * Units: `start` and `newWater` in one and the same unit of any dissolved substance; `fraction` 0-1.
 * Source: mass balance of a well-mixed tank. Error: none but the mixing; what rock gives back afterwards is not in it.
 */
export function afterChanges(input: WaterChangeInput): Changed | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const left = (1 - input.fraction) ** input.changes;
  return { kind: 'changed', final: input.newWater + (input.start - input.newWater) * left, replaced: 1 - left };
}

export type ContinuousChangeInput = { start: number; newWater: number; pumpedL: number; volumeL: number };

/**
 * What is left while new water is pumped in and as much runs out, at one volume all the time.
 *
 * Relation: C = Cₙ + (C₀ − Cₙ) exp(−pumped ÷ volume): some new water leaves again, so it takes more than a change in one go.
 * Units and error as in {@link afterChanges}; litres. Source: mass balance of a well-mixed tank.
 */
export function afterContinuousChange(input: ContinuousChangeInput): Changed | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const left = Math.exp(-input.pumpedL / input.volumeL);
  return { kind: 'changed', final: input.newWater + (input.start - input.newWater) * left, replaced: 1 - left };
}

/** The tank is at the target already, or the new water lies on the wrong side of it: no change can reach it. */
export type NotByChanging = { kind: 'already-there' } | { kind: 'out-of-reach'; newWater: number };

/** How much of the difference to the new water may be left, or why changing water does not lead there. */
function shareLeft({ start, newWater, target }: { start: number; newWater: number; target: number }) {
  if (target === start) return { kind: 'already-there' } as const;
  const left = (target - newWater) / (start - newWater);
  return left >= 0 && left < 1 ? ({ kind: 'left', left } as const) : ({ kind: 'out-of-reach', newWater } as const);
}

export type TargetInput = { start: number; newWater: number; target: number };

/**
 * The share of the tank to change in one go so that it lands on the target.
 *
 * Relation: f = (C₀ − Cₜ)/(C₀ − Cₙ). Units, source and error as in {@link afterChanges}.
 */
export function fractionForTarget(
  input: TargetInput,
): { kind: 'fraction'; fraction: number } | NotByChanging | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const share = shareLeft(input);
  return share.kind === 'left' ? { kind: 'fraction', fraction: 1 - share.left } : share;
}

/** Lets a target that is met to within rounding count as met, where the logarithm ends a hair above a whole number. */
const WHOLE_NUMBER_SLACK = 1e-9;

/**
 * How many equal changes reach the target or pass it.
 *
 * Relation: n = ⌈ln((Cₜ − Cₙ)/(C₀ − Cₙ)) ÷ ln(1 − f)⌉. A target equal to the new water is reached only by changing everything.
 * Units, source and error as in {@link afterChanges}.
 */
export function changesForTarget(
  input: TargetInput & { fraction: number },
): { kind: 'changes'; changes: number; final: number } | NotByChanging | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const share = shareLeft(input);
  if (share.kind !== 'left') return share;
  const { start, newWater, fraction } = input;
  if (fraction === 1) return { kind: 'changes', changes: 1, final: newWater };
  if (share.left === 0) return { kind: 'out-of-reach', newWater };
  const changes = Math.max(1, Math.ceil(Math.log(share.left) / Math.log(1 - fraction) - WHOLE_NUMBER_SLACK));
  return { kind: 'changes', changes, final: newWater + (start - newWater) * (1 - fraction) ** changes };
}

/**
 * Litres to pump through, at one volume, until the target is reached.
 *
 * Relation: pumped = −V ln((Cₜ − Cₙ)/(C₀ − Cₙ)). Units, source and error as in {@link afterContinuousChange}.
 */
export function pumpedForTarget(
  input: TargetInput & { volumeL: number },
): { kind: 'pumped'; pumpedL: number } | NotByChanging | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const share = shareLeft(input);
  if (share.kind !== 'left') return share;
  if (share.left === 0) return { kind: 'out-of-reach', newWater: input.newWater };
  return { kind: 'pumped', pumpedL: -input.volumeL * Math.log(share.left) };
}

export type SteadyStateInput = { productionPerDay: number; intervalDays: number; fraction: number; newWater: number };

/**
 * Where a substance settles that grows by the same amount every day and is thinned by the same change every few days.
 *
 * Relation: before a change Cₙ + pT/f, after it that less pT. Units: as in {@link afterChanges}, and days.
 * Source: the fixed point of {@link afterChanges} with growth. Error: uptake by algae, rock and bacteria is not in it.
 */
export function steadyState(
  input: SteadyStateInput,
): { kind: 'steady'; beforeChange: number; afterChange: number } | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const grown = input.productionPerDay * input.intervalDays;
  const beforeChange = input.newWater + grown / input.fraction;
  return { kind: 'steady', beforeChange, afterChange: beforeChange - grown };
}
