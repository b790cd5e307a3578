import { z } from 'zod';
import { entryId, paragraph } from './critter.ts';
import { PLAN_GROUPS } from './plan.ts';
import { STANDINGS_OF_SOURCES } from './source.ts';

/** Words by which a member's own text is recognised. */
const words = z.array(z.string().min(2).max(60)).default([]);

/** One file in knowledge/purposes/: what somebody begins a quarantine for, and which plans come into question, the best first. */
export const Purpose = z.strictObject({
  /** Its place in the list that members choose from. */
  order: z.int().positive(),
  label: z.string().min(3).max(80),
  for: z.enum(PLAN_GROUPS),
  says: paragraph(300),
  words,
  /** Taken where only the animals were named and nothing is said to be wrong with them. */
  usual: z.boolean().default(false),
  /** Its words come before all others, and no other plan is offered beside it. */
  urgent: z.boolean().default(false),
  /** Signs that lead here when they were noted within the last three days. */
  signs: z.array(entryId).default([]),
  plans: z
    .array(
      z.strictObject({
        plan: entryId,
        why: paragraph(240),
        /** Where one of these stands in the member's own words, this plan comes before the others. */
        words,
        /** Comes first where no words decide. */
        first: z.boolean().default(false),
        standing: z.enum(STANDINGS_OF_SOURCES),
        source: entryId.optional(),
      }),
    )
    .min(1),
});
export type PurposeData = z.infer<typeof Purpose>;
export type Purpose = PurposeData & { id: string };
