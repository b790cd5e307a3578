import type { Hold, PlanStep } from '../knowledge/plan.ts';
import type { STANDINGS_OF_SOURCES } from '../knowledge/source.ts';
import type { URGENCIES } from '../knowledge/sign.ts';

/** Why a date is that date, and how far its basis can be trusted. */
export type Because = {
  /** What it was counted from, in words. */
  reason: string;
  /** Why the figure is what it is. */
  why: string;
  standing: (typeof STANDINGS_OF_SOURCES)[number];
  source?: string;
};

export type StepStatus = 'done' | 'due' | 'overdue' | 'coming' | 'blocked';

/** One act of the plan; every turn of a run is one. */
export type StepState = Because & {
  id: string;
  title: string;
  says: string;
  status: StepStatus;
  doneAt: Date | null;
  /** Null where nothing limits it, or what it is counted from has no date yet. */
  earliest: Date | null;
  planned: Date | null;
  latest: Date | null;
  /** The dates rest on something that has not happened yet. */
  projected: boolean;
  /** The run it belongs to, and its number there. `atLeast`: turns go on until a hold is reached, so there may be more. */
  run?: { id: string; turn: number; of: number; atLeast?: boolean };
  remindH: PlanStep['remindH'];
};

export type HoldState = Because & {
  id: string;
  name: string;
  kind: Hold['kind'];
  /** Days; null where nobody has studied the temperature. */
  needed: number | null;
  counted: number;
  /** Local days without a check-in, which do not count. */
  unknownDays: number;
  /** When it began to count, last. */
  since: Date | null;
  reached: Date | null;
  /** Earliest end if all goes well from now; for clear days the beginning of the local day. */
  endsEarliest: Date | null;
  /** The local date of that. */
  endsOn: string | null;
  restartedBy: { at: Date; says: string } | null;
  /** Why it does not count just now. */
  paused: string | null;
  /** From when a low reading is to be repeated; null where none waits for it. */
  repeatFrom: Date | null;
};

/** Something to do now: a step, a reading or a check-in. */
export type DueItem = { kind: 'step' | 'reading' | 'check-in'; id: string; title: string; since: Date; says: string };
export type Broken = { at: Date; of: string; says: string };
export type Alarm = { at: Date; urgency: (typeof URGENCIES)[number]; about: string; says: string };

export type PlanState = {
  planId: string;
  startedAt: Date | null;
  /** The option that counts, after a lapse too. */
  option: string | null;
  steps: StepState[];
  holds: HoldState[];
  due: DueItem[];
  overdue: DueItem[];
  /** What went wrong with the count, in order of time. */
  broken: Broken[];
  /** Emergencies first. */
  alarms: Alarm[];
  /** Earliest end of the whole plan as things stand; null while a part of it has no date. */
  endsEarliest: Date | null;
  completed: Date | null;
};
