// Colours of the paper, the words and the animals. A colour word never stands alone: patterns are drawn as strokes too.
import type { COLOURS } from '../knowledge/trait-words.ts';

export type ColourWord = (typeof COLOURS)[number];
export const PATTERNS = ['striped', 'spotted', 'mottled', 'iridescent', 'fluorescent'] as const;
export type Pattern = (typeof PATTERNS)[number];
export type PlainColour = Exclude<ColourWord, Pattern>;

export const FILLS: Record<PlainColour, string> = {
  white: '#ffffff',
  clear: '#dfeaec',
  grey: '#aeb1b0',
  black: '#45444a',
  brown: '#9a6b45',
  tan: '#d9bd93',
  red: '#cc4436',
  orange: '#e88b3c',
  pink: '#f0a7b3',
  yellow: '#f0d060',
  green: '#72a860',
  blue: '#5a8fcb',
  purple: '#9472b5',
};

/** The line drawn on animals. It stays dark in both themes, since animals always stand on a light card. */
export const INK = '#2c2a27';
/** The line drawn inside a dark body. */
export const CHALK = '#dedbd3';
export const CARD = '#f1ece0';
export const ROCK = '#c9bfae';
export const SAND = '#e6d6b4';
export const MARK = '#0b5cad';

export type Theme = 'light' | 'dark';
export type Paper = { page: string; words: string; quiet: string; rule: string; card: string; mark: string };

export const PAPERS: Record<Theme, Paper> = {
  light: { page: '#fcfaf5', words: '#23221f', quiet: '#55524b', rule: '#cfc8b8', card: CARD, mark: MARK },
  dark: { page: '#24262b', words: '#f2efe8', quiet: '#c4c1b9', rule: '#52555d', card: '#ece7da', mark: MARK },
};

export function isPattern(word: ColourWord): word is Pattern {
  return (PATTERNS as readonly string[]).includes(word);
}

/** Whether a light line is needed to be seen on this fill. */
export function isDark(fill: string): boolean {
  const [r, g, b] = [1, 3, 5].map((from) => parseInt(fill.slice(from, from + 2), 16));
  return (r ?? 0) * 0.3 + (g ?? 0) * 0.59 + (b ?? 0) * 0.11 < 95;
}
