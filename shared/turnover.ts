import { firstOutOfRange, type OutOfRange } from './range.ts';
import { VOLUME_L } from './water-ranges.ts';

const RANGES = {
  ratedLPerH: [1, 10_000_000],
  turnoverPerH: [0.01, 500],
  headLossFraction: [0, 0.95],
  volumeL: VOLUME_L,
} as const;

export type TurnoverInput = { ratedLPerH: number; headLossFraction: number; volumeL: number };

/**
 * How often the water passes through the pumps in an hour.
 *
 * Relation: rated flow × (1 − loss) ÷ volume. Units: litres, litres an hour; the loss 0-0.95.
 * Source: definition. Error: that of the loss, which a pump's own curve or a bucket and a watch settle.
 */
export function turnover(
  input: TurnoverInput,
): { kind: 'turnover'; turnoverPerH: number; deliveredLPerH: number } | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const deliveredLPerH = input.ratedLPerH * (1 - input.headLossFraction);
  return { kind: 'turnover', turnoverPerH: deliveredLPerH / input.volumeL, deliveredLPerH };
}

export type PumpInput = { turnoverPerH: number; headLossFraction: number; volumeL: number };

/** The rated flow that gives a turnover: turnover × volume ÷ (1 − loss). Units, source and error as in {@link turnover}. */
export function pumpForTurnover(
  input: PumpInput,
): { kind: 'pump'; ratedLPerH: number; deliveredLPerH: number } | OutOfRange {
  const outside = firstOutOfRange(input, RANGES);
  if (outside) return outside;
  const deliveredLPerH = input.turnoverPerH * input.volumeL;
  return { kind: 'pump', ratedLPerH: deliveredLPerH / (1 - input.headLossFraction), deliveredLPerH };
}
