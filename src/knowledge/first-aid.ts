import { z } from 'zod';

const sentence = z.string().min(5).max(420);

/** One file in knowledge/first-aid/, named by its hazard. The whole row is shown, before any word about the tank. */
export const FirstAid = z.strictObject({
  kind: z.enum(['critter', 'fish', 'chemical', 'gas', 'equipment', 'pet']),
  /** What a person met: "bristles of a worm stuck in the skin". */
  met: sentence,
  now: sentence,
  not: sentence,
  emergency: sentence.optional(),
  poisonCentre: sentence.optional(),
  doctor: sentence.optional(),
  source: z.string().min(5).max(300),
  standing: z.enum(['published', 'common-practice', 'from-memory']),
});
export type FirstAidData = z.infer<typeof FirstAid>;
export type FirstAid = FirstAidData & { id: string };
