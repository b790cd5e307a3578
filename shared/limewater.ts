import { molarMass } from './formula.ts';
import { firstOutOfRange, type OutOfRange } from './range.ts';
import { MEQ_PER_L_PER_DKH } from './units/alkalinity.ts';
import { VOLUME_L } from './water-ranges.ts';

/** Where the strength of limewater is known. Below half of it, it is no limewater any more. */
export const LIMEWATER_RANGES = {
  temperatureC: [15, 30],
  saturation: [0.5, 1],
  volumeL: VOLUME_L,
  limewaterLPerDay: [0, 10_000],
  evaporationLPerDay: [0, 10_000],
  useDkhPerDay: [0, 20],
} as const;

/** How far the strength of saturated limewater may be off, as a share: published sets differ by so much. */
export const LIMEWATER_ERROR = 0.07;

const MMOL_PER_L_AT_25C = 20.3;
/** Share lost for each degree warmer. */
const LOST_PER_K = 0.0077;

export type LimewaterStrength = {
  kind: 'limewater';
  mmolPerL: number;
  alkalinityMeqPerL: number;
  calciumMgPerL: number;
  /** Dissolved calcium hydroxide. */
  hydroxideGPerL: number;
};
type Conditions = {
  /** Of the limewater, not of the tank. */
  temperatureC: number;
  /** 1 when fresh and clear over undissolved powder; stored limewater loses strength to carbon dioxide. */
  saturation?: number;
};

/**
 * Strength of limewater.
 *
 * c = 20.3 (1 − 0.0077 (t − 25)) mmol/L × saturation; a mmol brings two milliequivalents and 40.078 mg of calcium.
 *
 * Units: °C, a share; mmol, meq, mg and g per litre of limewater.
 * Source: Bates R.G., Bower V.E. & Smith E.R. (1956) J. Res. Natl. Bur. Stand. 56, 305-312, for 25 °C (abstract seen); the
 * slope is that of a handbook table (Perry type: 20 and 40 °C seen, the rest from memory).
 * Error: ±7 % (`LIMEWATER_ERROR`). Range: 15 to 30 °C, saturation 0.5 to 1.
 */
export function limewaterStrength({ temperatureC, saturation = 1 }: Conditions): LimewaterStrength | OutOfRange {
  const { temperatureC: warmth, saturation: share } = LIMEWATER_RANGES;
  const outside = firstOutOfRange({ temperatureC, saturation }, { temperatureC: warmth, saturation: share });
  if (outside) return outside;
  const mmolPerL = MMOL_PER_L_AT_25C * (1 - LOST_PER_K * (temperatureC - 25)) * saturation;
  return {
    kind: 'limewater',
    mmolPerL,
    alkalinityMeqPerL: 2 * mmolPerL,
    calciumMgPerL: mmolPerL * molarMass('Ca').gPerMol,
    hydroxideGPerL: (mmolPerL * molarMass('Ca(OH)2').gPerMol) / 1000,
  };
}

export type LimewaterEffect = {
  kind: 'effect';
  alkalinityDkhPerDay: number;
  calciumMgPerLPerDay: number;
  hydroxideGPerDay: number;
};

/**
 * What a daily amount of limewater brings to a tank.
 *
 * Strength × litres of limewater ÷ litres of the tank. It replaces what evaporates, so the tank keeps its volume.
 *
 * Units: litres, °C; dKH, mg/L and g a day. Source, error and range: `limewaterStrength`.
 */
export function limewaterEffect(
  input: Conditions & { volumeL: number; limewaterLPerDay: number },
): LimewaterEffect | OutOfRange {
  const { volumeL, limewaterLPerDay } = input;
  const outside = firstOutOfRange({ volumeL, limewaterLPerDay }, LIMEWATER_RANGES);
  if (outside) return outside;
  const strength = limewaterStrength(input);
  if (strength.kind !== 'limewater') return strength;
  const share = limewaterLPerDay / volumeL;
  return {
    kind: 'effect',
    alkalinityDkhPerDay: (strength.alkalinityMeqPerL * share) / MEQ_PER_L_PER_DKH,
    calciumMgPerLPerDay: strength.calciumMgPerL * share,
    hydroxideGPerDay: strength.hydroxideGPerL * limewaterLPerDay,
  };
}

export type LimewaterNeed = {
  kind: 'need';
  /** What the use of the tank asks for, and its span by the error of the strength. */
  wantedLPerDay: number;
  wantedSpanLPerDay: readonly [low: number, high: number];
  /** What may be dosed: never more than evaporates. */
  limewaterLPerDay: number;
  limitedByEvaporation: boolean;
  /** What that covers, and what has to come from something else. */
  coversDkhPerDay: number;
  leftDkhPerDay: number;
  calciumMgPerLPerDay: number;
  hydroxideGPerDay: number;
};

/**
 * Limewater that makes up for what a tank uses up in a day, within what evaporates.
 *
 * litres = use in meq ÷ strength. More than evaporates would thin the tank out, so there it ends.
 *
 * Units: net litres, dKH a day, litres a day, °C. Source, error and range: `limewaterStrength`.
 */
export function limewaterNeed(
  input: Conditions & {
    volumeL: number;
    useDkhPerDay: number;
    /** Absent where nobody has measured it: then it sets no limit. */
    evaporationLPerDay?: number | undefined;
  },
): LimewaterNeed | OutOfRange {
  const { volumeL, useDkhPerDay, evaporationLPerDay } = input;
  const limits = { volumeL, useDkhPerDay, ...(evaporationLPerDay === undefined ? {} : { evaporationLPerDay }) };
  const outside = firstOutOfRange(limits, LIMEWATER_RANGES);
  if (outside) return outside;
  const strength = limewaterStrength(input);
  if (strength.kind !== 'limewater') return strength;
  const wantedLPerDay = (volumeL * useDkhPerDay * MEQ_PER_L_PER_DKH) / strength.alkalinityMeqPerL;
  const limewaterLPerDay = Math.min(wantedLPerDay, evaporationLPerDay ?? Number.POSITIVE_INFINITY);
  const coversDkhPerDay = (limewaterLPerDay * strength.alkalinityMeqPerL) / volumeL / MEQ_PER_L_PER_DKH;
  return {
    kind: 'need',
    wantedLPerDay,
    wantedSpanLPerDay: [wantedLPerDay / (1 + LIMEWATER_ERROR), wantedLPerDay / (1 - LIMEWATER_ERROR)],
    limewaterLPerDay,
    limitedByEvaporation: limewaterLPerDay < wantedLPerDay,
    coversDkhPerDay,
    leftDkhPerDay: Math.max(0, useDkhPerDay - coversDkhPerDay),
    calciumMgPerLPerDay: (limewaterLPerDay * strength.calciumMgPerL) / volumeL,
    hydroxideGPerDay: limewaterLPerDay * strength.hydroxideGPerL,
  };
}
