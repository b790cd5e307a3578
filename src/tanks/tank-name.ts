export const MOST_NAME = 40;
/** Discord takes choices of this length; a letter with many marks on it is long although it looks short. */
const MOST_UNITS = 100;

/**
 * A tank's name as it is kept: on one line, without what nobody can see. Null when nothing is left, or too much.
 *
 * Characters are counted as people see them, so an emoji is one.
 */
export function tankName(typed: string): string | null {
  const name = singleLine(typed);
  // The joiner that holds some emoji together is no name by itself.
  if (!/[^\s\u200d\ufe0f]/u.test(name)) return null;
  const length = [...new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(name)].length;
  return length <= MOST_NAME && name.length <= MOST_UNITS ? name : null;
}

/** Two names with the same key are the same name: case, width and doubled blanks tell no tank from another. */
export const nameKey = (name: string): string => name.normalize('NFKC').toLowerCase().replace(/\s+/g, ' ').trim();

/** A text of a member on one line, without control characters and marks that nobody sees or that turn the reading direction. */
export const singleLine = (typed: string): string =>
  typed
    .toWellFormed()
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Zl}\p{Zp}]/gu, ' ')
    .replace(/(?!\u200d)\p{Cf}/gu, '')
    .replace(/\s+/g, ' ')
    .trim();
