import type { Critter } from '../knowledge/critter.ts';
import { pairOf, type KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { LookAlike } from '../knowledge/look-alike.ts';
import { isGrave } from '../knowledge/look-up.ts';
import type { Evidence, FeatureAnswer } from './evidence.ts';
import { ACTS, expectedHarms, leastHarm, severityOf, severityWeights, type Act } from './harm.ts';
import type { Model } from './model.ts';
import type { Posterior } from './posterior.ts';

export type Candidate = { critter: Critter; probability: number };

/** A look at one telling feature that would decide between two animals. */
export type SettlingFeature = { pair: LookAlike; feature: number; suspect: Critter; against: Critter };

export type Decision = {
  /** `likely`: the first candidate may be named; `cannot-tell`: nobody should act on a name yet. */
  kind: 'likely' | 'cannot-tell';
  act: Act;
  /** At most three, most probable first. */
  candidates: Candidate[];
  nothing: number;
  /** Harmful look-alikes that keep "leave it" from being said. */
  notRuledOut: Critter[];
  settle: SettlingFeature | null;
};

/** A name is put forward from this probability on. */
const LIKELY = 0.5;
/** Candidates less probable than this are not worth a line. */
const WORTH_NAMING = 0.03;
/** A harmful look-alike this far below the first candidate counts as ruled out by what was seen. */
const RULED_OUT = 1 / 400;
const GRAVE_RULED_OUT = 1 / 3000;
/** "Leave it" is not said while all that is harmful together is more probable than this, nor with too much unknown. */
const HARMFUL_LEFT = 0.01;
const UNKNOWN_LEFT = 0.12;
/** Nor is it said of a name less probable than this. */
const SURE_ENOUGH_TO_LEAVE = 0.8;

const CAUTION = Object.fromEntries(ACTS.map((act, rank) => [act, rank])) as Record<Act, number>;

/** Whether leaving this one alone could end badly. */
export const isHarmful = (critter: Critter) =>
  critter.verdict === 'remove' || critter.verdict === 'urgent' || isGrave(critter);

/**
 * What to say: the act with the least expected harm over the posterior, not the likeliest name.
 *
 * "Leave it" also needs every harmful look-alike ruled out, by a clearing feature where the look-alike can hurt a
 * person. While one is left the act is at least "watch it".
 */
export function decide(model: Model, base: KnowledgeBase, posterior: Posterior, evidence: Evidence): Decision {
  const ranked = [...posterior.probabilities.keys()].sort(
    (one, other) => (posterior.probabilities[other] ?? 0) - (posterior.probabilities[one] ?? 0) || one - other,
  );
  const candidates = ranked
    .slice(0, 3)
    .flatMap((index) => {
      const critter = model.critters[index];
      return critter ? [{ critter, probability: posterior.probabilities[index] ?? 0 }] : [];
    })
    .filter(({ probability }, rank) => rank === 0 || probability >= WORTH_NAMING);
  const [top] = candidates;
  const severities = model.critters.map(severityOf);
  const harms = expectedHarms(severityWeights(severities, posterior.probabilities), posterior.nothing);
  const { act: least } = leastHarm(harms);
  const notRuledOut = top ? harmfulLookAlikes(model, base, posterior, evidence, top) : [];
  const harmfulMass = model.critters.reduce(
    (sum, critter, index) => sum + (isHarmful(critter) ? (posterior.probabilities[index] ?? 0) : 0),
    0,
  );
  const mayLeave =
    notRuledOut.length === 0 &&
    !evidence.alarm &&
    harmfulMass <= HARMFUL_LEFT &&
    posterior.nothing <= UNKNOWN_LEFT &&
    (top?.probability ?? 0) >= SURE_ENOUGH_TO_LEAVE;
  const act = least === 'keep' && !mayLeave ? 'watch' : least;
  const named = top !== undefined && top.probability >= LIKELY && act !== 'ask';
  // A doubtful name never lowers what the named animal itself asks for.
  const careful = named && act !== 'keep' && CAUTION[top.critter.verdict] > CAUTION[act] ? top.critter.verdict : act;
  return {
    kind: named ? 'likely' : 'cannot-tell',
    act: named ? careful : 'ask',
    candidates,
    nothing: posterior.nothing,
    notRuledOut,
    settle: settlingFeature(base, candidates, notRuledOut, evidence.features),
  };
}

function harmfulLookAlikes(
  model: Model,
  base: KnowledgeBase,
  posterior: Posterior,
  evidence: Evidence,
  top: Candidate,
): Critter[] {
  if (top.critter.verdict !== 'keep') return [];
  return (base.lookAlikesOf.get(top.critter.id) ?? []).flatMap((pair) => {
    const other = base.critters.get(pair.a === top.critter.id ? pair.b : pair.a);
    const isDanger = pair.danger !== undefined && pair.danger === other?.id;
    if (!other || (!isHarmful(other) && !isDanger)) return [];
    const probability = posterior.probabilities[model.indexOf.get(other.id) ?? -1] ?? 0;
    if (probability / top.probability < (isGrave(other) ? GRAVE_RULED_OUT : RULED_OUT)) return [];
    return isDanger && wasCleared(pair, top.critter, evidence.features) ? [] : [other];
  });
}

const wasCleared = (pair: LookAlike, critter: Critter, features: readonly FeatureAnswer[]) =>
  features.some(
    (answer) => answer.pair === pair.id && answer.looksLike === critter.id && pair.features[answer.feature]?.clears,
  );

/**
 * The look that would help most: between the first candidate and the look-alike that keeps it from being cleared,
 * else the next candidate. A feature already answered is not asked again.
 */
function settlingFeature(
  base: KnowledgeBase,
  candidates: readonly Candidate[],
  notRuledOut: readonly Critter[],
  answered: readonly FeatureAnswer[],
): SettlingFeature | null {
  const [top, ...others] = candidates;
  if (!top) return null;
  for (const suspect of [...notRuledOut, ...others.map(({ critter }) => critter)]) {
    const pair = pairOf(base, top.critter.id, suspect.id);
    if (!pair) continue;
    const open = pair.features
      .map((feature, index) => ({ feature, index }))
      .filter(({ index }) => !answered.some((answer) => answer.pair === pair.id && answer.feature === index));
    const choice = pair.danger ? (open.find(({ feature }) => feature.clears) ?? open[0]) : open[0];
    if (choice) return { pair, feature: choice.index, suspect, against: top.critter };
  }
  return null;
}
