import type { NamedTrait } from '../knowledge/trait-words.ts';

/** One way of reading a word: a value of a trait. */
export type Reading = { trait: NamedTrait; value: string };

/**
 * One thing that was seen, or said not to be there. A word that may mean several traits ("hairy": a texture, or
 * bristles) carries all its readings, and any of them may be what was meant. `said` keeps the member's own words.
 * `chose` is an option picked from a list, which is right more often than a word typed in a hurry.
 */
export type Observation =
  | { kind: 'saw' | 'saw-not' | 'chose'; readings: readonly Reading[]; said?: string }
  | { kind: 'size'; lowMm: number; highMm: number; said?: string }
  /** A word beyond the traits, looked for in what the entries say of themselves. */
  | { kind: 'word'; word: string };

/** The answer to a telling feature of a look-alike pair: whose side it looked like. */
export type FeatureAnswer = { pair: string; feature: number; looksLike: string };

/** What is around: it moves the odds before anything is seen. */
export type Context = { near?: string; since?: 'new rock' | 'new coral' | 'always here' };

/** All that is known about one sighting. Order and repetition mean nothing. */
export type Evidence = {
  observations: readonly Observation[];
  features: readonly FeatureAnswer[];
  /** Entries that the member named in passing; a weak hint. */
  named: readonly string[];
  /** Something is wrong: damage, death, a sting. Then nothing is called harmless on words alone. */
  alarm: boolean;
  /** Somebody is hurt or ill: the first aid that the words call for, `any` for several kinds. */
  hurt: readonly string[];
  context: Context;
};

export const NO_EVIDENCE: Evidence = { observations: [], features: [], named: [], alarm: false, hurt: [], context: {} };

/** The same observation, however it was come by, has the same key. */
export function observationKey(observation: Observation): string {
  if (observation.kind === 'size') return `size ${observation.lowMm}-${observation.highMm}`;
  if (observation.kind === 'word') return `word ${observation.word}`;
  return `${observation.kind} ${observation.readings
    .map(({ trait, value }) => `${trait}=${value}`)
    .sort()
    .join('|')}`;
}

/** Observations each once, in an order that does not depend on how they came. */
export function distinctObservations(observations: readonly Observation[]): Observation[] {
  return [...new Map(observations.map((each) => [observationKey(each), each])).entries()]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([, each]) => each);
}
