import { COLOUR_WORDS, type ColourWord } from './colour-words.ts';
import { colourOf, hueApart, type Oklch } from './oklch.ts';

export const CONTRASTS = ['opposite', 'near opposite', 'lighter', 'darker', 'quiet', 'strong'] as const;
export type Contrast = { word: ColourWord; why: (typeof CONTRASTS)[number] };

/** Below this much colour a hue says nothing. */
const LEAST_COLOUR = 0.045;
/** A suggestion is a clear colour. */
const CLEAR = 0.09;
const NEAR_OPPOSITE_DEG = 30;
const LEAST_APART_DEG = 90;
const MUCH_LIGHTER = 0.35;

const isQuiet = ({ family }: ColourWord, { c }: Oklch): boolean => family === 'many' || c < LEAST_COLOUR;
let clear: readonly ColourWord[] | undefined;
const clearWords = () => (clear ??= COLOUR_WORDS.filter((word) => word.family !== 'many' && colourOf(word).c >= CLEAR));

/**
 * Colours that stand out beside one: the opposite hue, those 30° to either side of it, and one that is much lighter or
 * darker on the far half of the wheel. Beside many colours the quiet ones, beside a quiet one the strong ones.
 *
 * Source: opposite hues in OKLCH (Ottosson 2020); 30° and the rest are common practice, no source.
 */
export function contrastsOf(asked: ColourWord): Contrast[] {
  const from = colourOf(asked);
  if (asked.family === 'many') return named(['dark green', 'cream', 'plum'], 'quiet');
  if (isQuiet(asked, from)) return named(['hot pink', 'royal blue', 'toxic green', 'orange'], 'strong');
  const chosen: Contrast[] = [];
  const taken = new Set([asked]);
  const take = (word: ColourWord | undefined, why: Contrast['why']) => {
    if (!word || taken.has(word)) return;
    taken.add(word);
    chosen.push({ word, why });
  };
  const nearest = (hue: number) =>
    best(
      clearWords().filter((word) => !taken.has(word)),
      (word) => -hueApart(colourOf(word).h, hue),
    );
  take(nearest(from.h + 180), 'opposite');
  take(nearest(from.h + 180 - NEAR_OPPOSITE_DEG), 'near opposite');
  take(nearest(from.h + 180 + NEAR_OPPOSITE_DEG), 'near opposite');
  const far = clearWords().filter((word) => !taken.has(word) && hueApart(colourOf(word).h, from.h) >= LEAST_APART_DEG);
  const other = best(far, (word) => Math.abs(colourOf(word).l - from.l));
  if (other) take(other, colourOf(other).l > from.l ? 'lighter' : 'darker');
  return chosen;
}

const named = (words: readonly string[], why: Contrast['why']): Contrast[] =>
  COLOUR_WORDS.filter(({ word }) => words.includes(word)).map((word) => ({ word, why }));

/** How much one colour stands out beside another, 0 to 1; 0: not enough to plan for. */
export function standsOut(asked: ColourWord, other: ColourWord): number {
  const [one, two] = [colourOf(asked), colourOf(other)];
  const lighter = Math.min(1, Math.abs(one.l - two.l));
  if (asked.family === 'many') return other.family !== 'many' && two.c < CLEAR + 0.03 ? 0.6 : 0;
  if (other.family === 'many') return 0;
  if (isQuiet(asked, one) !== isQuiet(other, two)) return isQuiet(asked, one) && two.c >= CLEAR ? 0.7 : lighter >= MUCH_LIGHTER ? lighter : 0; // prettier-ignore
  if (isQuiet(asked, one)) return lighter >= MUCH_LIGHTER ? lighter : 0;
  const apart = hueApart(one.h, two.h);
  if (apart < LEAST_APART_DEG && lighter < MUCH_LIGHTER) return 0;
  return Math.min(1, (apart / 180) * 0.8 + lighter * 0.4);
}

function best<T>(list: readonly T[], score: (one: T) => number): T | undefined {
  let [found, highest]: [T | undefined, number] = [undefined, -Infinity];
  for (const one of list) if (score(one) > highest) [found, highest] = [one, score(one)];
  return found;
}
