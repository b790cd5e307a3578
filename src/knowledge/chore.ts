import { z } from 'zod';
import { entryId, paragraph } from './critter.ts';
import { STANDINGS_OF_SOURCES } from './source.ts';

/** One file in knowledge/chores/: a job of the trade that comes again, as a suggestion for `/upkeep`. */
export const ChoreIdea = z.strictObject({
  /** As it stands in a list of jobs: "Clean the skimmer cup". */
  name: z.string().min(3).max(60),
  aliases: z.array(z.string().min(2).max(60)).default([]),
  why: paragraph(300),
  /** The steps in order, one sentence or two each. */
  how: z.array(paragraph(240)).min(1).max(7),
  /** What people or animals must be kept from. It stands above the steps. */
  caution: paragraph(340).optional(),
  firstAid: z.array(entryId).default([]),
  /** What is set at the start; the member changes it. */
  everyDays: z.int().min(1).max(366),
  /** What makes it come sooner or later. */
  interval: paragraph(240),
  source: entryId,
  standing: z.enum(STANDINGS_OF_SOURCES),
});
export type ChoreIdeaData = z.infer<typeof ChoreIdea>;
export type ChoreIdea = ChoreIdeaData & { id: string };
