import type { Critter } from '../knowledge/critter.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { singular } from '../knowledge/normalise.ts';

/** Which entries' own descriptions hold a word, so that words beyond the traits speak too. */
export type ProseWords = {
  /** Entries (by index) whose description has the word's stem; undefined for a word that no description has. */
  entriesWith(word: string): ReadonlySet<number> | undefined;
  /** The share of descriptions, by their prior, that have the word's stem. */
  shareWith(word: string): number;
  /** Whether the word occurs in a name or in running text of the base: then it is no slip of another. */
  isRealWord(word: string): boolean;
  /**
   * Whether a word that is not real may be a slip of `other`. Aliases hold what people type, slips and all: a word that
   * stands in aliases alone is a slip of a word that the same entry uses, and of no other.
   */
  mayBeSlipOf(word: string, other: string): boolean;
};

/**
 * Gathers the words of `know`, `what` and `does`, the names, and what look-alike pairs say of each side.
 *
 * Those texts say what the animal looks like and does; `now`, `worry` and `caution` speak of other things and are
 * read for real words only.
 */
export function buildProseWords(base: KnowledgeBase, critters: readonly Critter[], prior: Float64Array): ProseWords {
  const entries = new Map<string, Set<number>>();
  const real = new Set<string>();
  const realStems = new Set<string>();
  critters.forEach((critter, index) => {
    const pairs = base.lookAlikesOf.get(critter.id) ?? [];
    const sides = pairs.flatMap(({ a, features }) =>
      features.map((feature) => (a === critter.id ? feature.a : feature.b)),
    );
    for (const stem of stemsOf(
      [critter.name, ...critter.aliases, critter.know, critter.what, critter.does, ...sides].join(' '),
    )) {
      const found = entries.get(stem) ?? new Set();
      found.add(index);
      entries.set(stem, found);
    }
    const { matters, now, worry, caution = '', depends = '' } = critter;
    for (const word of wordsOf(
      [critter.name, critter.know, critter.what, critter.does, matters, now, worry, caution, depends, ...sides].join(
        ' ',
      ),
    )) {
      real.add(word);
      realStems.add(stemOf(word));
    }
  });
  const shares = new Map(
    [...entries].map(([stem, indexes]) => [stem, [...indexes].reduce((sum, index) => sum + (prior[index] ?? 0), 0)]),
  );
  return {
    entriesWith: (word) => entries.get(stemOf(word)),
    shareWith: (word) => shares.get(stemOf(word)) ?? 0,
    isRealWord: (word) => real.has(word) || realStems.has(stemOf(word)),
    mayBeSlipOf(word, other) {
      const owners = entries.get(stemOf(word));
      const others = entries.get(stemOf(other));
      return owners === undefined || [...owners].some((owner) => others?.has(owner));
    },
  };
}

const wordsOf = (text: string) =>
  text
    .toLowerCase()
    .match(/[a-z]{2,}/g)
    ?.map(singular) ?? [];
const stemsOf = (text: string) => new Set(wordsOf(text).map(stemOf));

/** A light stem, so that "ringed", "rings" and "ring" meet: enough for short descriptions. */
export function stemOf(word: string): string {
  const plain = singular(word.toLowerCase());
  if (plain.length <= 4) return plain;
  return plain
    .replace(/(ing|ed|er|ish|like|ly|y)$/, '')
    .replace(/e$/, '')
    .replace(/(.)\1$/, '$1');
}
