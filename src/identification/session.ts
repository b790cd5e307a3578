import { z } from 'zod';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { NAMED_TRAITS, type NamedTrait } from '../knowledge/trait-words.ts';
import type { Evidence, FeatureAnswer, Observation } from './evidence.ts';
import type { Model } from './model.ts';

/** One question that was put, and what was pressed; `skip` is "can't see". */
export const Answer = z.strictObject({ question: z.string().max(120), option: z.string().max(60) });
export type Answer = z.infer<typeof Answer>;

/** What the description brought, as it is kept. */
export const Described = z.strictObject({
  observations: z.array(
    z.union([
      z.strictObject({
        kind: z.enum(['saw', 'saw-not', 'chose']),
        readings: z.array(z.strictObject({ trait: z.enum(NAMED_TRAITS), value: z.string() })),
        said: z.string().optional(),
      }),
      z.strictObject({ kind: z.literal('size'), lowMm: z.number(), highMm: z.number(), said: z.string().optional() }),
      z.strictObject({ kind: z.literal('word'), word: z.string() }),
    ]),
  ),
  named: z.array(z.string()),
  alarm: z.boolean(),
  hurt: z.array(z.string()).default([]),
  near: z.string().nullable(),
  since: z.enum(['new rock', 'new coral', 'always here']).nullable(),
});
export type Described = z.infer<typeof Described>;

/** A sighting that somebody works on: what they wrote, and the answers since. Undo takes the last answer off. */
export type Sighting = {
  id: number;
  memberId: string;
  guildId: string | null;
  text: string;
  described: Described;
  answers: readonly Answer[];
};

export const NOTHING_DESCRIBED: Described = {
  observations: [],
  named: [],
  alarm: false,
  hurt: [],
  near: null,
  since: null,
};

/** The evidence of a sighting: its description and its answers, folded together. Pure. */
export function evidenceOf(
  model: Model,
  base: KnowledgeBase,
  { described, answers }: Pick<Sighting, 'described' | 'answers'>,
): Evidence {
  const added = answers.map((answer) => meaningOf(model, base, answer));
  return {
    observations: [
      ...described.observations.map(asObservation),
      ...added.flatMap(({ observation }) => observation ?? []),
    ],
    features: added.flatMap(({ feature }) => feature ?? []),
    named: described.named,
    alarm: described.alarm,
    hurt: described.hurt,
    context: {
      ...(described.near ? { near: described.near } : {}),
      ...(described.since ? { since: described.since } : {}),
    },
  };
}

/** Which questions have been put. */
export const askedIn = ({ answers }: Pick<Sighting, 'answers'>): Set<string> =>
  new Set(answers.map(({ question }) => question));

function asObservation(kept: Described['observations'][number]): Observation {
  if (kept.kind === 'word') return kept;
  const { said, ...rest } = kept;
  return said === undefined ? rest : { ...rest, said };
}

function meaningOf(
  model: Model,
  base: KnowledgeBase,
  { question, option }: Answer,
): { observation?: Observation; feature?: FeatureAnswer } {
  if (option === 'skip') return {};
  if (question === 'sizeMm') {
    const size = model.vocabulary.sizeMm.options[Number(option)];
    return size ? { observation: { kind: 'size', lowMm: size.low, highMm: size.high } } : {};
  }
  const [kind, pair = '', feature = ''] = question.split('/');
  if (kind === 'pair')
    return base.lookAlikes.has(pair) ? { feature: { pair, feature: Number(feature), looksLike: option } } : {};
  return isTraitName(question)
    ? { observation: { kind: 'chose', readings: [{ trait: question, value: option }] } }
    : {};
}

export const isTraitName = (name: string): name is NamedTrait => NAMED_TRAITS.some((trait) => trait === name);
