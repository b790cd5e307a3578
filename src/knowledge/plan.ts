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

/** From what hours are counted: the start, the moment a step was done, a hold was reached or a run was over. */
const From = z.union([
  z.literal('start'),
  z.strictObject({ step: entryId }),
  z.strictObject({ hold: entryId }),
  z.strictObject({ run: entryId }),
  /** All of these holds, where one is asked for only after a sign. */
  z.strictObject({ holds: z.array(entryId).min(2) }),
]);
export type From = z.infer<typeof From>;

/** A number of days that follows from a life cycle at the tank's own temperature. */
const ByTemperature = z.strictObject({
  lifeCycle: entryId,
  /** Which end of the stage counts: its shortest at the warmest reading, or its longest at the coldest. */
  take: z.enum(['shortest', 'longest']),
  addDays: z.number(),
  /** Warmer than any study and up to here the figure of the warmest study is taken for the longest, since warmer is never longer. */
  holdsUpToC: z.number().optional(),
});
export type ByTemperature = z.infer<typeof ByTemperature>;

const option = entryId.optional();

/** Something that somebody does once. */
export const PlanStep = z.strictObject({
  id: entryId,
  title: z.string().min(3).max(60),
  says: paragraph(400),
  /** Belongs to one option only. */
  option,
  from: From,
  /** Hours after `from`. Done before the earliest it does not count; absent ends are open. */
  earliestH: z.number().min(0).optional(),
  plannedH: z.number().min(0),
  latestH: z.number().positive().optional(),
  /** Nothing is lost this many hours past the latest. */
  graceH: z.number().min(0).default(0),
  /** Ends that follow from the tank's temperature, in days after `from`. */
  earliestBy: ByTemperature.optional(),
  latestBy: ByTemperature.optional(),
  /** Hours before `plannedH` at which reminders go out, the last first. */
  remindH: z.array(z.number()).default([0]),
  /** The plan ends without it; past its latest it is no longer asked for. */
  optional: z.boolean().optional(),
  ...Basis,
});
export type PlanStep = z.infer<typeof PlanStep>;

/** The same act several times, each counted from the one before: transfers, doses, dips. */
export const Run = z.strictObject({
  id: entryId,
  /** One turn of it as it stands before its number: "Transfer". */
  title: z.string().min(3).max(40),
  says: paragraph(400),
  option,
  from: From,
  /** What counts as a turn: a step done under the run's id, or the event of the same name. */
  by: z.enum(['step-done', 'moved-tank', 'dose-given']),
  times: z.int().positive(),
  /** Hours after `from` at which the first turn is planned; absent: the gap holds for the first turn too. */
  firstH: z.number().min(0).optional(),
  gap: z.strictObject({
    /** An earlier turn moves the clock on and does not count. */
    earliestH: z.number().min(0),
    plannedH: z.number().positive(),
    latestH: z.number().positive(),
    graceH: z.number().min(0).default(0),
    /** Gaps between the first turns where they differ from `plannedH`, in order, and the latest of each. */
    first: z.array(z.number().positive()).optional(),
    firstLatest: z.array(z.number().positive()).optional(),
    /** Earliest and latest, and further turns, follow from what is known of skin flukes at the tank's temperature. */
    by: z.enum(['fluke-curves']).optional(),
  }),
  /** What a late turn does: it becomes turn 0 (turn 1 where `firstH` is given) and the others are needed again, or the plan is only marked. */
  late: z.enum(['restarts', 'marks']),
  /** From turn 0 to the last turn at least; while it is not reached another turn follows. */
  leastTotalH: z.number().positive().optional(),
  /** A longer least total where any reading so far was colder. */
  cold: z.strictObject({ belowC: z.number(), leastTotalH: z.number().positive() }).optional(),
  /** Turns go on until this hold is reached. */
  untilHold: entryId.optional(),
  /** A turn needs the dark: it is planned for the evening of its day, local time. */
  afterDark: z.boolean().optional(),
  /** Hours before the planned turn at which reminders go out. */
  remindH: z.array(z.number()).default([0]),
  ...Basis,
});
export type Run = z.infer<typeof Run>;

