import { z } from 'zod';
import { entryId, paragraph } from './critter.ts';
import { STANDINGS_OF_SOURCES } from './source.ts';

export const PLAN_GROUPS = ['fish', 'coral', 'invertebrate', 'macroalgae', 'display'] as const;

/** Where a figure comes from; members see it beside every date. */
const Basis = {
  why: paragraph(300),
  standing: z.enum(STANDINGS_OF_SOURCES),
  source: entryId.optional(),
};

/** From what hours are counted: the start, the moment a step was done, or the moment a hold was reached. */
const From = z.union([z.literal('start'), z.strictObject({ step: entryId }), z.strictObject({ hold: entryId })]);
export type From = z.infer<typeof From>;

/** A limit that follows from a life cycle at the tank's own temperature, in whole days after `from`. */
const ByTemperature = z.strictObject({
  lifeCycle: entryId,
  /** Which end of the stage counts: its shortest at the warmest reading, or its longest at the coldest. */
  take: z.enum(['shortest', 'longest']),
  addDays: z.number(),
});
export type ByTemperature = z.infer<typeof ByTemperature>;

const option = entryId.optional();

/** Something that somebody does, once or several times. */
export const PlanStep = z.strictObject({
  id: entryId,
  title: z.string().min(3).max(60),
  says: paragraph(400),
  /** Belongs to one option only. */
  option,
  from: From,
  /** Hours after `from`. Early and late are both mistakes; absent ends are open. */
  earliestH: z.number().min(0).optional(),
  plannedH: z.number().min(0),
  latestH: z.number().positive().optional(),
  /** Nothing is lost this many hours past the latest. */
  graceH: z.number().min(0).default(0),
  earliestBy: ByTemperature.optional(),
  latestBy: ByTemperature.optional(),
  /** What being later than that does: the run of steps begins anew from this one, or the plan is only marked. */
  late: z.enum(['restarts-run', 'marks']).default('marks'),
  /** Steps of one run are counted together: four transfers, four doses. */
  run: entryId.optional(),
  /** Hours before `plannedH` at which reminders go out, the last first. */
  remindH: z.array(z.number()).default([0]),
  ...Basis,
});
export type PlanStep = z.infer<typeof PlanStep>;

export const HOLD_KINDS = ['clear-days', 'elapsed', 'in-range'] as const;

/** Time during which something has to stay true. */
export const Hold = z.strictObject({
  id: entryId,
  name: z.string().min(3).max(60),
  /** `clear-days`: local days with a check-in and no bad sign; `elapsed`: hours since it began; `in-range`: readings in range. */
  kind: z.enum(HOLD_KINDS),
  option,
  days: z.number().positive(),
  daysBy: ByTemperature.optional(),
  from: z.union([From, z.literal('first-in-range')]),
  range: z
    .strictObject({
      parameter: entryId,
      low: z.number().optional(),
      high: z.number().optional(),
      /** Above `high` and up to here the hold is paused; beyond, it starts anew. */
      pauseAbove: z.number().optional(),
      restartAbove: z.number().optional(),
      restartBelow: z.number().optional(),
      /** Readings below range within so many hours that start it anew. */
      lowReadings: z.int().positive().optional(),
      withinH: z.number().positive().optional(),
      /** Time after a reading that is older than this does not count. */
      staleAfterH: z.number().positive(),
    })
    .optional(),
  ...Basis,
});
export type Hold = z.infer<typeof Hold>;

export const RULE_EVENTS = [
  'infectious-sign',
  'weak-sign',
  'animal-added',
  'shared-water',
  'unknown-death',
  'missed-check-in',
  'fish-seen',
  'pest-seen',
] as const;

/** What an event does to a hold. */
export const Rule = z.strictObject({
  on: z.enum(RULE_EVENTS),
  hold: entryId,
  does: z.enum(['restart', 'extend', 'pause']),
  /** For `extend`. */
  days: z.number().positive().optional(),
  /** `day-after`: counting begins on the day after the last day of it. */
  begins: z.enum(['at-once', 'day-after']).default('at-once'),
  ...Basis,
});
export type Rule = z.infer<typeof Rule>;

/** What is measured or looked at, and how often. */
export const Monitor = z.strictObject({
  what: entryId,
  everyH: z.number().positive(),
  graceH: z.number().min(0),
  says: paragraph(240),
});

/** One file in knowledge/plans/: how animals wait before they may join. The file name is the id. */
export const Plan = z.strictObject({
  name: z.string().min(3).max(60),
  aliases: z.array(z.string().min(2).max(60)).default([]),
  for: z.enum(PLAN_GROUPS),
  purpose: paragraph(300),
  against: paragraph(240),
  notAgainst: paragraph(300),
  medicated: z.boolean(),
  /** Only a vet starts it; the bot keeps dates. */
  vetLed: z.boolean(),
  never: paragraph(400),
  /** Questions that all need a yes before it starts. */
  before: z.array(paragraph(240)).default([]),
  options: z
    .array(
      z.strictObject({
        id: entryId,
        name: z.string().min(3).max(60),
        says: paragraph(300),
        /** Questions that all need a yes before this option is offered; the first option is the standard one. */
        needs: z.array(paragraph(240)).default([]),
        standing: z.enum(STANDINGS_OF_SOURCES),
      }),
    )
    .default([]),
  steps: z.array(PlanStep).default([]),
  holds: z.array(Hold).default([]),
  rules: z.array(Rule).default([]),
  monitors: z.array(Monitor).default([]),
  /** Where published and usual figures differ: what is taken here, and what else is said. */
  conflicts: z.array(paragraph(300)).default([]),
  cautions: z.array(paragraph(300)).min(1),
  firstAid: z.array(entryId).default([]),
  /** The plan that follows when this one is over. */
  then: entryId.optional(),
  sources: z.array(entryId).min(1),
});
export type PlanData = z.infer<typeof Plan>;
export type Plan = PlanData & { id: string };
