import { doseFor } from './dose.ts';
import { firstOutOfRange, type OutOfRange } from './range.ts';
import { VOLUME_L } from './water-ranges.ts';

/** How copper is bound. Numbers of one form mean nothing for another; they differ tenfold. */
export type CopperForm = 'ionic' | 'chelated' | 'amine';

type Setting = {
  /** Null when nobody said: then nothing is computed. */
  form: CopperForm | null;
  /** Net litres, measured with rock, sand and all other lime taken out. */
  volumeL: number;
  targetMgPerL: number;
  /** The highest level that is aimed at, from the knowledge base. */
  mostMgPerL: number;
  /** In how many equal parts it goes in, with a test before each. */
  additions: number;
  formula?: string;
  purity?: number;
};

export type CopperAddition = { copperMg: number; massMg: number; reachesMgPerL: number };
export type CopperDose =
  | {
      kind: 'copper';
      copperMg: number;
      /** Of the salt, as weighed. */
      massMg: number;
      /** What stands in the water before the first of them. */
      fromMgPerL: number;
      additions: readonly CopperAddition[];
    }
  | { kind: 'form-missing' }
  /** Only the label of the product knows the dose of a bound form. */
  | { kind: 'label-rules'; form: Exclude<CopperForm, 'ionic'> }
  | { kind: 'not-needed'; fromMgPerL: number }
  | { kind: 'cannot-lower'; fall: number; fromMgPerL: number }
  | OutOfRange;

const MOST_ADDITIONS = 12;

/**
 * Ionic copper up to its level, in equal additions.
 *
 * mg Cu = litres × rise; mg salt = mg Cu × M(salt) ÷ M(Cu), 25.451 % copper in CuSO4.5H2O.
 *
 * Units: net litres, mg/L Cu; mg out. Source: IUPAC 2021 weights.
 * Error: none in the sum, yet lime binds copper, so the test leads and not the sum.
 * Range: targets up to the highest level that is handed in.
 *
 * @throws RangeError for a formula that brings no copper.
 */
export function copperDose(input: Setting & { nowMgPerL: number }): CopperDose {
  const { form, volumeL, nowMgPerL, targetMgPerL, mostMgPerL, additions } = input;
  const { formula = 'CuSO4.5H2O', purity = 1 } = input;
  if (form === null) return { kind: 'form-missing' };
  if (form !== 'ionic') return { kind: 'label-rules', form };
  const outside = firstOutOfRange(
    { volumeL, nowMgPerL, targetMgPerL, additions },
    { volumeL: VOLUME_L, nowMgPerL: [0, 5], targetMgPerL: [0, mostMgPerL], additions: [1, MOST_ADDITIONS] },
  );
  if (outside) return outside;
  if (!Number.isInteger(additions)) throw new RangeError(`additions must be a whole number, got ${additions}`);
  const riseMgPerL = targetMgPerL - nowMgPerL;
  if (riseMgPerL < 0) return { kind: 'cannot-lower', fall: -riseMgPerL, fromMgPerL: nowMgPerL };
  const dose = doseFor({ formula, ion: 'Cu', riseMgPerL, volumeL, purity });
  switch (dose.kind) {
    case 'does-not-bring':
      throw new RangeError(`${formula} brings no copper`);
    case 'not-needed':
      return { kind: 'not-needed', fromMgPerL: nowMgPerL };
    case 'cannot-lower':
      return { ...dose, fromMgPerL: nowMgPerL };
    case 'out-of-range':
      return dose;
    case 'dose':
      return {
        kind: 'copper',
        copperMg: dose.added,
        massMg: 1000 * dose.massG,
        fromMgPerL: nowMgPerL,
        additions: Array.from({ length: additions }, (_, index) => ({
          copperMg: dose.added / additions,
          massMg: (1000 * dose.massG) / additions,
          reachesMgPerL: nowMgPerL + (riseMgPerL * (index + 1)) / additions,
        })),
      };
  }
}

/**
 * Copper after a water change, back to the level.
 *
 * c' = c (1 − f) + n f, with n the copper of the new water; then as `copperDose`.
 *
 * Units: a share from 0 to 1, mg/L Cu. Source: mass balance. Error and range: `copperDose`.
 *
 * @throws RangeError for a formula that brings no copper.
 */
export function copperAfterChange(
  input: Setting & { beforeMgPerL: number; changeFraction: number; newWaterMgPerL?: number },
): CopperDose {
  const { beforeMgPerL, changeFraction, newWaterMgPerL = 0, ...setting } = input;
  // What depends on the form is not looked at, and so not compared, before the form is known.
  if (setting.form === 'ionic') {
    const outside = firstOutOfRange(
      { beforeMgPerL, changeFraction, newWaterMgPerL },
      { beforeMgPerL: [0, 5], changeFraction: [0, 1], newWaterMgPerL: [0, 5] },
    );
    if (outside) return outside;
  }
  return copperDose({ ...setting, nowMgPerL: beforeMgPerL * (1 - changeFraction) + newWaterMgPerL * changeFraction });
}
