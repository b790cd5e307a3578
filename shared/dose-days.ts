import { firstOutOfRange, type OutOfRange } from './range.ts';

/** Longest plan: half a year. Beyond it a water change is the answer, or the reading is wrong. */
const RANGES = { days: [1, 184] } as const;

export type DoseDays =
  | { kind: 'days'; days: number; risePerDay: number }
  | { kind: 'not-needed' }
  | { kind: 'cannot-lower'; fall: number }
  | OutOfRange;

/**
 * A rise over days in equal parts, as few as the cap allows.
 *
 * days = rise ÷ cap, rounded up; a rest below a billionth of a day is rounding of the computer and makes no day of its own.
 *
 * Units: any one unit for the rise, the same a day for the cap.
 * Source: definition. Error: none. Range: up to 184 days.
 *
 * @throws RangeError when the cap is not positive or a number is not finite.
 */
export function splitOverDays({ rise, capPerDay }: { rise: number; capPerDay: number }): DoseDays {
  if (!(capPerDay > 0 && Number.isFinite(capPerDay)))
    throw new RangeError(`capPerDay must be positive, got ${capPerDay}`);
  if (!Number.isFinite(rise)) throw new RangeError(`rise must be a finite number, got ${rise}`);
  if (rise === 0) return { kind: 'not-needed' };
  if (rise < 0) return { kind: 'cannot-lower', fall: -rise };
  const days = Math.max(1, Math.ceil(rise / capPerDay - 1e-9));
  return firstOutOfRange({ days }, RANGES) ?? { kind: 'days', days, risePerDay: rise / days };
}
