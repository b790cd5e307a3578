import type { Critter } from '../knowledge/critter.ts';
import { pairOf, type KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { LookAlike } from '../knowledge/look-alike.ts';
import type { Evidence, FeatureAnswer } from './evidence.ts';
import { actToSay, expectedHarms, leastHarm, severityWeights, type Act } from './harm.ts';
import { againstOf, doublesLeft, oddsAllowLeaving, oneSlipAway, stakesOf } from './leave.ts';
import type { Model } from './model.ts';
import type { Posterior } from './posterior.ts';

export { isHarmful } from './leave.ts';

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
  /** Harmful animals that one wrong answer could have hidden, where nothing else keeps "leave it" from being said. */
  oneSlipAway: Critter[];
  settle: SettlingFeature | null;
};

/** Candidates less probable than this are not worth a line. */
const WORTH_NAMING = 0.03;
/** At most this many animals that one slip could have hidden are named. */
const MOST_SLIPS = 2;

/**
 * What to say: the act with the least expected harm over the posterior, not the likeliest name.
 *
 * "Leave it" also needs every harmful look-alike ruled out, by a clearing feature where the look-alike can hurt a
 * person, and no harmful animal that a single wrong answer could have hidden; see `leave.ts`. Else the act is at least
 * "watch it".
 */
export function decide(model: Model, base: KnowledgeBase, posterior: Posterior, evidence: Evidence): Decision {
  const { probabilities, nothing } = posterior;
  const stakes = stakesOf(model, base);
  const firsts = withNamed(
    firstThree(probabilities),
    probabilities,
    evidence.named.map((id) => model.indexOf.get(id) ?? -1),
  );
  const candidates = firsts
    .flatMap((index) => {
      const critter = model.critters[index];
      return critter ? [{ critter, probability: probabilities[index] ?? 0 }] : [];
    })
    .filter(({ probability }, rank) => rank === 0 || probability >= WORTH_NAMING);
  const [top] = candidates;
  const { act: least } = leastHarm(expectedHarms(severityWeights(stakes.severities, probabilities), nothing));
  const notRuledOut = doublesLeft(
    stakes,
    model.critters,
    firsts[0] ?? -1,
    (index) => probabilities[index] ?? 0,
    evidence.features,
  );
  let harmfulMass = 0;
  for (const index of stakes.harmful) harmfulMass += probabilities[index] ?? 0;
  const otherwise =
    least === 'keep' &&
    notRuledOut.length === 0 &&
    !evidence.alarm &&
    oddsAllowLeaving(top?.probability ?? 0, harmfulMass, nothing);
  const slips = otherwise ? oneSlipAway(stakes, againstOf(model, base, evidence)) : [];
  const act = actToSay(least, top?.probability ?? 0, top?.critter.verdict ?? 'keep', otherwise && slips.length === 0);
  const named = act !== 'ask';
  const hidden = slips
    .sort((one, other) => (probabilities[other] ?? 0) - (probabilities[one] ?? 0))
    .slice(0, MOST_SLIPS)
    .flatMap((index) => model.critters[index] ?? []);
  return {
    kind: named ? 'likely' : 'cannot-tell',
    act,
    candidates,
    nothing,
    notRuledOut,
    oneSlipAway: hidden,
    settle: settlingFeature(base, candidates, [...notRuledOut, ...hidden], evidence.features),
  };
}

/** The three most probable entries, in that order; of equals the earlier one first. */
function firstThree(probabilities: Float64Array): number[] {
  const firsts: number[] = [];
  for (let index = 0; index < probabilities.length; index += 1) {
    const probability = probabilities[index] ?? 0;
    let rank = firsts.length;
    while (rank > 0 && (probabilities[firsts[rank - 1] ?? 0] ?? 0) < probability) rank -= 1;
    if (rank < 3) firsts.splice(rank, 0, index);
    if (firsts.length > 3) firsts.pop();
  }
  return firsts;
}

/** Whoever asks after an animal by name hears of it: where it is possible at all, it takes the third place. */
function withNamed(firsts: number[], probabilities: Float64Array, named: readonly number[]): number[] {
  const [missing] = named
    .filter((index) => !firsts.includes(index) && (probabilities[index] ?? 0) >= WORTH_NAMING)
    .sort((one, other) => (probabilities[other] ?? 0) - (probabilities[one] ?? 0));
  return missing === undefined ? firsts : [...firsts.slice(0, 2), missing];
}

/**
 * The look that would help most: between the first candidate and the look-alike that keeps it from being cleared,
 * else the next candidate. A feature already answered is not asked again.
 */
function settlingFeature(
  base: KnowledgeBase,
  candidates: readonly Candidate[],
  suspects: readonly Critter[],
  answered: readonly FeatureAnswer[],
): SettlingFeature | null {
  const [top, ...others] = candidates;
  if (!top) return null;
  for (const suspect of [...suspects, ...others.map(({ critter }) => critter)]) {
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
