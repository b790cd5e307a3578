import { z } from 'zod';
import { entryId, paragraph } from './critter.ts';
import { STANDINGS_OF_SOURCES } from './source.ts';

export const SIGN_GROUPS = ['fish', 'coral', 'invertebrate', 'human', 'pet'] as const;
export const URGENCIES = ['emergency', 'urgent', 'soon', 'watch'] as const;
export const WEIGHTS = ['strong', 'weak'] as const;

/** One file in knowledge/signs/: something a keeper sees, and what it may fit. Never a diagnosis. */
export const Sign = z.strictObject({
  group: z.enum(SIGN_GROUPS),
  name: z.string().min(3).max(80),
  /** What members call it. */
  aliases: z.array(z.string().min(2).max(60)).default([]),
  /** Asked before the urgency is shown: another cause that has to be ruled out first. */
  checkFirst: paragraph(240).optional(),
  fits: z
    .array(
      z.strictObject({
        /** What it may fit, as it stands after "may fit". */
        condition: z.string().min(3).max(120),
        weight: z.enum(WEIGHTS),
        /** How to tell it from the other rows. */
        tell: paragraph(300),
        urgency: z.enum(URGENCIES),
        /** What to do first; never a dose of a medicine. */
        first: paragraph(400),
        /** When a vet has to see it: "today", "if it spreads"; absent: not needed. */
        vet: z.string().min(2).max(120).optional(),
        /** Whether it starts a hold anew. */
        restarts: z.boolean(),
        critter: entryId.optional(),
        firstAid: z.array(entryId).default([]),
        source: entryId,
        standing: z.enum(STANDINGS_OF_SOURCES),
      }),
    )
    .min(1),
});
export type SignData = z.infer<typeof Sign>;
export type Sign = SignData & { id: string };
