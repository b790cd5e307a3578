import type { Observation } from './evidence.ts';
import type { Model } from './model.ts';
import type { Posterior } from './posterior.ts';

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
export const fits = ({ reasons }: Explanation) =>
  reasons.filter(({ logRatio }) => logRatio > WORTH_TELLING).sort((one, other) => other.logRatio - one.logRatio);

/** What spoke against it, strongest first. That a description lacks one of the member's words says too little to be told. */
export const doesNotFit = ({ reasons }: Explanation) =>
  reasons
    .filter(({ logRatio, observation }) => logRatio < -WORTH_TELLING && observation?.kind !== 'word')
    .sort((one, other) => one.logRatio - other.logRatio);
