// Steps and runs of turns as lanes: when each may be done, and how it stands.
import type { TimelineLane, TimelineState } from '../drawing/charts/charts.ts';
import type { Plan, Run } from '../knowledge/plan.ts';
import type { Happened } from './fold-events.ts';
import { HOUR_MS, hoursAfter, later } from './fold-moment.ts';
import { occasions, touchedBy } from './fold-rules.ts';
import { isTurn } from './fold-run.ts';
import type { PlanState, StepState, StepStatus } from './plan-state.ts';
import { stepGroups } from './step-groups.ts';

type Windows = NonNullable<TimelineLane['windows']>;

const STATE: Record<StepStatus, TimelineState> = {
  done: 'done',
  due: 'running',
  overdue: 'overdue',
  coming: 'coming',
  blocked: 'coming',
};
/** Where nothing limits a step it is late a day after it was planned. */
const OPEN_H = 24;

/** The turns of a run in one lane; a stretch whose turns no longer count lies before them. */
export function runLane(run: Run, plan: Plan, state: PlanState, happened: Happened): TimelineLane[] {
  const turns = state.steps.filter((step) => step.run?.id === run.id);
  if (turns.length === 0) return [];
  const anew = beganAnew(run, plan, state, happened, turns);
  const first = happened.events.find((event) => isTurn(run, event))?.at;
  const from = run.firstH === undefined ? happened.started.at : first;
  return [
    {
      name: turns.length === 1 ? run.title : `${run.title} 1 to ${turns.length}`,
      kind: 'step',
      spans: anew && from && from < anew ? [{ from, to: anew, state: 'restarted' }] : [],
      windows: apart(turns.flatMap((turn) => windowOf(turn, happened.now))),
    },
  ];
}

/** When the run last began anew: something that a rule names, or a turn that came too late. */
function beganAnew(run: Run, plan: Plan, { broken }: PlanState, happened: Happened, turns: readonly StepState[]) {
  const touched = touchedBy(plan, run.id, occasions(happened)).map(({ at }) => at.getTime());
  const acts = happened.events.filter((event) => isTurn(run, event)).map(({ at }) => at);
  return broken.findLast(({ at, of }) => {
    if (of !== run.id) return false;
    if (touched.includes(at.getTime())) return true;
    if (run.late !== 'restarts') return false;
    // Where the first turn is a turn itself, a late one becomes turn 1.
    if (run.firstH !== undefined) return turns[0]?.doneAt?.getTime() === at.getTime();
    const before = acts.findLast((each) => each < at) ?? happened.started.at;
    return (at.getTime() - before.getTime()) / HOUR_MS > run.gap.latestH + run.gap.graceH;
  })?.at;
}

/** Every other step; those that are the same act several times over share a lane. */
export function stepLanes(plan: Plan, { steps }: PlanState, now: Date): TimelineLane[] {
  return stepGroups(plan, steps)
    .filter(({ run }) => run === null)
    .map(({ name, steps: [first, ...others] }): TimelineLane => {
      const { doneAt } = first;
      return doneAt && others.length === 0
        ? { name, kind: 'step', spans: [{ from: doneAt, to: doneAt, state: 'done' }] }
        : { name, kind: 'step', spans: [], windows: [first, ...others].flatMap((step) => windowOf(step, now)) };
    });
}

/** Brackets that would run into each other tell nothing: of a later turn whose window overlaps, its planned time alone is left. */
const apart = (windows: Windows): Windows =>
  windows.map((window, at) => {
    const before = windows[at - 1];
    const { planned } = window;
    return before && window.state === 'coming' && window.earliest < before.latest
      ? { ...window, earliest: planned, latest: planned }
      : window;
  });

function windowOf({ status, doneAt, earliest, planned, latest }: StepState, now: Date): Windows {
  const middle = doneAt ?? planned;
  if (!middle) return [];
  if (doneAt) return [{ earliest: doneAt, planned: doneAt, latest: doneAt, state: 'done' }];
  const until = later(middle, latest ?? hoursAfter(middle, OPEN_H));
  return [
    {
      earliest: earliest && earliest < middle ? earliest : middle,
      planned: middle,
      // One that is open now stays open at least until now.
      latest: status === 'due' ? later(until, now) : until,
      state: STATE[status],
    },
  ];
}
