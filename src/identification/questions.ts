import { pairOf, type KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { NAMED_TRAITS, type NamedTrait } from '../knowledge/trait-words.ts';
import type { Decision } from './decide.ts';
import type { Evidence, Observation } from './evidence.ts';
import { valueKey, type Model } from './model.ts';
import type { Posterior } from './posterior.ts';
import { createScales } from './worth.ts';

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
/** An answer that saves less than this, on the scale of harm, is not worth a press; patience wears thin in the end. */
const WORTH_ASKING = 0.18;
const WORTH_ASKING_AFTER: Readonly<Record<number, number>> = { 6: 0.25, 7: 0.36 };
const WORTH_ASKING_LAST = 0.36;
/** A question that parts the names by less than this says nothing. */
const WORTH_KNOWING_BITS = 0.32;
/** After so many questions a name alone is no reason to go on: there are too few left to use it. */
const NAMES_COUNT_UNTIL = 5;
/** While nobody knows at all, names are worth something too: they lead to the right advice. */
const HARM_PER_BIT = 0.25;
const LEAST_SHARE = 0.004;

/** What the next question is chosen from. */
export type Known = { posterior: Posterior; decision: Decision; evidence: Evidence };

/**
 * The question to ask next: the one whose answers save most expected harm of the advice, names being worth a little as
 * well; null when no answer could change what one does, or everything has been asked.
 */
export function nextQuestion(
  model: Model,
  base: KnowledgeBase,
  { posterior, decision, evidence }: Known,
  asked: ReadonlySet<string>,
): Question | null {
  const pool = [
    ...traitQuestions(model, posterior, new Set([...asked, ...toldTraits(evidence)])),
    ...sizeQuestion(model, asked),
    ...featureQuestions(base, decision, asked),
  ];
  const scales = createScales(model, base, posterior, evidence);
  const weighed = pool.map((question) => ({ ...question, ...scales.worthOf(question) }));
  const settled = decision.kind === 'likely' && decision.notRuledOut.length === 0;
  const worthAPress = WORTH_ASKING_AFTER[asked.size] ?? (asked.size > 7 ? WORTH_ASKING_LAST : WORTH_ASKING);
  const namesCount = !settled && asked.size < NAMES_COUNT_UNTIL;
  const worthy = weighed.filter(({ value, bits }) => value > worthAPress || (namesCount && bits > WORTH_KNOWING_BITS));
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

function traitQuestions(model: Model, weights: Posterior, asked: ReadonlySet<string>): Question[] {
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
function shareOf(model: Model, { probabilities, nothing }: Posterior, trait: NamedTrait, value: string): number {
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
  { candidates, notRuledOut, oneSlipAway }: Decision,
  asked: ReadonlySet<string>,
): Question[] {
  const [top, ...others] = candidates.map(({ critter }) => critter);
  if (!top) return [];
  const rivals = [...new Set([...notRuledOut, ...oneSlipAway, ...others])];
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
