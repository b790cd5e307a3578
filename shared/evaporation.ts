import { brineDensityKgPerL } from './brine-density.ts';
import { firstOutOfRange, type OutOfRange } from './range.ts';
import { PRACTICAL_SALINITY, TEMPERATURE_C, VOLUME_L } from './water-ranges.ts';

const RANGES = {
  volumeL: VOLUME_L,
  evaporatedL: [0, 1_000_000],
  salinityBefore: PRACTICAL_SALINITY,
  salinityAfter: PRACTICAL_SALINITY,
  temperatureC: TEMPERATURE_C,
  surfaceM2: [0.001, 10_000],
  mmPerDay: [0, 50],
} as const;

export type EvaporationInput = { volumeL: number; evaporatedL: number; salinityBefore: number; temperatureC: number };

/**
 * The salinity of a tank from which water has gone off as vapour: the salt stays.
 *
 * Relation: S₂ = ρ₁V S₁ ÷ (ρ₁V − ρ₀E); `roughSalinity` is S₁V/(V − E). What went off is what fresh water gives back.
 * Units: litres, practical salinity, °C. Source: mass balance with EOS-80 densities. Error: below that of any meter.
 */
export function afterEvaporation(
  input: EvaporationInput,
): { kind: 'evaporated'; salinity: number; roughSalinity: number; topOffL: number } | { kind: 'dry' } | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const { volumeL, evaporatedL, salinityBefore, temperatureC } = input;
  if (evaporatedL >= volumeL) return { kind: 'dry' };
  const tankKg = brineDensityKgPerL(salinityBefore, temperatureC) * volumeL;
  const goneKg = brineDensityKgPerL(0, temperatureC) * evaporatedL;
  return {
    kind: 'evaporated',
    salinity: (tankKg * salinityBefore) / (tankKg - goneKg),
    roughSalinity: (salinityBefore * volumeL) / (volumeL - evaporatedL),
    topOffL: evaporatedL,
  };
}

/**
 * Litres of fresh water that went off, by what the salinity rose: the same litres bring it back.
 *
 * Relation: E = ρ₁V(1 − S₁/S₂) ÷ ρ₀, with V the volume when full. Units, source as in {@link afterEvaporation}.
 * Error: a meter off by 0.5 is 1.4 % of the volume, which is often more than went off: the water level says it better.
 */
export function topOffForRise(input: {
  volumeL: number;
  salinityBefore: number;
  salinityAfter: number;
  temperatureC: number;
}): { kind: 'top-off'; topOffL: number } | { kind: 'not-risen' } | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const { volumeL, salinityBefore, salinityAfter, temperatureC } = input;
  if (salinityAfter <= salinityBefore) return { kind: 'not-risen' };
  const tankKg = brineDensityKgPerL(salinityBefore, temperatureC) * volumeL;
  return {
    kind: 'top-off',
    topOffL: (tankKg * (1 - salinityBefore / salinityAfter)) / brineDensityKgPerL(0, temperatureC),
  };
}

/**
 * Litres a day off a surface: 1 mm over 1 m² is 1 L.
 *
 * Units: m², mm a day. Source: geometry. Error: that of the depth a day, which fans, light and season move by half.
 */
export function evaporationADay(input: {
  surfaceM2: number;
  mmPerDay: number;
}): { kind: 'a-day'; evaporatedLPerDay: number } | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  return outside ?? { kind: 'a-day', evaporatedLPerDay: input.surfaceM2 * input.mmPerDay };
}
