import type { Coral } from '../knowledge/coral.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { knownOf, namesOf } from './find.ts';
import { areaWords, choicesHold, LATE, lightsOf, tierOf, type Asked, type Light } from './find-match.ts';
import { lettersOf, standsFor } from './find-words.ts';
import type { Offer } from './offer.ts';
import { settledFrom } from './settled.ts';

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

/** What is asked of every offer at each search stands here flat; all else is left where it is. */
type Entry = {
  id: number;
  memberId: string;
  give: boolean;
  left: number;
  coral: Coral | undefined;
  /** Its place among the corals that are offered. */
  coralAt: number;
  lights: readonly Light[];
  /** From which day it counts as settled, as a number that is compared quickly; likewise the end. */
  settledFrom: number;
  expiresS: number;
  words: readonly number[];
  area: readonly number[];
  offer: Offer;
  /** As it was found before, by tier. */
  found: (Found | undefined)[];
};

/** The open offers of one club, laid out for looking through all of them within a moment. */
export type FindIndex = {
  /** Takes an offer in as it now is; one that is not open any more leaves. */
  put(offer: Offer): void;
  drop(id: number): void;
  /** Everything that is asked for, in the order in which it is shown. */
  search(asked: Asked, search: Search): Found[];
  /** The highest number of an offer in it. */
  newest(): number;
  /** The oldest first. */
  offers(): Offer[];
};

export function createFindIndex(base: KnowledgeBase): FindIndex {
  /** The oldest first, so that a new one goes to the end. */
  const entries: Entry[] = [];
  const words: string[] = [];
  const lettersIn: number[] = [];
  const numbers = new Map<string, number>();
  /** Words of the names of each coral that is offered; an offer holds only what it says besides. */
  const namesIn: (readonly number[])[] = [[]];
  const places = new Map<Coral, number>();
  const numberOf = (word: string) => {
    const known = numbers.get(word);
    if (known !== undefined) return known;
    numbers.set(word, words.length);
    lettersIn.push(lettersOf(word));
    return words.push(word) - 1;
  };
  const entryOf = (offer: Offer): Entry => {
    const known = knownOf(offer, base);
    const coral = known.coral === null ? undefined : base.corals.get(known.coral);
    const names = coral ? namesOf(coral) : [];
    if (coral && !places.has(coral)) places.set(coral, namesIn.push(names.map(numberOf)) - 1);
    const { id, memberId, left, details, expiresAt } = offer;
    const from = settledFrom(details);
    return {
      id,
      memberId,
      give: details.give,
      left,
      coral,
      coralAt: (coral && places.get(coral)) ?? NO_CORAL,
      lights: lightsOf(details, coral),
      settledFrom: from === null ? 0 : dayNumber(from),
      expiresS: Math.floor(expiresAt.getTime() / 1000),
      words: known.words.filter((word) => !names.includes(word)).map(numberOf),
      area: areaWords(details).map(numberOf),
      offer,
      found: [],
    };
  };
  /** Where an offer stands, or would. */
  const placeOf = (id: number): number => {
    let [low, high] = [0, entries.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((entries[middle]?.id ?? 0) < id) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  const drop = (id: number) => {
    const place = placeOf(id);
    if (entries[place]?.id === id) entries.splice(place, 1);
  };

  /** For each word that was asked for, which of all words stand for it. */
  const standing = (asked: readonly string[]): Standing[] =>
    asked.map((word) => {
      const [letters, stands] = [lettersOf(word), new Uint8Array(words.length)];
      for (let at = 0; at < words.length; at += 1)
        if (standsFor(word, words[at] ?? '', letters, lettersIn[at] ?? 0)) stands[at] = 1;
      const corals = Uint8Array.from(namesIn, (there) => (there.some((one) => stands[one] === 1) ? 1 : 0));
      return { stands, corals };
    });

  return {
    put(offer) {
      if (offer.state !== 'open') return drop(offer.id);
      const place = placeOf(offer.id);
      entries.splice(place, entries[place]?.id === offer.id ? 1 : 0, entryOf(offer));
    },
    drop,
    search(asked, { now, day, mark, without }) {
      const [inWords, inArea] = [standing(asked.words), standing(asked.area)];
      const [nowS, today] = [Math.floor(now.getTime() / 1000), dayNumber(day)];
      const tiers: Found[][] = Array.from({ length: LATE + 1 }, () => []);
      for (let at = entries.length - 1; at >= 0; at -= 1) {
        const entry = entries[at];
        if (!entry || entry.expiresS <= nowS || (without.size > 0 && without.has(entry.memberId))) continue;
        const settled = entry.settledFrom <= today;
        if (!choicesHold(asked.filter, entry, settled) || !allStand(inArea, entry.area, NO_CORAL)) continue;
        const whole = asked.whole !== null && entry.coral?.id === asked.whole;
        if (!whole && !allStand(inWords, entry.words, entry.coralAt)) continue;
        const exact = asked.coral !== null && entry.coral?.id === asked.coral;
        const tier = tierOf(entry.id > mark, entry.left === 0, exact, settled);
        tiers[tier]?.push((entry.found[tier] ??= { offer: entry.offer, tier }));
      }
      tiers[LATE]?.reverse();
      return new Array<Found>().concat(...tiers);
    },
    newest: () => entries.at(-1)?.id ?? 0,
    offers: () => entries.map(({ offer }) => offer),
  };
}

/** 2026-11-29 as 20261129. */
const dayNumber = (day: string): number => Number(day.replaceAll('-', ''));

/** Where no coral is known there are no names of one. */
const NO_CORAL = 0;

/** Which words stand for one that was asked for, and which corals are so called. */
type Standing = { stands: Uint8Array; corals: Uint8Array };

function allStand(asked: readonly Standing[], there: readonly number[], coralAt: number): boolean {
  for (const { stands, corals } of asked) {
    let found = corals[coralAt] === 1;
    for (let at = 0; at < there.length && !found; at += 1) found = stands[there[at] ?? 0] === 1;
    if (!found) return false;
  }
  return true;
}
