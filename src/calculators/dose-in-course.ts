import { z } from 'zod';

/** One dose of a course: what a reminder says of it, and what it brings to the water. */
export const DoseInCourse = z.object({
  /** "6 g sodium bicarbonate". */
  words: z.string(),
  /** As a tank's log keeps it; known where one reagent goes in. Then **Done** notes it for a kept tank. */
  effect: z.object({ by: z.enum(['rise', 'total']), of: z.record(z.string(), z.number()) }).nullable(),
});
export type DoseInCourse = z.infer<typeof DoseInCourse>;
