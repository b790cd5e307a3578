// A hold as the spans of its lane: what no longer counts, what counts, what was missed, what is to come.
import type { TimelineLane, TimelineState } from '../drawing/charts/charts.ts';
import type { Hold, Plan } from '../knowledge/plan.ts';
import type { Happened } from './fold-events.ts';
import { limitsOf, readingsOf } from './fold-in-range.ts';
import { hoursAfter, later } from './fold-moment.ts';
import { occasions, touchedBy } from './fold-rules.ts';
import type { HoldState, PlanState } from './plan-state.ts';

type Span = TimelineLane['spans'][number];

/** Days that were missed are drawn one by one only as long as there are few; the figures beside the lane always count them. */
const MOST_MISSED = 12;

export function holdLane(plan: Plan, state: PlanState, happened: Happened, told: HoldState): TimelineLane[] {
  const hold = plan.holds.find(({ id }) => id === told.id);
  if (!hold) return [];
  const { needed, counted, since, endsEarliest } = told;
  const known = needed !== null && (since !== null || endsEarliest !== null);
  return [
    {
      name: told.name,
      kind: 'hold',
      spans: [...lostSpans(hold, plan, state, happened, told), ...countingSpans(hold, happened, told)],
      ...(known ? { counted: { days: Math.floor(counted), needed: Math.ceil(needed) } } : {}),
    },
  ];
}

/** From where it first counted up to what began it anew. */
function lostSpans(hold: Hold, plan: Plan, state: PlanState, happened: Happened, told: HoldState): Span[] {
  const { days } = happened;
  const begins = beganAt(hold, state, happened);
  const until = told.since ?? told.restartedBy?.at;
  if (!begins || !until) return [];
  const restarts = [
    ...touchedBy(plan, hold.id, occasions(happened))
      .filter(({ rule }) => rule.does === 'restart')
      .map(({ at }) => at),
    ...state.broken.filter(({ of, at }) => of === hold.id && told.restartedBy && at <= told.restartedBy.at).map(({ at }) => at), // prettier-ignore
    ...(told.restartedBy ? [told.restartedBy.at] : []),
  ];
  const ends = restarts
    .filter((at) => at > begins && (!told.restartedBy || at <= told.restartedBy.at))
    .map((at) => (hold.kind === 'clear-days' ? days.startOf(days.dayOf(at) + 1) : at))
    .sort((a, b) => a.getTime() - b.getTime());
  // Two signs on one day end one count.
  const last = told.restartedBy ? ends.at(-1) : undefined;
  if (!last) return [];
  const spans: Span[] = [];
  let from = begins;
  for (const to of ends) {
    if (to.getTime() - from.getTime() < SHORTEST_MS && to !== last) continue;
    if (to > from) spans.push({ from, to, state: 'restarted' });
    from = later(from, to);
  }
  return spans.slice(-MOST_LOST);
}

/** A count that lasted less than a day is drawn with the one after it. */
const SHORTEST_MS = 86_400_000;
const MOST_LOST = 6;

/** When its first count began, before anything began it anew. */
function beganAt({ from, kind, range }: Hold, state: PlanState, happened: Happened): Date | null {
  const { started, days } = happened;
  const counted = fromMoment();
  if (!counted) return null;
  if (kind === 'clear-days') return days.startOf(days.dayOf(counted) + 1);
  if (kind === 'elapsed' || !range) return counted;
  const limits = limitsOf(range, happened);
  const first = limits && readingsOf(range, limits, happened).find(({ at, value }) => at >= counted && value >= (limits.low ?? range.pauseBelow ?? -Infinity) && value <= (limits.high ?? Infinity)); // prettier-ignore
  return first?.at ?? null;

  function fromMoment(): Date | null {
    if (from === 'start') return started.at;
    if ('step' in from) return state.steps.find(({ id }) => id === from.step)?.doneAt ?? null;
    if ('hold' in from) return state.holds.find(({ id }) => id === from.hold)?.reached ?? null;
    // Only steps are counted from several holds.
    if ('holds' in from) return null;
    const turns = state.steps.filter(({ run }) => run?.id === from.run);
    return turns.every(({ doneAt }) => doneAt) ? (turns.at(-1)?.doneAt ?? null) : null;
  }
}

/** The count that stands now. */
function countingSpans(hold: Hold, happened: Happened, told: HoldState): Span[] {
  const { now } = happened;
  const { since, reached, endsEarliest, paused } = told;
  if (reached) return [span(since ?? reached, reached, 'done')];
  if (!endsEarliest) return [];
  if (!since || since > now) return [span(since ?? now, endsEarliest, since || !paused ? 'coming' : 'paused')];
  const end = later(endsEarliest, hoursAfter(now, 0.01));
  if (hold.kind === 'clear-days') return clearSpans(hold, happened, told, since, end);
  if (!paused) return [span(since, end, 'running')];
  const from = pausedFrom(hold, happened, since);
  const until = hoursAfter(now, 0.01);
  return [span(since, from, 'done'), span(from, until, 'paused'), span(until, end, 'coming')].filter(({ from: a, to }) => to > a); // prettier-ignore
}

/** Clear days, with those between them on which nobody looked. */
function clearSpans(hold: Hold, { events, days, now }: Happened, told: HoldState, since: Date, end: Date): Span[] {
  const whole = span(since, end, 'running');
  if (told.unknownDays === 0 || told.unknownDays > MOST_MISSED) return [whole];
  const looked = new Set(
    events.flatMap((event) => event.kind === 'check-in' && (!hold.eating || event.appetite === 'normal') ? [days.dayOf(event.at)] : []), // prettier-ignore
  );
  const spans: Span[] = [];
  let from = days.dayOf(since);
  for (let day = from + 1; day <= days.dayOf(now); day += 1) {
    const missed = !looked.has(day - 1);
    if (day < days.dayOf(now) && missed === !looked.has(day)) continue;
    if (day === days.dayOf(now) && !missed) break;
    spans.push({
      ...span(days.startOf(from), days.startOf(day), missed ? 'paused' : 'done'),
      ...(missed ? { label: 'no check-in' } : {}),
    });
    from = day;
  }
  return [...spans, span(days.startOf(from), later(end, days.startOf(from)), 'running')];
}

/** Since when it does not count: the last reading, or when it had become too old. */
function pausedFrom({ range }: Hold, happened: Happened, since: Date): Date {
  const limits = range && limitsOf(range, happened);
  const last = limits && readingsOf(range, limits, happened).at(-1);
  if (!last) return since;
  const stale = hoursAfter(last.at, range.staleAfterH);
  return later(since, stale < happened.now ? stale : last.at);
}

const span = (from: Date, to: Date, state: TimelineState): Span => ({ from, to: later(from, to), state });