/** Readings that keep a hold true. */
export const HoldRange = z.strictObject({
  /** What a reading is called; copper goes with its form. */
  reads: z.enum(['salinity', 'temperature', 'copper']),
  /** Parameters of the knowledge base that this range is about. */
  parameters: z.array(entryId).min(1),
  /** `plan`: the limits below; `label`: those that were typed in from the label at the start. */
  limits: z.enum(['plan', 'label']),
  /** The hold begins with the first reading inside these. */
  low: z.number().optional(),
  high: z.number().optional(),
  /** Time next to a reading above this does not count; above `restartAbove` the hold starts anew. */
  pauseAbove: z.number().optional(),
  /** Time next to a reading below this does not count either, and what was counted stays. */
  pauseBelow: z.number().optional(),
  restartAbove: z.number().optional(),
  /** So many low readings with no good one between start it anew. */
  lowReadings: z.int().positive().default(2),
  /** A low reading is repeated after so many hours, before anything is changed. */
  repeatAfterH: z.number().positive().default(1),
  /** A good repeat within so many hours of a single low reading undoes it. */
  repeatWithinH: z.number().positive().default(6),
  /** A first reading this low counts as two. */
  countsTwiceAtMost: z.number().optional(),
  /** At this and above: an emergency. With limits of a label: above the label's high. */
  stopAt: z.number().optional(),
  stopSays: paragraph(300).optional(),
  /** While it counts, one of these signs, or a meal that every animal refused, is an emergency as well. */
  stopSigns: z.strictObject({ signs: z.array(entryId).min(1), says: paragraph(300) }).optional(),
  /** Time after a reading that is older than this does not count. */
  staleAfterH: z.number().positive(),
  /** Readings count only for so many hours after this step was done: the instrument was checked. */
  checkedBy: z.strictObject({ step: entryId, validH: z.number().positive() }).optional(),
});
export type HoldRange = z.infer<typeof HoldRange>;

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
  from: From,
  /** For `clear-days`: only days on which the animal ate normally count. */
  eating: z.boolean().default(false),
  /** Needed only if an infectious sign was seen so many days before the other hold ends. */
  ifSignWithin: z.strictObject({ days: z.number().positive(), hold: entryId }).optional(),
  range: HoldRange.optional(),
  ...Basis,
});
export type Hold = z.infer<typeof Hold>;

export const RULE_EVENTS = [
  'infectious-sign',
  'weak-sign',
  'poor-appetite',
  'missed-meal',
  'animal-added',
  'shared-water',
  'unknown-death',
  'fish-seen',
  'pest-seen',
] as const;

/** What an event does to a hold or a run. */
export const Rule = z.strictObject({
  on: z.enum(RULE_EVENTS),
  /** The id of a hold or of a run; a run can only restart. */
  of: entryId,
  does: z.enum(['restart', 'extend']),
  /** For `extend`: this many days from the day of the event do not count. */
  days: z.number().positive().optional(),
  /** `day-after`: counting begins on the day after the last day of it. */
  begins: z.enum(['at-once', 'day-after']).default('at-once'),
  ...Basis,
});
export type Rule = z.infer<typeof Rule>;

/** Only before the hold has begun, only while it counts, or only when it is over. */
const During = z.strictObject({ hold: entryId, is: z.enum(['before', 'counting', 'over']) });
export type During = z.infer<typeof During>;

/** What is measured or looked at, and how often. */
export const Monitor = z.strictObject({
  what: z.enum(['check-in', 'temperature', 'salinity', 'copper', 'ammonia', 'nitrite', 'ph', 'step']),
  /** For `step`: which one comes again. */
  step: entryId.optional(),
  everyH: z.number().positive(),
  graceH: z.number().min(0),
  during: During.optional(),
  /** Only until this step is done. */
  untilStep: entryId.optional(),
  /** Only from so many hours, or until so many hours, after the start. */
  fromH: z.number().positive().optional(),
  untilH: z.number().positive().optional(),
  says: paragraph(240),
});
export type Monitor = z.infer<typeof Monitor>;

/** A reading that asks for something at once. */
export const Limit = z.strictObject({
  /**
   * `nh3`: un-ionised ammonia in mg/L, worked out from ammonia, pH, temperature and salinity. `ammonia`: all of it as mg/L
   * NH3, only where pH or temperature are not known well enough to work out the other.
   */
  reads: z.enum(['temperature', 'salinity', 'nitrite', 'ph', 'nh3', 'ammonia']),
  atLeast: z.number().optional(),
  above: z.number().optional(),
  atMost: z.number().optional(),
  below: z.number().optional(),
  /** A change since an earlier reading by more than this in so many hours, or at that pace over a longer time. */
  changes: z
    .strictObject({ by: z.number().positive(), withinH: z.number().positive(), to: z.enum(['up', 'down', 'either']) })
    .optional(),
  during: During.optional(),
  /** Only when every reading of so many hours was past it. */
  forH: z.number().positive().optional(),
  urgency: z.enum(['emergency', 'urgent', 'soon', 'watch']),
  says: paragraph(240),
  standing: z.enum(STANDINGS_OF_SOURCES),
  source: entryId.optional(),
});
export type Limit = z.infer<typeof Limit>;

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
  /** A log for an emergency: its message comes before everything else. */
  emergency: paragraph(400).optional(),
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
        /** Every temperature reading has to be at least this, or the first option counts instead. */
        leastC: z.number().optional(),
        /** The mean of the temperature readings of every week has to be at least this, or the first option counts instead. */
        leastMeanC: z.number().optional(),
        /** If this hold is reached before the step is done, the first option counts instead. */
        lapses: z.strictObject({ step: entryId, hold: entryId }).optional(),
      }),
    )
    .default([]),
  steps: z.array(PlanStep).default([]),
  runs: z.array(Run).default([]),
  holds: z.array(Hold).default([]),
  rules: z.array(Rule).default([]),
  monitors: z.array(Monitor).default([]),
  limits: z.array(Limit).default([]),
  /** So many deaths of unknown cause in so short a time are an emergency. */
  deaths: z
    .strictObject({
      atLeast: z.int().min(2),
      withinH: z.number().positive(),
      says: paragraph(300),
      standing: z.enum(STANDINGS_OF_SOURCES),
    })
    .optional(),
  /** It ends only with the water inside its limits for so many hours. */
  waterGoodH: z.number().positive().optional(),
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
