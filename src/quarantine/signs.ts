import { editDistance } from '../knowledge/edit-distance.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { URGENCIES, type Sign } from '../knowledge/sign.ts';

export type SignGroup = Sign['group'];
export type Fit = Sign['fits'][number];

/** What is to be said of a sign next. */
export type MostUrgent =
  /** Ask this first; `until` holds as long as nobody has answered. */
  | { kind: 'ask'; question: string; until: Fit }
  | { kind: 'fit'; fit: Fit }
  /** Every row is ruled out: nothing here explains what was seen. */
  | { kind: 'unexplained' };

/**
 * The row of a sign that decides how fast to act.
 *
 * `ruledOut` holds the conditions that cannot be it, by their wording in `fits`. Leave it out while the sign's
 * question has not been put: then the question comes first, and the row beside it stands until it is answered. Give
 * an empty set when it was answered without ruling anything out. Among rows of one urgency the strong one goes first.
 */
export function mostUrgent(sign: Sign, ruledOut?: ReadonlySet<string>): MostUrgent {
  const [fit] = sign.fits.filter(({ condition }) => !ruledOut?.has(condition)).sort(byUrgency);
  if (!fit) return { kind: 'unexplained' };
  if (sign.checkFirst !== undefined && ruledOut === undefined)
    return { kind: 'ask', question: sign.checkFirst, until: fit };
  return { kind: 'fit', fit };
}

/**
 * The signs whose name or alias is in what a member typed: people first, then pets, then the closest words, then the
 * most urgent. Every sign at most once; none when nothing fits.
 *
 * An alias of several words may stand anywhere in the text; with at most one other word between two of its own it
 * goes before one whose telling words only occur, in any order: "stung by my anemone" is "anemone stung me". An alias of one word counts only when nothing else was typed: "ich" is also in "which". What is typed so far may be
 * the beginning of an alias. Words of five letters and more may be misspelt by one letter, of eight and more by two.
 * The first 100 characters are read.
 */
export function signsMatching(signs: Iterable<Sign>, text: string, group?: SignGroup): Sign[] {
  const typed = wordsOf(text);
  if (typed.length === 0) return [];
  return [...signs]
    .filter((sign) => group === undefined || sign.group === group)
    .map((sign) => ({ sign, closeness: Math.max(...namesOf(sign).map((name) => closenessOf(typed, name))) }))
    .filter(({ closeness }) => closeness > 0)
    .sort(
      (one, other) =>
        rankOf(one.sign) - rankOf(other.sign) ||
        other.closeness - one.closeness ||
        leastUrgency(one.sign) - leastUrgency(other.sign) ||
        (one.sign.id < other.sign.id ? -1 : 1),
    )
    .map(({ sign }) => sign);
}

/** The most urgent row first; among those of one urgency the strong one. */
export const byUrgency = (one: Fit, other: Fit) =>
  URGENCIES.indexOf(one.urgency) - URGENCIES.indexOf(other.urgency) ||
  Number(one.weight === 'weak') - Number(other.weight === 'weak');

/** Characters of one piece of a longer text; a name is compared with no more of it. */
const PIECE = 90;

/**
 * The same for a text of any length, as a form takes it: it is read in pieces that overlap, people and pets still first.
 */
export function signsToldIn(signs: readonly Sign[], text: string, group?: SignGroup): Sign[] {
  const found = new Set(piecesOf(text).flatMap((piece) => signsMatching(signs, piece, group)));
  return [...found].sort((one, other) => rankOf(one) - rankOf(other));
}

/** Runs of words of at most one piece, each beginning in the middle of the one before. */
function piecesOf(text: string): string[] {
  const words = text.split(/\s+/).filter((word) => word !== '');
  const pieces: string[] = [];
  for (let from = 0; from < words.length;) {
    let to = from + 1;
    while (to < words.length && words.slice(from, to + 1).join(' ').length <= PIECE) to += 1;
    pieces.push(words.slice(from, to).join(' '));
    if (to === words.length) break;
    from += Math.max(1, Math.floor((to - from) / 2));
  }
  return pieces;
}

/** How fast a sign may have to be acted on, as a place in `URGENCIES`. */
export const leastUrgency = ({ fits }: Sign) => Math.min(...fits.map(({ urgency }) => URGENCIES.indexOf(urgency)));
const rankOf = ({ group }: Sign) => (group === 'human' ? 0 : group === 'pet' ? 1 : 2);
/** The name without the "Person:" in front of it, and the aliases. */
const namesOf = ({ name, aliases }: Sign) =>
  [name.replace(/^(Person|Pet): /, ''), ...aliases].map(wordsOf).filter((words) => words.length > 0);

/** Words that people leave out or put in as they like. */
const SMALL = new Set(['a', 'an', 'the', 'my', 'our', 'his', 'her', 'its', 'their', 'is', 'are']);

/** The words of a text in the form in which names are compared; small words only where two others are left. */
function wordsOf(text: string): string[] {
  const all = normaliseName(text)
    .split(' ')
    .filter((word) => word !== '');
  const telling = all.filter((word) => !SMALL.has(word));
  return telling.length > 1 ? telling : all;
}

/** Words that link others; they count only where an alias stands as it is written. */
const LINKING = new Set('from i me it he she they by of in on at to and has have got with'.split(' '));
const telling = (words: readonly string[]) => words.filter((word) => !LINKING.has(word));

const EXACT = 1000;
const IN_ORDER = 100;
const LEAST_BEGINNING = 3;

/** How much of what was typed a name accounts for, in letters; 0 when it does not fit. */
function closenessOf(typed: readonly string[], name: readonly string[]): number {
  const letters = name.join('').length;
  if (typed.length === name.length && name.every((word, at) => sameWord(typed[at] ?? '', word))) return EXACT + letters;
  if (name.length > 1 && typed.some((_, from) => standsAt(typed, from, name))) return IN_ORDER + letters;
  const words = telling(name);
  if (words.length > 1 && words.every((word) => typed.some((each) => sameWord(each, word))))
    return words.join('').length;
  return begins(typed, name) ? typed.join('').length / letters : 0;
}

/** Whether the words of a name follow each other from here on, with at most one other word between two of them. */
function standsAt(typed: readonly string[], from: number, name: readonly string[]): boolean {
  let at = from;
  for (const [index, word] of name.entries()) {
    if (index > 0 && !sameWord(typed[at] ?? '', word)) at += 1;
    if (!sameWord(typed[at] ?? '', word)) return false;
    at += 1;
  }
  return true;
}

/** Whether all that was typed begins a name; the last word may be half typed. */
function begins(typed: readonly string[], name: readonly string[]): boolean {
  if (typed.length > name.length || typed.join('').length < LEAST_BEGINNING) return false;
  const last = typed.length - 1;
  return typed.every((word, at) => word === name[at] || (at === last && (name[at] ?? '').startsWith(word)));
}

const LEAST_MISSPELT = 5;
const TWO_LETTERS_OFF_FROM = 8;

/** Short words are the same or they are not: "ich" and "itch" are different signs. */
function sameWord(typed: string, meant: string): boolean {
  if (typed === meant) return true;
  const shorter = Math.min(typed.length, meant.length);
  if (shorter < LEAST_MISSPELT) return false;
  return editDistance(typed, meant).whole <= (shorter < TWO_LETTERS_OFF_FROM ? 1 : 2);
}
