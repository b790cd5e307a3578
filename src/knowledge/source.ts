import { z } from 'zod';
import { entryId } from './critter.ts';

/** How far a source can be trusted. Members see it beside every claim. */
export const STANDINGS_OF_SOURCES = ['published', 'common-practice', 'from-memory'] as const;

/** One row of knowledge/sources.yaml, keyed by its id. */
export const Source = z.strictObject({
  /** Authors, year, title, where: as a reader would look it up. */
  cite: z.string().min(10).max(400),
  /** A few words that fit a card: "Barroso et al. 2010". */
  short: z.string().min(3).max(60),
  standing: z.enum(STANDINGS_OF_SOURCES),
});
export const Sources = z.record(entryId, Source);
export type Source = z.infer<typeof Source> & { id: string };
