import { z } from 'zod';
import { entryId, paragraph } from './critter.ts';
import { STANDINGS_OF_SOURCES } from './source.ts';

/** One file in knowledge/remedies/: an agent of dips and baths by its active ingredient. Dates and minutes, never a dose. */
export const Remedy = z.strictObject({
  name: z.string().min(3).max(60),
  aliases: z.array(z.string().min(2).max(60)).default([]),
  ingredient: z.string().min(2).max(120),
  against: paragraph(240),
  notAgainst: paragraph(240),
  minutes: z.strictObject({ low: z.number().positive(), high: z.number().positive() }).optional(),
  everyDays: z.strictObject({ low: z.number().positive(), high: z.number().positive() }).optional(),
  bears: paragraph(240),
  never: paragraph(300),
  mind: paragraph(400),
  vetLed: z.boolean(),
  protect: paragraph(200),
  stopSigns: paragraph(240),
  firstAid: z.array(entryId).default([]),
  source: entryId,
  standing: z.enum(STANDINGS_OF_SOURCES),
});
export type RemedyData = z.infer<typeof Remedy>;
export type Remedy = RemedyData & { id: string };
