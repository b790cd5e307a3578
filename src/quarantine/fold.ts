import type { From, Hold, Plan, PlanStep, Run } from '../knowledge/plan.ts';
import { alarmsNow, uncountedNow } from './fold-alarms.ts';
import { dueNow } from './fold-due.ts';
import { whatHappened, type Happened } from './fold-events.ts';
import { belongsTo, chosenOption, foldHold, isAskedFor, type HoldFold } from './fold-holds.ts';
import { hoursAfter, later, type Moment } from './fold-moment.ts';
import { occasions, touchedBy } from './fold-rules.ts';
import { waterGoodFrom } from './fold-limits.ts';
import { foldRun, plannedGapH, type RunFold } from './fold-run.ts';
import { foldStep, isAskedForStill, turnsOf, type StepFold } from './fold-steps.ts';
import { coldestWeek, temperatureSpan, turnGaps, type LifeCycles } from './fold-temperature.ts';
import type { PlanEvent } from './plan-event.ts';
import type { PlanState } from './plan-state.ts';

export type FoldContext = {
  /** Check-ins belong to local days of this IANA zone. */
  zone: string;
  /** Needed by plans that follow the temperature. */
  lifeCycles?: LifeCycles;
};

/**
 * Where a plan stands at an instant, from nothing but its events.
 *
 * Events are ordered by when they happened, whatever the order in which they came; those ahead of `now` are left out, and what was
 * undone leaves no trace.
 */
export function fold(plan: Plan, events: readonly PlanEvent[], now: Date, context: FoldContext): PlanState {
  const happened = whatHappened(events, now, context.zone);
  if (!happened) return notStarted(plan.id);
  const parts = partsOf(plan, happened, context.lifeCycles ?? new Map());
  const option = optionThatCounts(plan, happened, parts);
  const counts = belongsTo(option);

  const steps = plan.steps
    .filter(counts)
    .filter((step) => isAskedForStill(step, parts.step(step).state, now))
    .map(parts.step);
  const runs = plan.runs.filter(counts).map((run) => ({ run, folded: parts.run(run) }));
  const holds = plan.holds.filter(counts).filter(parts.asked).map(parts.hold);
  const stepStates = [
    ...runs.flatMap(({ run, folded }) => (folded ? turnsOf(run, folded, happened) : [])),
    ...steps.map(({ state }) => state),
  ];
  const holdStates = holds.map(({ state }) => state);

  const optional = new Set(plan.steps.filter((step) => step.optional).map(({ id }) => id));
  const needed = stepStates.filter(({ id }) => !optional.has(id));
  const ends = [
    ...needed.filter(({ run }) => !run).map(({ doneAt }) => doneAt),
    ...runs.map(({ folded }) => folded?.completed ?? null),
    ...holdStates.map(({ reached }) => reached),
  ];
  const done = latestOf(ends);
  const good = done && waterGoodFrom(plan, happened, done);
  const completed = good && good <= now ? good : null;
  const expected = done
    ? good
    : latestOf([
        ...needed.map(({ doneAt, planned }) => doneAt ?? (planned && later(planned, now))),
        ...runs.map(({ folded }) => folded && (folded.completed ?? now)),
        ...holdStates.map(({ reached, endsEarliest }) => reached ?? endsEarliest),
      ]);
  const { due, overdue } = completed ? { due: [], overdue: [] } : dueNow(plan, happened, stepStates, holdStates);
  return {
    planId: plan.id,
    startedAt: happened.started.at,
    option,
    steps: stepStates,
    holds: holdStates,
    due,
    overdue,
    broken: [...steps, ...holds, ...runs.map(({ folded }) => folded)]
      .flatMap((part) => part?.broken ?? [])
      .concat(uncountedNow(plan, happened, holdStates).map(({ about, at, says }) => ({ of: about, at, says })))
      .sort((a, b) => a.at.getTime() - b.at.getTime()),
    alarms: alarmsNow(plan, happened, holdStates, completed !== null),
    endsEarliest: completed ?? expected,
    completed,
  };
}

function notStarted(planId: string): PlanState {
  const none = { startedAt: null, option: null, endsEarliest: null, completed: null };
  return { planId, ...none, steps: [], holds: [], due: [], overdue: [], broken: [], alarms: [] };
}

/** The latest of all, or null when one is missing or there is none: a plan never ends with a part of it open. */
function latestOf(dates: readonly (Date | null)[]): Date | null {
  if (dates.length === 0 || dates.includes(null)) return null;
  return dates.reduce((a, b) => (a && b ? later(a, b) : null));
}

type Parts = ReturnType<typeof partsOf>;

