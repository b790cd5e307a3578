import { z } from 'zod';
import { entryId, paragraph } from './critter.ts';

export const TOLERANCES = ['ok', 'caution', 'vet-only', 'avoid'] as const;
export type Tolerance = (typeof TOLERANCES)[number];

/** One file in knowledge/fish/: a group of fish as shops and keepers name it, and what its members bear. */
export const Fish = z.strictObject({
  name: z.string().min(3).max(60),
  aliases: z.array(z.string().min(2).max(60)).default([]),
  scientificName: z.string().min(3).max(160),
  family: z.string().min(3).max(60),
  copper: z.enum(TOLERANCES),
  hyposalinity: z.enum(TOLERANCES),
  tankTransfer: z.enum(TOLERANCES),
  praziquantel: z.enum(TOLERANCES),
  feeding: z.string().min(2).max(120),
  leastQuarantineL: z.number().positive(),
  /** How likely it is to jump. */
  jumps: z.enum(['low', 'medium', 'high']),
  /** What it can do to a hand. */
  hurts: paragraph(240).optional(),
  needs: paragraph(300),
  /** What rest or hiding is normal for it; it comes before any alarm on lying or hiding. */
  rest: paragraph(240).optional(),
  firstAid: z.array(entryId).default([]),
  sources: z.array(entryId).min(1),
});
export type FishData = z.infer<typeof Fish>;
export type Fish = FishData & { id: string };
