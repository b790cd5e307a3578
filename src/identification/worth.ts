import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Evidence, Observation } from './evidence.ts';
import { actToSay, expectedHarms, leastHarm, SEVERITIES } from './harm.ts';
import { againstOf, doublesLeft, isOneSlipAway, oddsAllowLeaving, stakesOf } from './leave.ts';
import { misfitOf, misfitOfFeature } from './misfit.ts';
import { valueKey, type Model, type Ratios } from './model.ts';
import { featureRatios, observationRatios, type Posterior } from './posterior.ts';
import type { Option, Question } from './questions.ts';

/** What a question is worth: the harm its answers save, and how much they tell about the name. */
export type Worth = { value: number; bits: number };

/** How things stand: the expected harm of what is said, the doubt about the name in bits, and P(the evidence). */
type Standing = { harm: number; least: number; doubt: number; evidence: number };

/** What an answer would do: its likelihood ratios and their logarithms to base 2, its misfits, and how often it is given. */
type Effect = { ratios: Ratios; logs: Ratios; misfit: Ratios; share: number; feature?: Evidence['features'][number] };

/** Less probable than this and no answer of the key can bring it back into play: it is left out of the sums. */
const OUT_OF_PLAY = 1e-8;

/**
 * Weighs questions against what is known. Built once a step, as a hundred answers are weighed at every step; what an
 * answer does is a column that was worked out when it was first offered, so weighing it is a pass over the entries
 * still in play, with products and sums alone.
 */
export function createScales(
  model: Model,
  base: KnowledgeBase,
  posterior: Posterior,
  evidence: Evidence,
): { worthOf: (question: Pick<Question, 'options'>) => Worth } {
  const { probabilities, nothing } = posterior;
  const stakes = stakesOf(model, base);
  const against = againstOf(model, base, evidence);
  const inPlay = Uint16Array.from(model.critters.keys()).filter((index) => (probabilities[index] ?? 0) > OUT_OF_PLAY);
  const logs = new Float64Array(inPlay.length);
  inPlay.forEach((index, at) => (logs[at] = Math.log2(probabilities[index] ?? 1)));
  const logNothing = nothing > 0 ? Math.log2(nothing) : 0;
  const bySeverity = new Float64Array(SEVERITIES.length);

  /**
   * How things would stand after one more answer. The doubt is the entropy, from unnormalised weights w:
   * log2(Σw) − Σ w·log2(w) / Σw.
   */
  const standingAfter = (effect: Effect | null): Standing => {
    bySeverity.fill(0);
    let sum = nothing;
    let products = nothing * logNothing;
    let harmful = 0;
    let top = -1;
    let highest = 0;
    for (let at = 0; at < inPlay.length; at += 1) {
      const index = inPlay[at] ?? 0;
      const weight = (probabilities[index] ?? 0) * (effect?.ratios[index] ?? 1);
      sum += weight;
      products += weight * ((logs[at] ?? 0) + (effect?.logs[index] ?? 0));
      const severity = stakes.severityAt[index] ?? 0;
      bySeverity[severity] = (bySeverity[severity] ?? 0) + weight;
      if (stakes.isHarmful[index] === 1) harmful += weight;
      if (weight > highest) {
        highest = weight;
        top = index;
      }
    }
    const share = (severity: number) => (bySeverity[severity] ?? 0) / sum;
    const harms = expectedHarms(
      { keep: share(0), watch: share(1), remove: share(2), urgent: share(3), grave: share(4) },
      nothing / sum,
    );
    const { act: least, harm: leastOfAll } = leastHarm(harms);
    const mayLeave =
      least === 'keep' &&
      !evidence.alarm &&
      oddsAllowLeaving(highest / sum, harmful / sum, nothing / sum) &&
      doublesLeft(
        stakes,
        model.critters,
        top,
        (index) => (probabilities[index] ?? 0) * (effect?.ratios[index] ?? 1),
        effect?.feature ? [...evidence.features, effect.feature] : evidence.features,
      ).length === 0 &&
      !isOneSlipAway(stakes, against, effect?.misfit ?? null);
    const act = actToSay(least, highest / sum, model.critters[top]?.verdict ?? 'keep', mayLeave);
    return { harm: harms[act], least: leastOfAll, doubt: Math.log2(sum) - products / sum, evidence: sum };
  };

  const now = standingAfter(null);
  return {
    worthOf({ options }) {
      let whole = 0;
      let harm = 0;
      let least = 0;
      let doubt = 0;
      for (const { adds } of options) {
        const effect = effectOf(model, base, adds);
        const after = standingAfter(effect);
        const weight = after.evidence * effect.share;
        whole += weight;
        harm += weight * (now.harm - after.harm);
        least += weight * (now.least - after.least);
        doubt += weight * (now.doubt - after.doubt);
      }
      // What is left of 1 are answers that are not offered, and "can't see": they leave everything as it is.
      const scale = Math.min(1, whole) / (whole + 1e-12);
      return { value: (scale * (harm + least)) / 2, bits: scale * doubt };
    },
  };
}

const columns = new WeakMap<Model, Map<string, Effect>>();

/** The effect of an answer; of the answers about traits and length it is worked out once. */
function effectOf(model: Model, base: KnowledgeBase, { observations = [], features = [] }: Option['adds']): Effect {
  const [observation] = observations;
  const [feature] = features;
  if (!observation) return featureEffect(model, base, feature);
  const known = columns.get(model) ?? new Map<string, Effect>();
  columns.set(model, known);
  const key = keyOf(observation);
  let effect = known.get(key);
  if (!effect) {
    const ratios = observationRatios(model, observation);
    const misfit = misfitOf(model, observation);
    effect = { ratios, logs: ratios.map(Math.log2), misfit, share: shareOf(model, observation) };
    known.set(key, effect);
  }
  return effect;
}

const keyOf = (observation: Observation) =>
  observation.kind === 'size'
    ? `${observation.lowMm}-${observation.highMm}`
    : 'readings' in observation
      ? valueKey(observation.readings[0]?.trait ?? 'colour', observation.readings[0]?.value ?? '')
      : '';

/** How often an answer is given at all. */
function shareOf(model: Model, observation: Observation): number {
  if (observation.kind === 'size') return model.size.marginal(observation.lowMm, observation.highMm);
  if (observation.kind === 'word') return 0;
  const [reading] = observation.readings;
  return reading ? (model.marginal.get(valueKey(reading.trait, reading.value)) ?? 0) : 0;
}

/** The two sides of a feature are given equally often. */
function featureEffect(model: Model, base: KnowledgeBase, feature: Evidence['features'][number] | undefined): Effect {
  const none = new Float64Array(model.critters.length);
  if (!feature) return { ratios: none.map(() => 1), logs: none, misfit: none, share: 0.5 };
  const ratios = featureRatios(model, base, feature);
  const pair = base.lookAlikes.get(feature.pair);
  // A feature speaks about its two animals only: of all others the ratio is 1.
  for (const id of pair ? [pair.a, pair.b] : []) {
    const index = model.indexOf.get(id);
    if (index !== undefined) none[index] = Math.log2(ratios[index] ?? 1);
  }
  return { ratios, logs: none, misfit: misfitOfFeature(model, base, feature), share: 0.5, feature };
}
