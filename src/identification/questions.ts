import { pairOf, type KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { NAMED_TRAITS, type NamedTrait } from '../knowledge/trait-words.ts';
import { decide, type Decision } from './decide.ts';
import type { Evidence, Observation } from './evidence.ts';
import { expectedHarms, leastHarm, severityOf, SEVERITIES, type Severity } from './harm.ts';
import { valueKey, type Model, type Ratios } from './model.ts';
import { featureRatios, observationRatios, type Posterior } from './posterior.ts';

/** One answer that can be pressed. */
export type Option = { id: string; say: string; adds: Partial<Pick<Evidence, 'observations' | 'features'>> };

export type Question = {
  id: string;
  ask: string;
  trait?: NamedTrait;
  options: Option[];
  /** How much expected harm the answer saves, and how much it tells about the name. */
  value: number;
  bits: number;
};

/** At most this many options stand under a question. */
const MOST_OPTIONS = 8;
const MOST_SHAPES = 14;
/** What is easiest to see is asked first: the shape, then whatever else needs no practice. */
const EASE = { shape: 2, first: 1.3, later: 1 } as const;
/** An answer that saves less than this, on the scale of harm, is not worth a press. */
const WORTH_ASKING = 0.18;
/** A question that parts the names by less than this says nothing. */
const WORTH_KNOWING_BITS = 0.32;
/** While nobody knows at all, names are worth something too: they lead to the right advice. */
const HARM_PER_BIT = 0.25;
const LEAST_SHARE = 0.004;

/** The probabilities a question is weighed with. */
type Weights = Pick<Posterior, 'probabilities' | 'nothing'>;

/**
 * The question to ask next: the one whose answers save most expected harm, names being worth a little as well; null
 * when no answer could change what one does, or everything has been asked.
 */
export function nextQuestion(
  model: Model,
  base: KnowledgeBase,
  posterior: Posterior,
  evidence: Evidence,
  asked: ReadonlySet<string>,
): Question | null {
  const decision = decide(model, base, posterior, evidence);
  const pool = [
    ...traitQuestions(model, posterior, new Set([...asked, ...toldTraits(evidence)])),
    ...sizeQuestion(model, asked),
    ...featureQuestions(base, decision, asked),
  ];
  const severityAt = Uint8Array.from(model.critters, (critter) => SEVERITIES.indexOf(severityOf(critter)));
  const now = standingAfter(posterior, new Float64Array(model.critters.length).fill(1), severityAt);
  const weighed = pool.map((question) => weigh(model, base, posterior, severityAt, now, question));
  const settled = decision.kind === 'likely' && decision.notRuledOut.length === 0;
  const worthy = weighed.filter(({ value, bits }) =>
    settled ? value > WORTH_ASKING : value > WORTH_ASKING || bits > WORTH_KNOWING_BITS,
  );
  const clearing = worthy.find(
    ({ id }) => id.startsWith('pair/') && decision.notRuledOut.length > 0 && decision.kind === 'likely',
  );
  if (clearing) return clearing;
  return worthy.reduce<Question | null>(
    (best, each) => (!best || score(model, each) > score(model, best) ? each : best),
    null,
  );
}

function score(model: Model, { trait, value, bits }: Question): number {
  const stage = trait === undefined ? 'first' : model.vocabulary[trait].stage;
  const ease = trait === 'bodyForm' ? EASE.shape : stage === 'first' ? EASE.first : EASE.later;
  return (value + HARM_PER_BIT * bits) * ease;
}

/** Traits that the description has spoken of: asking again would count the same thing twice. */
const toldTraits = ({ observations }: Evidence): string[] =>
  observations.flatMap((observation) =>
    observation.kind === 'saw' && new Set(observation.readings.map(({ trait }) => trait)).size === 1
      ? observation.readings.slice(0, 1).map(({ trait }) => trait)
      : [],
  );

function traitQuestions(model: Model, weights: Weights, asked: ReadonlySet<string>): Question[] {
  return NAMED_TRAITS.flatMap((trait): Question[] => {
    const entry = model.vocabulary[trait];
    if (entry.stage === 'never' || entry.stage === 'close-photo' || asked.has(trait)) return [];
    const shares = Object.entries(entry.values)
      .filter(([value, { closePhoto }]) => !closePhoto && value !== 'unsure')
      .map(([value, { say }]) => ({ value, say, share: shareOf(model, weights, trait, value) }))
      .filter(({ share }) => share > LEAST_SHARE)
      .sort((one, other) => other.share - one.share)
      .slice(0, trait === 'bodyForm' ? MOST_SHAPES : MOST_OPTIONS);
    if (shares.length < 2) return [];
    return [
      {
        id: trait,
        trait,
        ask: entry.ask,
        options: shares.map(({ value, say }) => ({
          id: value,
          say,
          adds: { observations: [{ kind: 'chose', readings: [{ trait, value }] } satisfies Observation] },
        })),
        value: 0,
        bits: 0,
      },
    ];
  });
}

/** The probability that the answer to the trait's question is this value. */
function shareOf(model: Model, { probabilities, nothing }: Weights, trait: NamedTrait, value: string): number {
  const ratios = model.chose.get(valueKey(trait, value));
  const marginal = model.marginal.get(valueKey(trait, value)) ?? 0;
  if (!ratios) return 0;
  let sum = nothing;
  for (let index = 0; index < probabilities.length; index += 1)
    sum += (probabilities[index] ?? 0) * (ratios[index] ?? 1);
  return sum * marginal;
}

function sizeQuestion(model: Model, asked: ReadonlySet<string>): Question[] {
  const { ask, options, stage } = model.vocabulary.sizeMm;
  if (stage === 'never' || asked.has('sizeMm')) return [];
  return [
    {
      id: 'sizeMm',
      ask,
      options: options.map(({ say, low, high }, at) => ({
        id: String(at),
        say,
        adds: { observations: [{ kind: 'size', lowMm: low, highMm: high } satisfies Observation] },
      })),
      value: 0,
      bits: 0,
    },
  ];
}

/** Telling features between the first candidates, and between the first and what keeps it from being cleared. */
function featureQuestions(
  base: KnowledgeBase,
  { candidates, notRuledOut }: Decision,
  asked: ReadonlySet<string>,
): Question[] {
  const [top, ...others] = candidates.map(({ critter }) => critter);
  if (!top) return [];
  const rivals = [...new Set([...notRuledOut, ...others])];
  return rivals.flatMap((rival) => {
    const pair = pairOf(base, top.id, rival.id);
    if (!pair) return [];
    return pair.features.flatMap((feature, at): Question[] => {
      const id = `pair/${pair.id}/${at}`;
      if (asked.has(id)) return [];
      const side = (looksLike: string, says: string): Option => ({
        id: looksLike,
        say: says,
        adds: { features: [{ pair: pair.id, feature: at, looksLike }] },
      });
      return [
        {
          id,
          ask: `${feature.feature}: which is it? ${feature.check}`,
          options: [side(pair.a, feature.a), side(pair.b, feature.b)],
          value: 0,
          bits: 0,
        },
      ];
    });
  });
}

/** Expected harm now less expected harm after the answer, and the expected loss of doubt about the name. */
function weigh(
  model: Model,
  base: KnowledgeBase,
  posterior: Posterior,
  severityAt: Uint8Array,
  now: Standing,
  question: Question,
): Question {
  const branches = question.options.map(({ adds }) => {
    const after = standingAfter(posterior, optionRatios(model, base, adds), severityAt);
    return { ...after, weight: after.evidence * optionShare(model, adds) };
  });
  // What is left of 1 are answers that are not offered, and "can't see": they leave everything as it is.
  const sum = branches.reduce((total, { weight }) => total + weight, 0);
  const scale = Math.min(1, sum) / (sum + 1e-12);
  const saved = (of: 'harm' | 'doubt') =>
    branches.reduce((total, branch) => total + scale * branch.weight * (now[of] - branch[of]), 0);
  return { ...question, value: saved('harm'), bits: saved('doubt') };
}

/** How things stand: the least expected harm, the doubt about the name in bits, and P(the evidence). */
type Standing = { harm: number; doubt: number; evidence: number };

/**
 * How things would stand after one more observation, in one pass over the entries: the key weighs a hundred answers at
 * every step. The doubt is the entropy, from unnormalised weights w: log2(Σw) − Σ w·log2(w) / Σw.
 */
function standingAfter({ probabilities, nothing }: Weights, ratios: Ratios, severityAt: Uint8Array): Standing {
  const bySeverity = new Float64Array(SEVERITIES.length);
  let sum = nothing;
  let products = nothing > 0 ? nothing * Math.log2(nothing) : 0;
  for (let index = 0; index < probabilities.length; index += 1) {
    const weight = (probabilities[index] ?? 0) * (ratios[index] ?? 1);
    sum += weight;
    const severity = severityAt[index] ?? 0;
    bySeverity[severity] = (bySeverity[severity] ?? 0) + weight;
    if (weight > TOO_SMALL_TO_COUNT) products += weight * Math.log2(weight);
  }
  const weights = Object.fromEntries(SEVERITIES.map((severity, at) => [severity, (bySeverity[at] ?? 0) / sum]));
  const { harm } = leastHarm(expectedHarms(weights as Record<Severity, number>, nothing / sum));
  return { harm, doubt: Math.log2(sum) - products / sum, evidence: sum };
}

function optionRatios(model: Model, base: KnowledgeBase, { observations = [], features = [] }: Option['adds']): Ratios {
  const [observation] = observations;
  if (observation) return observationRatios(model, observation);
  const [feature] = features;
  return feature ? featureRatios(model, base, feature) : new Float64Array(model.critters.length).fill(1);
}

/** How often an answer is given at all; the two sides of a feature are even. */
function optionShare(model: Model, { observations = [] }: Option['adds']): number {
  const [observation] = observations;
  if (!observation) return 0.5;
  if (observation.kind === 'size') return model.size.marginal(observation.lowMm, observation.highMm);
  if (observation.kind === 'word') return 0;
  const [reading] = observation.readings;
  return reading ? (model.marginal.get(valueKey(reading.trait, reading.value)) ?? 0) : 0;
}

/** All entries together below this add less than a hundredth of a bit. */
const TOO_SMALL_TO_COUNT = 1e-6;
