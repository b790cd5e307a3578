import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import {
  distinctObservations,
  observationKey,
  type Context,
  type Evidence,
  type FeatureAnswer,
  type Observation,
} from './evidence.ts';
import { sizeLikelihood, sizeNoise, valueKey, type Model, type Ratios } from './model.ts';

/** What one piece of evidence did for every entry: natural logarithms of likelihood ratios. */
export type Contribution = { key: string; logRatios: Float64Array; observation?: Observation };

/** The probability of every entry, in the order of `model.critters`, and of something there is no entry for. */
export type Posterior = {
  probabilities: Float64Array;
  nothing: number;
  contributions: readonly Contribution[];
  logPrior: Float64Array;
};

/** How much a coral beside it, or a new rock or coral, raises the odds of what comes with it. */
const PEST_OF_THE_CORAL = 5;
const LODGER_OF_THE_CORAL = 4;
const LIVES_IN_ROCK = 1.5;
const LIVES_ON_CORALS = 2;
/** How much a name that the member let fall counts. They may be wrong; that is why they ask. */
const NAMED_BY_MEMBER = 4;
/** A look at a telling feature is right this often. */
const FEATURE_RELIABILITY = 0.88;
/** The seen sign of a danger convicts it against every other animal, not against its double alone. */
const DANGER_SIGN = 8;

/** What lives on which coral; the pests of the corals' own entries. */
export type CoralCompany = ReadonlyMap<string, { pests: readonly string[]; lodgers: readonly string[] }>;

/**
 * The posterior over entries given the evidence: prior times likelihood ratios, normalised.
 *
 * Every term is a ratio to how often the same would be said at all, so "something we have no entry for" has ratio 1
 * throughout, and evidence that fits no entry raises it. Order and repetition of evidence change nothing.
 */
export function posteriorOf(model: Model, base: KnowledgeBase, evidence: Evidence, company: CoralCompany): Posterior {
  const contributions: Contribution[] = [
    ...distinctObservations(evidence.observations).map((observation) => ({
      key: observationKey(observation),
      observation,
      logRatios: logRatiosOf(model, observation),
    })),
    ...distinctFeatures(evidence.features).flatMap((answer) => featureContribution(model, base, answer)),
  ];
  const logPrior = new Float64Array(model.prior.length);
  for (let index = 0; index < logPrior.length; index += 1)
    logPrior[index] = Math.log(
      (model.prior[index] ?? 0) *
        contextFactor(model, index, evidence.context, company) *
        namedFactor(model, index, evidence.named),
    );
  const scores = Float64Array.from(logPrior);
  for (const { logRatios } of contributions)
    for (let index = 0; index < scores.length; index += 1)
      scores[index] = (scores[index] ?? 0) + (logRatios[index] ?? 0);
  return { ...normalised(scores, Math.log(model.nothing)), contributions, logPrior };
}

/** Adds one more observation to a posterior without working the others out again. */
export function withRatios(posterior: Pick<Posterior, 'probabilities' | 'nothing'>, ratios: Ratios, nothingRatio = 1) {
  const probabilities = new Float64Array(posterior.probabilities.length);
  let sum = posterior.nothing * nothingRatio;
  for (let index = 0; index < probabilities.length; index += 1) {
    const joint = (posterior.probabilities[index] ?? 0) * (ratios[index] ?? 1);
    probabilities[index] = joint;
    sum += joint;
  }
  for (let index = 0; index < probabilities.length; index += 1)
    probabilities[index] = (probabilities[index] ?? 0) / sum;
  return { probabilities, nothing: (posterior.nothing * nothingRatio) / sum, evidence: sum };
}

/** P(observation | entry) ÷ P(observation) for every entry; several readings count by their mean. */
export function observationRatios(model: Model, observation: Observation): Ratios {
  if (observation.kind === 'size') return sizeRatios(model, observation.lowMm, observation.highMm);
  if (observation.kind === 'word') return wordRatios(model, observation.word);
  const table = { saw: model.saw, 'saw-not': model.sawNot, chose: model.chose }[observation.kind];
  const ratios = new Float64Array(model.critters.length);
  const tables = observation.readings.flatMap(({ trait, value }) => table.get(valueKey(trait, value)) ?? []);
  if (tables.length === 0) return ratios.fill(1);
  for (const each of tables)
    for (let index = 0; index < ratios.length; index += 1)
      ratios[index] = (ratios[index] ?? 0) + (each[index] ?? 1) / tables.length;
  return ratios;
}

/** Logarithms of the model's own columns, each worked out once; contributions share them and nobody writes to them. */
const logColumns = new WeakMap<Ratios, Float64Array>();

function logRatiosOf(model: Model, observation: Observation): Float64Array {
  if (observation.kind === 'word') {
    const { has, hasNot } = wordTerms(model, observation.word);
    return wordColumn(model, observation.word, Math.log(has), Math.log(hasNot));
  }
  if (observation.kind === 'size' || observation.readings.length > 1)
    return logged(observationRatios(model, observation));
  const [reading] = observation.readings;
  const table = { saw: model.saw, 'saw-not': model.sawNot, chose: model.chose }[observation.kind];
  const column = reading && table.get(valueKey(reading.trait, reading.value));
  if (!column) return new Float64Array(model.critters.length);
  let logs = logColumns.get(column);
  if (!logs) logColumns.set(column, (logs = logged(column)));
  return logs;
}

