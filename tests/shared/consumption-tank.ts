import type { ConsumptionInput } from '../../shared/consumption.ts';
import { seeded } from '../src/identification/seeded.ts';

/** A tank as it is played: nothing of the estimator's own arithmetic is used, the water is stepped forward day by day. */
export type Played = {
  readings: number;
  /** Days between readings. */
  every: number;
  perDay: number;
  kitError: number;
  /** Share of readings that are grossly wrong: a slip of the hand, an old reagent. */
  gross?: number;
  /** The size of such a slip. */
  grossSize?: number;
  /** A share of the water changed in every so many days. */
  change?: { share: number; every: number; newWater: number };
  dose?: { rise: number; every: number };
};

const STEP = 1 / 24;

/** Plays the tank by the hour and measures it; the kit errs normally, with `kitError` as its two-sigma bound. */
export function played(tank: Played, seed: number): ConsumptionInput {
  const chance = seeded(seed);
  const { readings: count, every, perDay, kitError, gross = 0, grossSize = 0, change, dose } = tank;
  let value = 8 + chance.next();
  const readings: { day: number; value: number; kitError: number }[] = [];
  const doses: { day: number; rise: number }[] = [];
  const waterChanges: { day: number; share: number; newWater: number }[] = [];
  // Somebody measures at about the same time of day, never to the minute.
  const days = Array.from({ length: count }, (_, n) => n * every + Math.round(chance.next() * 6) * STEP);
  const last = days.at(-1) ?? 0;
  for (let hour = 0; hour * STEP <= last + STEP / 2; hour += 1) {
    const day = hour * STEP;
    for (const at of days)
      if (Math.abs(at - day) < STEP / 2) {
        const slip = chance.chance(gross) ? (chance.chance(0.5) ? 1 : -1) * grossSize * (0.5 + chance.next()) : 0;
        readings.push({ day, value: value + (chance.normal() * kitError) / 1.959964 + slip, kitError });
      }
    if (dose && due(day, dose.every)) {
      value += dose.rise;
      doses.push({ day, rise: dose.rise });
    }
    if (change && due(day, change.every)) {
      value += change.share * (change.newWater - value);
      waterChanges.push({ day, share: change.share, newWater: change.newWater });
    }
    value -= perDay * STEP;
  }
  return { readings, doses, waterChanges };
}

/** Once in so many days, in the evening. */
const due = (day: number, every: number) => Math.abs((day % every) - 0.75) < STEP / 2;
