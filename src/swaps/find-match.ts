import type { Coral } from '../knowledge/coral.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { knownOf } from './find.ts';
import { coralNamed, coralSaid } from './find-names.ts';
import type { FindFilter } from './find-filter.ts';
import { askedWords, standsFor } from './find-words.ts';
import type { LIGHTS, Offer, OfferDetails } from './offer.ts';
import { settledFrom } from './settled.ts';

export type Light = (typeof LIGHTS)[number];

/** Whether a piece is settled on a day. */
export function isSettled(details: Pick<OfferDetails, 'cutOn' | 'healsInDays'>, day: string): boolean {
  const from = settledFrom(details);
  return from === null || from <= day;
}

/** Light at the coral, micromoles: below the first it is low, from the second up it is high. Common practice, no source. */
const LOW_BELOW = 100;
const HIGH_FROM = 200;

/** The kinds of light that an offer stands for: as its member says, otherwise whatever its coral is kept in. */
export function lightsOf({ light }: Pick<OfferDetails, 'light'>, coral: Pick<Coral, 'lightPar'> | undefined): Light[] {
  if (light !== null) return [light];
  if (!coral) return [];
  const [low, high] = coral.lightPar;
  return [
    ...(low < LOW_BELOW ? (['low'] as const) : []),
    ...(low < HIGH_FROM && high >= LOW_BELOW ? (['medium'] as const) : []),
    ...(high >= HIGH_FROM ? (['high'] as const) : []),
  ];
}

/** A filter whose texts have been looked up. */
export type Asked = {
  filter: FindFilter;
  /** The coral that the whole text names: its offers match whatever else they say. */
  whole: string | null;
  /** The coral that the text names somewhere: its offers come first. */
  coral: string | null;
  words: readonly string[];
  area: readonly string[];
};

export function askedOf(filter: FindFilter, base: KnowledgeBase): Asked {
  const { text, area } = filter;
  return {
    filter,
    whole: text === '' ? null : coralNamed(base, text),
    coral: text === '' ? null : coralSaid(base, text),
    words: text === '' ? [] : askedWords(text),
    area: area === '' ? [] : askedWords(area),
  };
}

/** What choices are held against. */
export type Choosable = { give: boolean; coral: Coral | undefined; lights: readonly Light[] };

/** Whether everything but the words of a filter holds for an offer. */
export function choicesHold(filter: FindFilter, { give, coral, lights }: Choosable, settled: boolean): boolean {
  return (
    (!filter.free || give) &&
    (!filter.settled || settled) &&
    (filter.growth === null || coral?.growthForm === filter.growth) &&
    (filter.kind === null || coral?.kind === filter.kind) &&
    (filter.light === null || lights.includes(filter.light))
  );
}

export const areaWords = ({ area }: Pick<OfferDetails, 'area'>): string[] =>
  area === null ? [] : normaliseName(area).split(' ').filter(Boolean);

/** Whether an offer is what a filter asks for. An index answers the same for many at once, and is held to this. */
export function matches(asked: Asked, offer: Offer, base: KnowledgeBase, day: string): boolean {
  const { coral, words } = knownOf(offer, base);
  const { details } = offer;
  const entry = coral === null ? undefined : base.corals.get(coral);
  const among = (there: readonly string[]) => (word: string) => there.some((each) => standsFor(word, each));
  return (
    choicesHold(
      asked.filter,
      { give: details.give, coral: entry, lights: lightsOf(details, entry) },
      isSettled(details, day),
    ) &&
    asked.area.every(among(areaWords(details))) &&
    ((asked.whole !== null && coral === asked.whole) || asked.words.every(among(words)))
  );
}

/**
 * Where an offer stands among what was found: a lower number comes first. Within one the newest comes first, but those
 * that came while somebody turned pages stand at the end as they came, so that none lands behind the reader.
 */
export function tierOf(late: boolean, noneLeft: boolean, exact: boolean, settled: boolean): number {
  return late ? LATE : (noneLeft ? 4 : 0) + (exact ? 0 : 2) + (settled ? 0 : 1);
}
export const LATE = 8;
