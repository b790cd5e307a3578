import { NO_EVIDENCE, type Evidence } from '../identification/evidence.ts';
import { isHarmful, type Decision } from '../identification/decide.ts';
import type { Identifier } from '../identification/identify.ts';
import { evidenceOf } from '../identification/session.ts';
import type { Critter } from '../knowledge/critter.ts';
import { isGrave } from '../knowledge/look-up.ts';
import type { CallPrior } from './call.ts';
import type { Case } from './opinion.ts';

/** What the bot makes of the words of a case, and of the answers that came along from a sighting. */
export type BotOpinion = {
  evidence: Evidence;
  /** Null when there was nothing to go by. */
  decision: Decision | null;
  prior: CallPrior;
  /** What may be dangerous to people and is still possible, the gravest first. */
  dangers: Critter[];
};

/** A dangerous animal at least this probable brings its caution along. */
const DANGER_WORTH_SAYING = 0.04;

/** The bot's own opinion, from which the call of the club starts. The photo itself is not looked at. */
export function botOpinion(identifier: Identifier, opinion: Pick<Case, 'text' | 'sighting'>): BotOpinion {
  const evidence = evidenceFrom(identifier, opinion);
  const saysSomething = evidence.observations.length + evidence.features.length + evidence.named.length > 0;
  const { posterior, decision } = identifier.identify(evidence);
  const { critters } = identifier.model();
  const possible = critters
    .map((critter, index) => ({ critter, probability: posterior.probabilities[index] ?? 0 }))
    .filter(({ probability }) => probability >= DANGER_WORTH_SAYING)
    .sort((one, other) => other.probability - one.probability)
    .map(({ critter }) => critter);
  return {
    evidence,
    decision: saysSomething ? decision : null,
    prior: {
      entries: critters.map((critter, index) => ({
        id: critter.id,
        probability: posterior.probabilities[index] ?? 0,
        pest: pestShare(critter),
      })),
      nothing: posterior.nothing,
    },
    dangers: saysSomething ? dangerousOf([...possible, ...decision.notRuledOut]) : [],
  };
}

/** What a sighting brought along already holds its words; without one the words are read. */
function evidenceFrom(identifier: Identifier, { text, sighting }: Pick<Case, 'text' | 'sighting'>): Evidence {
  if (sighting) return evidenceOf(identifier.model(), identifier.base, sighting);
  return text.trim() === '' ? NO_EVIDENCE : identifier.read(text).evidence;
}

const CAUTION = { keep: 0, watch: 1, remove: 2, urgent: 3 } as const;

/** Animals that can hurt a person, each once, the gravest first; among equals the order stays. */
export const dangerousOf = (critters: readonly Critter[]): Critter[] => {
  const weight = (critter: Critter) => (isGrave(critter) ? 10 : 0) + CAUTION[critter.verdict];
  return [...new Set(critters)]
    .filter(({ humanHazards }) => humanHazards.length > 0)
    .sort((one, other) => weight(other) - weight(one));
};

/** How much of a pest an entry is, for a ballot that only knows pest and harmless. */
export function pestShare(critter: Critter): number {
  if (isHarmful(critter)) return 1;
  return critter.verdict === 'keep' ? 0 : 0.5;
}
