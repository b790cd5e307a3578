import { z } from 'zod';
import { entryId } from './critter.ts';

/**
 * How a name that means several things is met: `ask` always puts the question; the whole-query modes only when
 * the member typed nothing else: `whole-query-ask` puts the question, `whole-query-only` answers with the first.
 */
export const AMBIGUITY_MODES = ['ask', 'whole-query-ask', 'whole-query-only'] as const;

const says = z.string().min(3).max(60);

/** What one answer leads to: a critter or a coral. */
const Answer = z.union([z.strictObject({ says, critter: entryId }), z.strictObject({ says, coral: entryId })], {
  error: 'says (3 to 60 characters) with either critter or coral, and nothing else',
});

/** One file in knowledge/ambiguous-names/: names that share one question. */
export const AmbiguousName = z.strictObject({
  names: z.array(z.string().min(2).max(60)).min(1),
  mode: z.enum(AMBIGUITY_MODES),
  question: z.string().min(10).max(300),
  /** Said at once, before the question is answered; absent when no candidate is dangerous. */
  safety: z.string().min(10).max(300).optional(),
  answers: z.array(Answer).min(1).max(10),
});
export type AmbiguousNameData = z.infer<typeof AmbiguousName>;
export type AmbiguousName = AmbiguousNameData & { id: string };
