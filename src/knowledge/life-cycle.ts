import { z } from 'zod';
import { entryId, paragraph } from './critter.ts';
import { STANDINGS_OF_SOURCES } from './source.ts';

/** How the rows of a stage may be read between the temperatures that were studied. Never outside them. */
export const READ_BETWEEN = ['line', 'step', 'not-at-all'] as const;

/** One file in knowledge/life-cycles/: how long one stage of one organism lasts. The file name is the id. */
export const LifeCycle = z.strictObject({
  organism: z.string().min(3).max(80),
  /** The stage as it stands in a sentence: "time from hatching to laying eggs". */
  stage: z.string().min(3).max(100),
  /** `line`: one falling curve; `step`: the row below for the earliest limit, the row above for the latest. */
  between: z.enum(READ_BETWEEN),
  rows: z
    .array(
      z.strictObject({
        /** Null where the work does not say; such a row is told and never counted with. */
        temperatureC: z.number().min(-2).max(40).nullable(),
        salinity: z.string().max(40).optional(),
        /** Days; null where nothing developed or nobody knows. */
        lowDays: z.number().min(0).nullable(),
        highDays: z.number().min(0).nullable(),
        /** What was observed: "first hatch", "no hatch". */
        endpoint: z.string().min(3).max(160),
        source: entryId,
        standing: z.enum(STANDINGS_OF_SOURCES),
        note: paragraph(300).optional(),
      }),
    )
    .min(1),
});
export type LifeCycleData = z.infer<typeof LifeCycle>;
export type LifeCycle = LifeCycleData & { id: string };
