import { Temporal } from 'temporal-polyfill';
import type { TimelineData } from '../drawing/charts/charts.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Sign } from '../knowledge/sign.ts';
import { whatHappened } from './fold-events.ts';
import { later } from './fold-moment.ts';
import type { PlanEvent } from './plan-event.ts';
import type { PlanState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import { holdLane } from './timeline-hold.ts';
import { timelineMarks } from './timeline-happened.ts';
import { runLane, stepLanes } from './timeline-step.ts';

/** A quarantine with its plan, how it stands, and everything that was noted. */
export type Drawn = {
  quarantine: Pick<Quarantine, 'animals' | 'zone'>;
  plan: Plan;
  state: PlanState;
  events: readonly PlanEvent[];
};

/**
 * A plan over time, ready to be drawn: each hold, each run of turns and each step is a lane. Null before it starts, or when
 * nothing has a date. Dates are those of the quarantine's own zone, with its offset at `now`.
 */
export function timelineOf(
  signs: ReadonlyMap<string, Sign>,
  { quarantine, plan, state, events }: Drawn,
  now: Date,
): TimelineData | null {
  const happened = whatHappened(events, now, quarantine.zone);
  if (!happened || state.startedAt === null) return null;
  const lanes = [
    ...state.holds.flatMap((hold) => holdLane(plan, state, happened, hold)),
    ...plan.runs.flatMap((run) => runLane(run, plan, state, happened)),
    ...stepLanes(plan, state, now),
  ];
  if (!lanes.some(({ spans, windows = [] }) => spans.length + windows.length > 0)) return null;
  return {
    title: `${quarantine.animals}: ${plan.name}`,
    zoneOffsetMinutes: offsetMinutes(quarantine.zone, now),
    now,
    begins: state.startedAt,
    ends: state.endsEarliest && later(state.endsEarliest, state.startedAt),
    lanes,
    marks: timelineMarks(signs, plan, state, happened),
  };
}

/** Minutes that a zone is ahead of UTC at an instant. */
const offsetMinutes = (zone: string, at: Date): number =>
  Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(zone).offsetNanoseconds / 6e10;
