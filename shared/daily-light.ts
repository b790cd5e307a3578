import { firstOutOfRange, type OutOfRange } from './range.ts';

/** Moles in an hour at 1 µmol a second: 3600 ÷ 1,000,000, exactly. */
const MOL_PER_H_PER_UMOL = 0.0036;

const RANGES = {
  parUmol: [0.1, 3000],
  plateauH: [0, 24],
  rampUpH: [0, 24],
  rampDownH: [0, 24],
  dayLengthH: [0.1, 24],
  hours: [0.01, 24],
  dailyLightMol: [0.01, 100],
} as const;

/**
 * The course of a day's light, as `parUmol` at its brightest.
 *
 * `plateau`: steady, with straight ramps before and after. `half-sine`: like the sun, from nothing to the peak and back.
 */
export type LightDay =
  { kind: 'plateau'; plateauH: number; rampUpH: number; rampDownH: number } | { kind: 'half-sine'; dayLengthH: number };

/**
 * Hours at full brightness that bring as much light as the day does.
 *
 * A straight ramp counts half of its length; a half sine counts 2/π of the day.
 */
export function equivalentHours(day: LightDay): number {
  return day.kind === 'plateau' ? day.plateauH + (day.rampUpH + day.rampDownH) / 2 : (day.dayLengthH * 2) / Math.PI;
}

/** What lies outside its range: each length by itself, then the day as a whole. */
function outsideOf(day: LightDay, values: Readonly<Record<string, number>>): OutOfRange | null {
  const lengths =
    day.kind === 'plateau'
      ? { plateauH: day.plateauH, rampUpH: day.rampUpH, rampDownH: day.rampDownH }
      : { dayLengthH: day.dayLengthH };
  const hours = Object.values(lengths).reduce((sum, each) => sum + each, 0);
  return firstOutOfRange({ ...values, ...lengths, hours }, RANGES);
}

/**
 * Light that falls in a whole day (daily light integral).
 *
 * Relation: PAR × equivalent hours × 0.0036. Units: µmol/m²/s and hours in, mol/m²/day out.
 * Source: definition of the integral; one hour of 1 µmol/m²/s is 0.0036 mol/m² exactly. Error: that of the PAR reading.
 */
export function dailyLight(input: {
  parUmol: number;
  day: LightDay;
}): { kind: 'daily-light'; dailyLightMol: number; equivalentH: number } | OutOfRange {
  const outside = outsideOf(input.day, { parUmol: input.parUmol });
  if (outside) return outside;
  const equivalentH = equivalentHours(input.day);
  return { kind: 'daily-light', dailyLightMol: input.parUmol * equivalentH * MOL_PER_H_PER_UMOL, equivalentH };
}

/** The brightness that brings a daily light: DLI ÷ (equivalent hours × 0.0036). Units and source as in {@link dailyLight}. */
export function parForDailyLight(input: {
  dailyLightMol: number;
  day: LightDay;
}): { kind: 'par'; parUmol: number; equivalentH: number } | OutOfRange {
  const outside = outsideOf(input.day, { dailyLightMol: input.dailyLightMol });
  if (outside) return outside;
  const equivalentH = equivalentHours(input.day);
  return { kind: 'par', parUmol: input.dailyLightMol / (equivalentH * MOL_PER_H_PER_UMOL), equivalentH };
}
