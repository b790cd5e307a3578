import { z } from 'zod';
import { entryId } from './critter.ts';

const cost = z.strictObject({ cost: z.enum(['low', 'medium', 'high']), because: z.string().min(5).max(160) });

/** One telling feature, the most reliable first. */
export const TellingFeature = z.strictObject({
  feature: z.string().min(3).max(80),
  a: z.string().min(1).max(160),
  b: z.string().min(1).max(160),
  /** How to look without touching, lifting, poking, sniffing or tasting. */
  check: z.string().min(5).max(200),
  /** Only where one of the pair is dangerous: whether this feature may acquit it. */
  clears: z.boolean().default(false),
});
export type TellingFeature = z.infer<typeof TellingFeature>;

/** One file in knowledge/look-alikes/, named `<a>--<b>`; both critters reach it. */
export const LookAlike = z
  .strictObject({
    a: entryId,
    b: entryId,
    features: z.array(TellingFeature).min(1).max(3),
    /** What it costs when the animal is `a` and is taken for `b`, and the reverse. */
    aTakenForB: cost,
    bTakenForA: cost,
    /** The one that can hurt a person; absent when neither does more than the other. */
    danger: entryId.optional(),
    sources: z.array(entryId).min(1),
  })
  .superRefine((pair, context) => {
    if (pair.danger && pair.danger !== pair.a && pair.danger !== pair.b)
      context.addIssue({ code: 'custom', path: ['danger'], message: 'one of the two ids of the pair' });
    if (!pair.danger && pair.features.some(({ clears }) => clears))
      context.addIssue({ code: 'custom', path: ['features'], message: '"clears" goes with a danger' });
  });
export type LookAlikeData = z.infer<typeof LookAlike>;
export type LookAlike = LookAlikeData & { id: string };
