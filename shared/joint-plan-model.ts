import type { OutOfRange } from './range.ts';
import type { BringsPerGram } from './reagent.ts';

/** What a joint plan moves. Units: practical salinity, mg/L, dKH, mg/L. Doses of one day stand in this order. */
export const PLANNED = ['salinity', 'magnesium', 'alkalinity', 'calcium'] as const;
export type Planned = (typeof PLANNED)[number];

/** Ions that come along with a dose and that no test in the house sees. */
export const DRIFTING = ['sodium', 'chloride', 'sulfate', 'potassium'] as const;
export type Drifting = (typeof DRIFTING)[number];

/** Of all that a gram of a reagent brings, what a joint plan looks at. */
export type Brings = Pick<
  BringsPerGram,
  | 'alkalinityMeq'
  | 'sodiumMg'
  | 'magnesiumMg'
  | 'calciumMg'
  | 'potassiumMg'
  | 'strontiumMg'
  | 'chlorideMg'
  | 'sulfateMg'
  | 'saltG'
>;

/**
 * Where a value stands and where it shall be. `now` and `target` alike: it has to stay. No target: it is watched, and may
 * be moved along by what the others need.
 */
export type Reading = { now: number; target?: number };
export type Level = Required<Reading>;

export type PlanReagent = {
  id: string;
  /** What it is dosed for, which decides when its turn is. What else it moves follows from `brings`. */
  raises: readonly Planned[];
  brings: Brings;
  /** Grams of the pure reagent in one gram of what is weighed. */
  purity?: number;
  /** Grams in one litre of the solution it is dosed from; absent: it is weighed. */
  stockGPerL?: number;
  /** Grams that may go in on one day for another reason than a cap: limewater takes the place of what evaporates. */
  mostGADay?: number;
};

/** How one value may be moved. */
export type PlanRule = {
  /** Largest rise in one day, in the unit of the value. */
  riseADay: number;
  /** Values whose own reagents have to be in before this one's turn. */
  after: readonly Planned[];
  /** Values never dosed at the same moment, and the minutes between the two doses. */
  apart?: { from: readonly Planned[]; minutes: number };
};

export type JointPlanInput = {
  volumeL: number;
  temperatureC: number;
  practicalSalinity: number;
  /** Absent: salinity may rise by what the reagents bring, under its cap. */
  targetSalinity?: number;
  /** In dKH and mg/L. A value that is absent is not known, but its cap holds all the same. */
  levels: Partial<Record<Exclude<Planned, 'salinity'>, Reading>>;
  reagents: readonly PlanReagent[];
  rules: Readonly<Record<Planned, PlanRule>>;
};

export type PlannedDose = {
  reagentId: string;
  massG: number;
  /** Only for a reagent with a stock. */
  stockMl?: number;
  /** Earliest minute after the first dose of the day. */
  atMinute: number;
};

export type PlannedDay = {
  day: number;
  doses: readonly PlannedDose[];
  /** What the day's doses raise, those included that were not given. */
  rises: Readonly<Record<Planned, number>>;
  /** Values when the day's doses are mixed in; a value that was not given is absent. */
  after: Partial<Record<Planned, number>>;
};

/** An ion that came along: its rise, and how far that lies off what sea water of the same salt holds. */
export type Drift = { riseMgPerL: number; offMgPerL: number; offShare: number };

export type JointPlan = {
  kind: 'plan';
  days: readonly PlannedDay[];
  /** Grams of each reagent over all days; what is not needed is absent. */
  totalsG: Readonly<Record<string, number>>;
  ends: Partial<Record<Planned, number>>;
  /** Rises of all four, of those that were not given too. */
  rises: Readonly<Record<Planned, number>>;
  drift: Readonly<Record<Drifting, Drift>>;
  strontiumRiseMgPerL: number;
  /** Dissolved salt added, and the quantity that was made least: that salt plus the drift, both in g/L. */
  saltGPerL: number;
  objectiveGPerL: number;
};

export type JointPlanOutcome =
  | JointPlan
  | { kind: 'nothing-to-do' }
  | { kind: 'cannot-lower'; values: readonly ({ planned: Planned } & Level)[] }
  /** None of the reagents raises it. */
  | { kind: 'cannot-reach'; why: 'no-reagent'; values: readonly Planned[] }
  /** Each can be raised, but not all of them to their targets: these would end too high. */
  | { kind: 'cannot-reach'; why: 'conflict'; values: readonly ({ planned: Planned; endsAt: number } & Level)[] }
  /** The solver gave no answer in time, or failed. */
  | { kind: 'not-solved'; reason: string }
  | OutOfRange;

/** A linear programme as text in CPLEX's LP form, solved elsewhere. */
export type SolveProgramme = (programme: string) => Promise<Solved>;
export type Solved =
  | { kind: 'optimal'; objective: number; values: Readonly<Record<string, number>> }
  | { kind: 'infeasible' }
  | { kind: 'not-solved'; reason: string };
