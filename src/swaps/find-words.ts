import { editDistance } from '../knowledge/edit-distance.ts';
import { normaliseName } from '../knowledge/normalise.ts';

/** Words that stand in nearly every offer, and so tell nothing. */
const SAY_NOTHING = new Set(['coral', 'frag', 'piece', 'a', 'an', 'the', 'of', 'some', 'any', 'with', 'and', 'or', 'for', 'my', 'your', 'i', 'in', 'please']); // prettier-ignore
const LEAST_BEGINNING = 3;
const LEAST_WITH_SWAP = 4;
const LEAST_WITH_SLIP = 5;

/** The words of a text that are looked for; all of them when none tells anything. */
export function askedWords(text: string): string[] {
  const words = [...new Set(normaliseName(text).split(' ').filter(Boolean))];
  const telling = words.filter((word) => !SAY_NOTHING.has(word));
  return telling.length > 0 ? telling : words;
}

/**
 * Whether a word that was asked for stands for one that is there: the same, its beginning, or one slip of a letter.
 * Whoever compares many hands in `lettersOf` each.
 */
export function standsFor(asked: string, there: string, askedLetters?: number, thereLetters?: number): boolean {
  if (asked === there) return true;
  if (asked.length >= LEAST_BEGINNING && there.startsWith(asked)) return true;
  if (asked.length < LEAST_WITH_SWAP || Math.abs(asked.length - there.length) > 1) return false;
  const [one, other] = [askedLetters ?? lettersOf(asked), thereLetters ?? lettersOf(there)];
  // In a short word another letter makes another word; two that changed places do not.
  if (asked.length < LEAST_WITH_SLIP && (one !== other || asked.length !== there.length)) return false;
  return mayDifferByOne(one, other) && editDistance(asked, there).whole <= 1;
}

/** Which letters a word has, as bits. One slip changes at most two of them, so most words need no closer look. */
export function lettersOf(word: string): number {
  let letters = 0;
  for (let at = 0; at < word.length; at += 1) letters |= 1 << (word.charCodeAt(at) % 31);
  return letters;
}

function mayDifferByOne(one: number, other: number): boolean {
  let differing = one ^ other;
  for (let count = 0; differing !== 0; count += 1) {
    if (count === 2) return false;
    differing &= differing - 1;
  }
  return true;
}
