import type { Coral } from '../knowledge/coral.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { knownOf } from './find.ts';
import { areaWords, choicesHold, isSettled, LATE, tierOf, type Asked } from './find-match.ts';
import { standsFor } from './find-words.ts';
import type { Offer } from './offer.ts';

export type Found = { offer: Offer; tier: number };

/** How it is looked for, beside what is looked for. */
export type Search = {
  now: Date;
  /** The day on which "settled" is judged. */
  day: string;
  /** Offers with a higher number came while somebody turned pages, and stand at the end. */
  mark: number;
  /** Members whose offers are left out. */
  without: ReadonlySet<string>;
};

type Entry = { offer: Offer; coral: Coral | undefined; words: readonly number[]; area: readonly number[] };

/** The open offers of one club, laid out for looking through all of them within a moment. */
export type FindIndex = {
  /** Takes an offer in as it now is; one that is not open any more leaves. */
  put(offer: Offer): void;
  drop(id: number): void;
  /** Everything that is asked for, in the order in which it is shown. */
  search(asked: Asked, search: Search): Found[];
  /** The highest number of an offer in it. */
  newest(): number;
  offers(): Offer[];
};

export function createFindIndex(base: KnowledgeBase): FindIndex {
  const entries = new Map<number, Entry>();
  const words: string[] = [];
  const numbers = new Map<string, number>();
  let order: readonly Entry[] | null = null;
  const numberOf = (word: string) => {
    const known = numbers.get(word);
    if (known !== undefined) return known;
    numbers.set(word, words.length);
    return words.push(word) - 1;
  };
  const newestFirst = () => (order ??= [...entries.values()].sort((one, other) => other.offer.id - one.offer.id));
  /** For each word that was asked for, which of all words stand for it. */
  const standing = (asked: readonly string[]) =>
    asked.map((word) => Uint8Array.from(words, (there) => (standsFor(word, there) ? 1 : 0)));

  return {
    put(offer) {
      order = null;
      if (offer.state !== 'open') return void entries.delete(offer.id);
      const { coral, words: said } = knownOf(offer, base);
      entries.set(offer.id, {
        offer,
        coral: coral === null ? undefined : base.corals.get(coral),
        words: said.map(numberOf),
        area: areaWords(offer.details).map(numberOf),
      });
    },
    drop(id) {
      order = null;
      entries.delete(id);
    },
    search(asked, { now, day, mark, without }) {
      const [inWords, inArea] = [standing(asked.words), standing(asked.area)];
      const tiers: Found[][] = Array.from({ length: LATE + 1 }, () => []);
      for (const entry of newestFirst()) {
        const { offer, coral } = entry;
        if (offer.expiresAt <= now || without.has(offer.memberId)) continue;
        if (!choicesHold(asked, offer, coral, day) || !allStand(inArea, entry.area)) continue;
        const whole = asked.whole !== null && coral?.id === asked.whole;
        if (!whole && !allStand(inWords, entry.words)) continue;
        const exact = asked.coral !== null && coral?.id === asked.coral;
        const settled = isSettled(offer.details, day);
        const tier = tierOf({ late: offer.id > mark, noneLeft: offer.left === 0, exact, settled });
        tiers[tier]?.push({ offer, tier });
      }
      tiers[LATE]?.reverse();
      return tiers.flat();
    },
    newest: () => newestFirst()[0]?.offer.id ?? 0,
    offers: () => newestFirst().map(({ offer }) => offer),
  };
}

function allStand(asked: readonly Uint8Array[], there: readonly number[]): boolean {
  return asked.every((stands) => there.some((word) => stands[word] === 1));
}