/** Folds each part once, when it is asked for, since parts are counted from one another. */
function partsOf(plan: Plan, happened: Happened, lifeCycles: LifeCycles) {
  const span = temperatureSpan(happened);
  const occasioned = occasions(happened);
  const { now, days, started } = happened;

  const step = once((each: PlanStep): StepFold => foldStep(each, happened, moment(each.from), span, lifeCycles));
  const hold = once((each: Hold): HoldFold =>
    foldHold(each, happened, moment(each.from), touchedBy(plan, each.id, occasioned), span, lifeCycles),
  );
  const run = once((each: Run): RunFold | null => {
    const from = moment(each.from);
    if (!from) return null;
    const until = holdById(each.untilHold)?.state;
    const hold = until ? { reached: until.reached, expected: until.endsEarliest } : null;
    const touched = touchedBy(plan, each.id, occasioned);
    return foldRun(each, turnGaps(each, happened, lifeCycles), from, now, happened.events, touched, hold);
  });
  const holdById = (id: string | undefined) => {
    const found = plan.holds.find((each) => each.id === id);
    return found && hold(found);
  };
  const asked = (each: Hold) => isAskedFor(each, happened, holdById(each.ifSignWithin?.hold)?.state);

  function moment(from: From): Moment | null {
    if (from === 'start') return { at: started.at, projected: false, says: 'the start' };
    if ('step' in from) {
      const found = plan.steps.find(({ id }) => id === from.step);
      const state = found && step(found).state;
      if (!state) return null;
      const says = `the step "${state.title}"`;
      if (state.doneAt) return { at: state.doneAt, projected: false, says };
      return state.planned && { at: later(state.planned, now), projected: true, says };
    }
    if ('holds' in from) {
      const wanted = plan.holds.filter((each) => from.holds.includes(each.id) && asked(each));
      const ends = wanted.map(({ id }) => moment({ hold: id }));
      return ends.reduce((a, b) => (a && b && b.at > a.at ? b : b && a), ends[0] ?? null);
    }
    if ('hold' in from) {
      const state = holdById(from.hold)?.state;
      if (!state) return null;
      const says = `the end of "${state.name}"`;
      // What is done on the last clear day counts, before its check-in too.
      const end =
        state.kind === 'clear-days' && state.reached ? days.startOf(days.dayOf(state.reached)) : state.reached;
      if (end) return { at: end, projected: false, says };
      return state.endsEarliest && { at: later(state.endsEarliest, now), projected: true, says };
    }
    const found = plan.runs.find(({ id }) => id === from.run);
    const folded = found && run(found);
    if (!found || !folded) return null;
    const { completed, needed, done, anchor, gap } = folded;
    const says = `the last ${found.title.toLowerCase()}`;
    if (completed) return { at: completed, projected: false, says };
    const left = Math.max(1, needed - done.length);
    const hours = Array.from({ length: left }, (_, index) => plannedGapH(gap, done.length + 1 + index));
    const at = hoursAfter(
      anchor.at,
      hours.reduce((sum, each) => sum + each, 0),
    );
    return { at: later(at, now), projected: true, says };
  }
  return { step, hold, run, holdById, asked };
}

/** The option that was chosen, or the first one where the tank is too cold for it or its own step did not come in time. */
function optionThatCounts(plan: Plan, happened: Happened, parts: Parts): string | null {
  const chosen = chosenOption(plan, happened.started.option);
  if (!chosen) return null;
  const first = plan.options[0]?.id ?? chosen.id;
  const { lapses, leastC, leastMeanC } = chosen;
  const step = plan.steps.find(({ id }) => id === lapses?.step);
  const moved = step && parts.step(step).state.doneAt;
  if (leastC !== undefined || leastMeanC !== undefined) {
    // What the water does after the option has run its course takes nothing back.
    const own = plan.holds.filter(({ option }) => option === chosen.id);
    const until = moved ?? latestOf(own.map((each) => parts.hold(each).state.reached)) ?? happened.now;
    const coldest = temperatureSpan(happened, until)?.coldestC;
    if (leastC !== undefined && (coldest === undefined || coldest < leastC)) return first;
    const week = coldestWeek(happened, until);
    if (leastMeanC !== undefined && (week === null || week < leastMeanC)) return first;
  }
  if (!lapses || !step) return chosen.id;
  const passed = parts.holdById(lapses.hold)?.state.reached;
  return passed && !moved ? first : chosen.id;
}

function once<Key extends object, Value>(compute: (key: Key) => Value): (key: Key) => Value {
  const known = new Map<Key, Value>();
  return (key) => {
    const old = known.get(key);
    if (old !== undefined) return old;
    const value = compute(key);
    known.set(key, value);
    return value;
  };
}