/** How likely a member is to use a word that the entry's own description has, rather than any word. */
const WORD_RELIABILITY = 0.22;
/** A word that hardly any description has must not decide alone. */
const LEAST_WORD_SHARE = 0.03;

function wordRatios(model: Model, word: string): Ratios {
  const { has, hasNot } = wordTerms(model, word);
  return wordColumn(model, word, has, hasNot);
}

/** The ratio for an entry whose description has the word, and for one that has it not. */
function wordTerms(model: Model, word: string): { has: number; hasNot: number } {
  if (!model.prose.entriesWith(word)) return { has: 1, hasNot: 1 };
  const share = Math.max(LEAST_WORD_SHARE, model.prose.shareWith(word));
  return { has: 1 - WORD_RELIABILITY + WORD_RELIABILITY / share, hasNot: 1 - WORD_RELIABILITY };
}

function wordColumn(model: Model, word: string, has: number, hasNot: number): Float64Array {
  const column = new Float64Array(model.critters.length).fill(hasNot);
  for (const index of model.prose.entriesWith(word) ?? []) column[index] = has;
  return column;
}

function sizeRatios(model: Model, lowMm: number, highMm: number): Ratios {
  const { reliability, marginal } = model.size;
  const m = marginal(lowMm, highMm);
  return Float64Array.from(model.critters, ({ traits: { sizeMm } }) =>
    sizeMm
      ? (reliability * sizeLikelihood(sizeMm, lowMm, highMm) + (1 - reliability) * sizeNoise(lowMm, highMm)) / m
      : 1,
  );
}

/**
 * A telling feature speaks about its two animals only. Where one can hurt a person, its sign may convict it, but
 * only a feature marked as clearing may acquit it: without one the answer changes nothing.
 */
export function featureRatios(
  model: Model,
  base: KnowledgeBase,
  { pair: id, feature, looksLike }: FeatureAnswer,
): Ratios {
  const ratios = new Float64Array(model.critters.length).fill(1);
  const pair = base.lookAlikes.get(id);
  const asked = pair?.features[feature];
  if (!pair || !asked || (looksLike !== pair.a && looksLike !== pair.b)) return ratios;
  const other = looksLike === pair.a ? pair.b : pair.a;
  if (pair.danger === other && !asked.clears) return ratios;
  const yes = model.indexOf.get(looksLike);
  const no = model.indexOf.get(other);
  if (yes !== undefined) ratios[yes] = pair.danger === looksLike ? DANGER_SIGN : 2 * FEATURE_RELIABILITY;
  if (no !== undefined) ratios[no] = 2 * (1 - FEATURE_RELIABILITY);
  return ratios;
}

function featureContribution(model: Model, base: KnowledgeBase, answer: FeatureAnswer): Contribution[] {
  return [{ key: `feature ${answer.pair}#${answer.feature}`, logRatios: logged(featureRatios(model, base, answer)) }];
}

/** The same feature answered twice counts once; answered both ways it says nothing. */
function distinctFeatures(features: readonly FeatureAnswer[]): FeatureAnswer[] {
  const byFeature = new Map<string, FeatureAnswer | null>();
  for (const answer of features) {
    const key = `${answer.pair}#${answer.feature}`;
    const earlier = byFeature.get(key);
    byFeature.set(key, earlier === undefined || earlier?.looksLike === answer.looksLike ? answer : null);
  }
  return [...byFeature.entries()]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .flatMap(([, answer]) => answer ?? []);
}

function contextFactor(model: Model, index: number, { near, since }: Context, company: CoralCompany): number {
  const critter = model.critters[index];
  if (!critter) return 1;
  let factor = 1;
  const coral = near ? company.get(near) : undefined;
  if (coral?.pests.includes(critter.id)) factor *= PEST_OF_THE_CORAL;
  if (coral?.lodgers.includes(critter.id)) factor *= LODGER_OF_THE_CORAL;
  const places: readonly string[] = critter.traits.whereSeen;
  if (since === 'new rock' && places.some((place) => place === 'rock' || place === 'under-rock'))
    factor *= LIVES_IN_ROCK;
  if (
    since === 'new coral' &&
    places.some((place) => place.startsWith('coral') || place === 'frag-plug' || place === 'zoanthids')
  )
    factor *= LIVES_ON_CORALS;
  return factor;
}

const namedFactor = (model: Model, index: number, named: readonly string[]) =>
  named.includes(model.critters[index]?.id ?? '') ? NAMED_BY_MEMBER : 1;

const logged = (ratios: Ratios) => ratios.map((ratio) => Math.log(Math.max(1e-9, ratio)));

/** Turns log scores into probabilities that sum to 1, without overflow. */
function normalised(scores: Float64Array, logNothing: number): { probabilities: Float64Array; nothing: number } {
  const highest = scores.reduce((most, score) => Math.max(most, score), logNothing);
  let sum = Math.exp(logNothing - highest);
  const probabilities = scores.map((score) => Math.exp(score - highest));
  for (const each of probabilities) sum += each;
  for (let index = 0; index < probabilities.length; index += 1)
    probabilities[index] = (probabilities[index] ?? 0) / sum;
  return { probabilities, nothing: Math.exp(logNothing - highest) / sum };
}
