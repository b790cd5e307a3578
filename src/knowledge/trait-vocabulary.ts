import { z } from 'zod';
import { entryId, Traits } from './critter.ts';
import { NAMED_TRAITS, type NamedTrait } from './trait-words.ts';

/** When a trait is worth asking for: at once, later, after a close photo, or never (nobody is asked to touch). */
export const STAGES = ['first', 'later', 'close-photo', 'never'] as const;

const word = z.string().min(1).max(60).toLowerCase();
const reliability = z.number().min(0.3).max(0.98);

/** One value of a trait: what it means, and the words that members use for it. */
export const TraitValue = z.strictObject({
  means: z.string().min(3).max(160),
  /** Label of the option when it is asked. */
  say: z.string().min(1).max(38),
  closePhoto: z.boolean().default(false),
  words: z.array(word).default([]),
  /** Values of the same trait that people take for this one. */
  near: z.array(z.string()).default([]),
});
export type TraitValue = z.infer<typeof TraitValue>;

/** One trait: its question, how often a hurried member's word for it is right, and its values. */
export const TraitEntry = z.strictObject({
  ask: z.string().min(5).max(100),
  stage: z.enum(STAGES),
  reliability,
  values: z.record(z.string(), TraitValue),
});
export type TraitEntry = z.infer<typeof TraitEntry>;

const span = z.union([z.number().positive(), z.tuple([z.number().positive(), z.number().positive()])]);

/** knowledge/traits.yaml: how members speak of what they see, and how often things are met. */
export const TraitVocabulary = z
  .strictObject({
    ...(Object.fromEntries(NAMED_TRAITS.map((name) => [name, TraitEntry])) as Record<NamedTrait, typeof TraitEntry>),
    sizeMm: z.strictObject({
      ask: z.string().min(5).max(100),
      stage: z.enum(STAGES),
      reliability,
      /** Everyday things and adjectives: a length, or a span of lengths, in millimetres. */
      words: z.record(word, span),
      /** Things that are a size only after words such as "size of a": a hand can also be stung. */
      bareWords: z.record(word, z.number().positive()).default({}),
      /** Words for thickness; understood, but no entry records it. */
      thickness: z.array(word).default([]),
      options: z.array(z.strictObject({ say: z.string().max(38), low: z.number(), high: z.number() })).min(2),
    }),
    prior: z.strictObject({
      howOftenMet: z.record(z.enum(['very-common', 'common', 'occasional', 'rare']), z.number().positive()),
      nothingWeKnow: z.number().min(0.01).max(0.4),
    }),
    lights: z.strictObject({ ask: z.string(), blueWords: z.array(word), whiteWords: z.array(word) }),
    since: z.record(z.enum(['new rock', 'new coral', 'always here']), z.strictObject({ words: z.array(word) })),
    /** Words of damage in the tank, and of harm to people. */
    alarms: z.strictObject({
      damage: z.array(word),
      people: z.record(z.union([z.literal('any'), entryId]), z.array(word)),
    }),
    stopWords: z.array(word),
    negations: z.array(word),
  })
  .superRefine((vocabulary, context) => {
    for (const name of NAMED_TRAITS) {
      const allowed = allowedValues(name);
      const values = vocabulary[name].values;
      for (const value of allowed)
        if (!values[value])
          context.addIssue({ code: 'custom', path: [name, 'values'], message: `an entry for "${value}"` });
      for (const [value, { near }] of Object.entries(values)) {
        if (!allowed.includes(value))
          context.addIssue({ code: 'custom', path: [name, 'values', value], message: `one of: ${allowed.join(', ')}` });
        const strange = near.find((other) => !allowed.includes(other));
        if (strange)
          context.addIssue({
            code: 'custom',
            path: [name, 'values', value, 'near'],
            message: `values of ${name}, "${strange}" is none`,
          });
      }
    }
  });
export type TraitVocabulary = z.infer<typeof TraitVocabulary>;

/** The values that a trait can have, as entries spell them; yes and no for a trait that is true or false. */
export function allowedValues(trait: NamedTrait): readonly string[] {
  const schema: unknown = Traits.shape[trait];
  const options = findOptions(schema);
  return options ?? ['yes', 'no'];
}

/** Digs through optional, default and array wrappers to the enum inside. */
function findOptions(schema: unknown): readonly string[] | undefined {
  for (let at = schema; typeof at === 'object' && at !== null;) {
    const options: unknown = Reflect.get(at, 'options');
    if (Array.isArray(options) && options.every((option) => typeof option === 'string')) return options;
    const definition: unknown = Reflect.get(at, 'def');
    if (typeof definition !== 'object' || definition === null) return undefined;
    at = Reflect.get(definition, 'innerType') ?? Reflect.get(definition, 'element') ?? Reflect.get(definition, 'in');
  }
  return undefined;
}
