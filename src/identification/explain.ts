import type { Observation } from './evidence.ts';
import type { Model } from './model.ts';
import type { Posterior } from './posterior.ts';
import { stemOf } from './prose-words.ts';

/** What one piece of evidence did for one entry. */
export type Reason = { key: string; logRatio: number; observation?: Observation };

/** Why an entry has the score it has: the terms add up to it exactly. */
export type Explanation = { logPrior: number; reasons: Reason[]; score: number };

/** Weaker terms than this (about a quarter more or less likely) are not worth telling. */
const WORTH_TELLING = 0.22;

/** The terms of an entry's score, in the order of the evidence. */
export function explain(model: Model, posterior: Posterior, critterId: string): Explanation {
  const index = model.indexOf.get(critterId) ?? -1;
  const logPrior = posterior.logPrior[index] ?? 0;
  const reasons = posterior.contributions.map(({ key, logRatios, observation }) => ({
    key,
    logRatio: logRatios[index] ?? 0,
    ...(observation ? { observation } : {}),
  }));
  return { logPrior, reasons, score: reasons.reduce((sum, { logRatio }) => sum + logRatio, logPrior) };
}

/** What spoke for an entry, strongest first. */
export const fits = (explanation: Explanation) =>
  asTold(explanation)
    .filter(({ logRatio }) => logRatio > WORTH_TELLING)
    .sort((one, other) => other.logRatio - one.logRatio);

/** What spoke against it, strongest first. That a description lacks one of the member's words says too little to be told. */
export const doesNotFit = (explanation: Explanation) =>
  asTold(explanation)
    .filter(({ logRatio, observation }) => logRatio < -WORTH_TELLING && observation?.kind !== 'word')
    .sort((one, other) => one.logRatio - other.logRatio);

/**
 * The terms by what the member said. One word may speak twice, as a trait and as a word of the entry's own description,
 * and may do so for and against it: it is told once, on the side where its terms together fall.
 */
function asTold({ reasons }: Explanation): Reason[] {
  const phrases = new Map<string, Reason>();
  const isWord = ({ observation }: Reason) => observation?.kind === 'word';
  for (const reason of reasons.filter((each) => !isWord(each))) {
    const said = saidIn(reason) ?? reason.key;
    const earlier = phrases.get(said);
    phrases.set(said, earlier ? added(earlier, reason) : reason);
  }
  const single: Reason[] = [];
  for (const reason of reasons.filter(isWord)) {
    const stem = reason.observation?.kind === 'word' ? stemOf(reason.observation.word) : '';
    const [said, phrase] = [...phrases].find(([, each]) => stemsSaid(each).includes(stem)) ?? [];
    if (said !== undefined && phrase) phrases.set(said, added(phrase, reason));
    else single.push(reason);
  }
  return [...phrases.values(), ...single];
}

const added = (one: Reason, other: Reason): Reason => ({ ...one, logRatio: one.logRatio + other.logRatio });

const saidIn = ({ observation }: Reason): string | undefined =>
  observation && observation.kind !== 'word' ? observation.said : undefined;

/** The stems of what was said to be there; what was denied shares no word with what was seen. */
const stemsSaid = (reason: Reason): string[] =>
  reason.observation?.kind === 'saw-not' ? [] : (saidIn(reason) ?? '').split(/[^\p{L}]+/u).map(stemOf);
