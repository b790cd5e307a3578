import { converter } from 'culori';
import type { ColourWord } from './colour-words.ts';

/**
 * A colour by lightness (0 to 1), colourfulness (0 to about 0.4) and hue in degrees, in OKLCH, where equal steps look
 * about equal and opposite hues lie 180° apart.
 *
 * Source: Björn Ottosson (2020), "A perceptual color space for image processing".
 */
export type Oklch = { l: number; c: number; h: number };

const toOklch = converter('oklch');

/** A colour word as it stands in OKLCH. @throws RangeError when its hex is none. */
export function colourOf({ word, hex }: Pick<ColourWord, 'word' | 'hex'>): Oklch {
  const kept = KEPT.get(hex);
  if (kept) return kept;
  const colour = toOklch(hex);
  if (!colour) throw new RangeError(`${word} has no colour: ${hex}`);
  const found = { l: colour.l, c: colour.c, h: colour.h ?? 0 };
  KEPT.set(hex, found);
  return found;
}
/** Of the colour words, so there are few. */
const KEPT = new Map<string, Oklch>();

/** How far two hues lie apart, 0 to 180°. */
export function hueApart(one: number, other: number): number {
  const apart = Math.abs(one - other) % 360;
  return apart > 180 ? 360 - apart : apart;
}
