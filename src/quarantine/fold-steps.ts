import type { PlanStep, Run } from '../knowledge/plan.ts';
import type { Happened } from './fold-events.ts';
import { because } from './fold-holds.ts';
import { hoursAfter, later, type Moment } from './fold-moment.ts';
import { latestGapH, plannedGapH, type RunFold, type TurnGap } from './fold-run.ts';
import { daysBy, type LifeCycles, type Span } from './fold-temperature.ts';
import { spanWords, turnWords } from './fold-words.ts';
import type { Broken, StepState, StepStatus } from './plan-state.ts';

/** A step without a latest is overdue a day after it was planned. */
const PATIENCE_H = 24;

/** When it is dark enough for eyes and lamps of a tank, by the clock; common practice, no source. */
const DARK_H = 21;

export type StepFold = { state: StepState; broken: Broken[] };

/** Whether a step is still asked for: one that the plan can do without only until its latest. */
export const isAskedForStill = (step: PlanStep, { doneAt, latest }: StepState, now: Date): boolean =>
  !step.optional || doneAt !== null || latest === null || now <= hoursAfter(latest, step.graceH);

/** Where one step stands. Done before its earliest, or before what it is counted from, it does not count. */
export function foldStep(
  step: PlanStep,
  { events, now }: Happened,
  from: Moment | null,
  span: Span | null,
  lifeCycles: LifeCycles,
): StepFold {
  const at = (hours: number | null | undefined) => (from && hours != null ? hoursAfter(from.at, hours) : null);
  const byDays = (by: PlanStep['earliestBy']) => {
    const days = by && span ? daysBy(by, span, lifeCycles) : null;
    return days === null ? null : days * 24;
  };
  const earliest = at(byDays(step.earliestBy) ?? step.earliestH);
  const latest = at(byDays(step.latestBy) ?? step.latestH);
  const asPlanned = at(step.plannedH);
  const planned = asPlanned && earliest ? later(asPlanned, earliest) : asPlanned;
  const projected = !from || from.projected;
  const doings = events.filter((event) => event.kind === 'step-done' && event.step === step.id);
  const counts = (doing: { at: Date }) => !projected && doing.at >= (earliest ?? from.at);
  const doneAt = doings.find(counts)?.at ?? null;
  const early = doings.filter((doing) => !counts(doing));
  return {
    state: {
      ...because(
        step,
        from ? `Counted from ${from.says}.` : 'It has no date yet, because what it is counted from has none.',
      ),
      id: step.id,
      title: step.title,
      says: step.says,
      status: statusOf({
        doneAt,
        projected,
        earliest,
        planned,
        latest,
        now,
        graceH: step.graceH,
        remindH: step.remindH,
      }),
      doneAt,
      earliest,
      planned,
      latest,
      projected,
      remindH: step.remindH,
    },
    broken: early.map((doing) => ({ at: doing.at, of: step.id, says: `"${step.title}" was done too early to count` })),
  };
}

type Dates = {
  doneAt: Date | null;
  projected: boolean;
  earliest: Date | null;
  planned: Date | null;
  latest: Date | null;
  now: Date;
  graceH: number;
  remindH: readonly number[];
};

function statusOf({ doneAt, projected, earliest, planned, latest, now, graceH, remindH }: Dates): StepStatus {
  if (doneAt) return 'done';
  if (projected || !planned) return 'blocked';
  const firstReminder = hoursAfter(planned, -Math.max(0, ...remindH));
  if (now < (earliest ? later(earliest, firstReminder) : firstReminder)) return 'coming';
  return now > hoursAfter(latest ?? hoursAfter(planned, PATIENCE_H), graceH) ? 'overdue' : 'due';
}

/** Every turn of a run as a step: those done since turn 0, the next one, and those after it as far as they can be told. */
export function turnsOf(run: Run, fold: RunFold, { now, days }: Pick<Happened, 'now' | 'days'>): StepState[] {
  const { gap } = fold;
  const turns: StepState[] = [];
  let anchor = fold.anchor;
  for (let turn = 1; turn <= fold.needed; turn += 1) {
    const doneAt = fold.done[turn - 1] ?? null;
    const isFirst = turn === 1 && run.firstH !== undefined && fold.untouched;
    const asCounted = hoursAfter(anchor.at, isFirst ? (run.firstH ?? 0) : plannedGapH(gap, turn));
    const planned = run.afterDark ? days.hourOf(days.dayOf(asCounted), DARK_H) : asCounted;
    const dates = {
      doneAt,
      projected: anchor.projected,
      earliest: doneAt || isFirst ? null : hoursAfter(anchor.at, gap.earliestH),
      planned: doneAt ?? planned,
      latest: doneAt || isFirst ? null : hoursAfter(anchor.at, latestGapH(gap, turn)),
    };
    turns.push({
      ...because(run, reasonOf(gap, fold, anchor, isFirst ? null : turn)),
      ...dates,
      id: `${run.id}-${turn}`,
      title: `${run.title} ${turn}`,
      says: run.says,
      status: statusOf({ ...dates, now, graceH: gap.graceH, remindH: run.remindH }),
      run: { id: run.id, turn, of: fold.needed, ...(fold.needsMore ? { atLeast: true } : {}) },
      remindH: run.remindH,
    });
    if (!doneAt) anchor = { at: planned, projected: true, says: turnWords(run.title, turn) };
  }
  return turns;
}

function reasonOf(gap: TurnGap, { zero }: RunFold, anchor: Moment, turn: number | null): string {
  const counted = `All are counted from ${zero.says}.`;
  if (turn === null) return counted;
  const [plannedH, latestH] = [plannedGapH(gap, turn), latestGapH(gap, turn)];
  const limits = `not before ${spanWords(gap.earliestH, plannedH)} and not after ${spanWords(latestH, gap.earliestH)}`;
  return `${spanWords(plannedH)} after ${anchor.says}, ${limits}. ${counted}`;
}
