import { brineDensityKgPerL } from './brine-density.ts';
import { firstOutOfRange, type OutOfRange } from './range.ts';
import { PRACTICAL_SALINITY, TEMPERATURE_C, VOLUME_L } from './water-ranges.ts';

/** New water may be fresh, or mixed strong; above this a keeper's instrument does not reach. */
export const NEW_WATER_SALINITY = [0, 50] as const;

const RANGES = {
  volumeL: VOLUME_L,
  salinityNow: PRACTICAL_SALINITY,
  salinityTarget: PRACTICAL_SALINITY,
  salinityNewWater: NEW_WATER_SALINITY,
  temperatureC: TEMPERATURE_C,
  saltFraction: [0.3, 1],
  exchangedL: VOLUME_L,
} as const;

// Salt is counted as practical salinity in g/kg. Both sides of every balance here are, so the 0.5 % between the practical
// scale and grams cancels, but in grams of dry mix, where it is far below what the mix itself is unsure of.

type Correction = { volumeL: number; salinityNow: number; salinityTarget: number; temperatureC: number };
export type AlreadyThere = { kind: 'already-there' };

/**
 * Litres of tank water to take out and give back as new water, so that the tank lands on a salinity.
 *
 * Relation: salt by mass, x = ρ₁V(S₁ − S₂) ÷ (ρ₁(S₁ − S₂) + ρₙ(S₂ − Sₙ)); fresh water lowers, stronger water raises.
 * Units: litres, practical salinity, °C. `roughL` is V(S₁ − S₂)/(S₁ − Sₙ), the figure for the back of an envelope.
 * Source: mass balance with EOS-80 densities. Error: a reading off by 0.5 moves x by a third of the volume ÷ salinity.
 */
export function swapForSalinity(
  input: Correction & { salinityNewWater: number },
): { kind: 'swap'; swapL: number; roughL: number } | AlreadyThere | { kind: 'wrong-side' } | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const { volumeL, salinityNow, salinityTarget, salinityNewWater, temperatureC } = input;
  if (salinityNow === salinityTarget) return { kind: 'already-there' };
  const gap = salinityNow - salinityTarget;
  // The new water has to lie beyond the target, seen from the tank; at the target all of the water would have to go.
  if (Math.sign(salinityTarget - salinityNewWater) !== Math.sign(gap)) return { kind: 'wrong-side' };
  const tank = brineDensityKgPerL(salinityNow, temperatureC);
  const fresh = brineDensityKgPerL(salinityNewWater, temperatureC);
  return {
    kind: 'swap',
    swapL: (tank * volumeL * gap) / (tank * gap + fresh * (salinityTarget - salinityNewWater)),
    roughL: (volumeL * gap) / (salinityNow - salinityNewWater),
  };
}

/** The salinity of a tank after `swapL` of it were taken out and given back as new water: salt by mass. */
export function salinityAfterSwap({
  volumeL,
  salinityNow,
  salinityNewWater,
  swapL,
  temperatureC,
}: {
  volumeL: number;
  salinityNow: number;
  salinityNewWater: number;
  swapL: number;
  temperatureC: number;
}): number {
  const keptKg = brineDensityKgPerL(salinityNow, temperatureC) * (volumeL - swapL);
  const newKg = brineDensityKgPerL(salinityNewWater, temperatureC) * swapL;
  return (keptKg * salinityNow + newKg * salinityNewWater) / (keptKg + newKg);
}

/**
 * Dry salt mix that raises a tank to a salinity.
 *
 * Relation: x = m(S₂ − S₁) ÷ (1000 w − S₂), m = ρV, w the grams of salt that one gram of mix brings.
 * Units: litres, practical salinity, °C; grams out. Source: mass balance with EOS-80 densities.
 * Error: that of w: mixes hold crystal water and moisture, so a trial batch decides.
 */
export function saltForSalinity(
  input: Correction & { saltFraction: number },
): { kind: 'salt'; saltMixG: number } | AlreadyThere | { kind: 'wrong-side' } | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const { volumeL, salinityNow, salinityTarget, temperatureC, saltFraction } = input;
  if (salinityNow === salinityTarget) return { kind: 'already-there' };
  if (salinityTarget < salinityNow) return { kind: 'wrong-side' };
  const waterG = 1000 * brineDensityKgPerL(salinityNow, temperatureC) * volumeL;
  return {
    kind: 'salt',
    saltMixG: (waterG * (salinityTarget - salinityNow)) / (1000 * saltFraction - salinityTarget),
  };
}

/**
 * What salinity the new water needs so that a change of `exchangedL` lands the tank on a target; the tank's own when it is to stay.
 *
 * Relation: the balance of {@link swapForSalinity} solved for the new water, by bisection, since its density goes with it.
 * Units: litres, practical salinity, °C. Error: 1e-9 of the solution; otherwise that of the readings.
 * `beyond`: even fresh water, or the strongest that can be measured, does not reach the target with so few litres.
 */
export function newWaterForTarget(
  input: Correction & { exchangedL: number },
): { kind: 'new-water'; salinityNewWater: number } | { kind: 'beyond'; reachable: number } | OutOfRange {
  const ranges = { ...RANGES, exchangedL: [VOLUME_L[0], Math.min(VOLUME_L[1], input.volumeL)] } as const;
  const outside = firstOutOfRange({ volumeL: input.volumeL }, RANGES) ?? firstOutOfRange(input, ranges);
  if (outside) return outside;
  const after = (salinityNewWater: number) =>
    salinityAfterSwap({ ...input, salinityNewWater, swapL: input.exchangedL });
  let [low, high]: [number, number] = [...NEW_WATER_SALINITY];
  const [least, most] = [after(low), after(high)];
  if (input.salinityTarget < least) return { kind: 'beyond', reachable: least };
  if (input.salinityTarget > most) return { kind: 'beyond', reachable: most };
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (after(middle) < input.salinityTarget) low = middle;
    else high = middle;
  }
  return { kind: 'new-water', salinityNewWater: (low + high) / 2 };
}

/**
 * Dry mix and fresh water for a batch of new salt water.
 *
 * Relation: the batch weighs ρV and holds ρV·S/1000 of salt; mix = salt ÷ w, fresh water is the rest.
 * Units: litres, practical salinity, °C; grams and litres out. Source and error as in {@link saltForSalinity}.
 */
export function mixNewWater(input: {
  volumeL: number;
  salinityTarget: number;
  temperatureC: number;
  saltFraction: number;
}): { kind: 'mix'; saltMixG: number; freshL: number } | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const { volumeL, salinityTarget, temperatureC, saltFraction } = input;
  const batchKg = brineDensityKgPerL(salinityTarget, temperatureC) * volumeL;
  const saltMixG = (batchKg * salinityTarget) / saltFraction;
  return { kind: 'mix', saltMixG, freshL: (batchKg - saltMixG / 1000) / brineDensityKgPerL(0, temperatureC) };
}
