import { DOSE_RANGES, MOST_RISE_DKH, MOST_RISE_MG_PER_L } from './dose-ranges.ts';
import { firstOutOfRange, type OutOfRange } from './range.ts';
import { bringsPerGram, ION_KEYS, type Ion } from './reagent.ts';
import { MEQ_PER_L_PER_DKH } from './units/alkalinity.ts';

/** How much higher it shall be: alkalinity in dKH, or an ion in mg/L. */
export type Rise = { alkalinityRiseDkh: number } | { ion: Ion; riseMgPerL: number };

export type DoseInput = Rise & {
  /** The reagent as it is weighed: "CaCl2.2H2O". */
  formula: string;
  volumeL: number;
  /** Grams of the pure reagent in one gram of what is weighed. */
  purity?: number;
};

export type NoRise =
  | { kind: 'not-needed' }
  /** No dose lowers anything; `fall` is how far below the start the target lies. */
  | { kind: 'cannot-lower'; fall: number };

export type Dose =
  | {
      kind: 'dose';
      massG: number;
      /** What is added of what was asked for, in all: meq of alkalinity or mg of the ion. */
      added: number;
    }
  | NoRise
  | { kind: 'does-not-bring'; formula: string; wanted: 'alkalinity' | Ion }
  | OutOfRange;

/** What stands in the way before anything is computed: nothing to raise, a fall, or a rise beyond sense. Null: go on. */
export function noRise(rise: Rise): NoRise | OutOfRange | null {
  const [quantity, given, most] =
    'ion' in rise
      ? ['riseMgPerL', rise.riseMgPerL, MOST_RISE_MG_PER_L[rise.ion]]
      : ['alkalinityRiseDkh', rise.alkalinityRiseDkh, MOST_RISE_DKH];
  if (given === 0) return { kind: 'not-needed' };
  if (given < 0 && Number.isFinite(given)) return { kind: 'cannot-lower', fall: -given };
  return firstOutOfRange({ [quantity]: given }, { [quantity]: [0, most] });
}

/**
 * The reagent that makes a rise in a tank.
 *
 * mass = rise × litres ÷ what a gram brings ÷ purity, with 1 dKH = 20/56.077 meq/L. The dose takes up no room.
 *
 * Units: dKH or mg/L, net litres; grams out.
 * Source: `bringsPerGram`; the German degree is 10 mg/L CaO (DIN 38409-6, from memory).
 * Error: that of kit, volume and purity, see `doseInterval`; the arithmetic adds less than 0.1 %.
 * Range: `DOSE_RANGES`, and rises up to `MOST_RISE_DKH` and `MOST_RISE_MG_PER_L`.
 *
 * @throws RangeError for a formula that cannot be dosed.
 */
export function doseFor(input: DoseInput): Dose {
  const { formula, volumeL, purity = 1 } = input;
  const brings = bringsPerGram(formula);
  const perGram = 'ion' in input ? brings[ION_KEYS[input.ion]] : brings.alkalinityMeq;
  if (perGram === 0) return { kind: 'does-not-bring', formula, wanted: 'ion' in input ? input.ion : 'alkalinity' };
  const refused = firstOutOfRange({ volumeL, purity }, DOSE_RANGES) ?? noRise(input);
  if (refused) return refused;
  const added = volumeL * ('ion' in input ? input.riseMgPerL : input.alkalinityRiseDkh * MEQ_PER_L_PER_DKH);
  return { kind: 'dose', massG: added / perGram / purity, added };
}
