import type { Answer, Request } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Reply, Sign } from '../knowledge/sign.ts';
import { dateChange } from './date-change.ts';
import { fold } from './fold.ts';
import { startedStanding } from './on-quarantine.command.ts';
import type { PlanEvent, Seen } from './plan-event.ts';
import type { Quarantine } from './quarantine.ts';
import type { NewPlanEvent } from './quarantine.store.ts';
import { NOTHING_RULED_OUT, rowsLeft, seenAs, type Told } from './sign-told.ts';
import { askView, toldView, type ToldSign } from './sign.view.ts';
import { mostUrgent } from './signs.ts';
import { takeBack } from './undo-event.command.ts';
import { planGone, type QuarantineDeps } from './which.command.ts';

export type Appetite = Extract<PlanEvent, { kind: 'check-in' }>['appetite'];

/** By which reply to its question a sign is read, as it travels in a button. */
export const BY = { open: '-', cannotTell: 'x', elsewhere: 'i' } as const;

/** The reply of this word; null while the question is open and where nobody could tell. */
export function replyOf(sign: Sign, by: string): Reply | null {
  if (by === BY.elsewhere) return NOTHING_RULED_OUT;
  return /^\d$/.test(by) ? (sign.answers[Number(by)] ?? null) : null;
}

export type Telling = {
  sign: Sign;
  by: string;
  appetite: Appetite | null;
  /** What was noted before and is told anew: its time is kept, and it no longer counts. */
  replaces: Told | null;
  typed?: string;
};

/**
 * Notes a sign and answers with what it may fit, or with the question that comes first. It is noted at once, as the
 * worst that it may be, so that a question nobody answers lessens nothing.
 */
export function tell(deps: QuarantineDeps, quarantine: Quarantine, told: Telling, request: Request): Answer {
  const { base } = deps;
  const plan = base.plans.get(quarantine.plan);
  if (!plan) return planGone();
  const { sign, by, appetite, replaces, typed } = told;
  const rows = rowsLeft(sign, replyOf(sign, by), base.signs);
  const seen = seenAs(plan, sign, rows);
  const hasBegun = startedStanding(deps, quarantine, request.now) !== null;
  // What to do first is said all the same.
  const isFull = hasBegun && !replaces && deps.store.isFull(quarantine);
  const eventId = hasBegun && !isFull ? noteSeen(deps, quarantine, plan, seen, { appetite, replaces }, request) : null;
  const shown: ToldSign = {
    quarantine,
    sign,
    typed,
    fish: quarantine.fish.flatMap((id) => base.fish.get(id) ?? []),
    noted: eventId === null ? null : { eventId, takeBack: takeBack(quarantine.id, eventId) },
  };
  const asked = by === BY.open ? mostUrgent(sign) : null;
  if (asked?.kind === 'ask') return askView(shown, asked.question, asked.until);
  return toldView(base, shown, {
    rows,
    effect: seen.effect,
    isFull,
    change: eventId === null ? null : changeBy(deps, quarantine, plan, eventId, request.now),
    asksAppetite: plan.for === 'fish' && appetiteIn(deps, quarantine, eventId) === null ? { reply: by } : null,
    planId: plan.id,
  });
}

/** Keeps what was seen; what it replaces goes only after that, so that a sign is never lost between the two. */
function noteSeen(
  { store }: QuarantineDeps,
  quarantine: Quarantine,
  plan: Plan,
  seen: Seen,
  { appetite, replaces }: Pick<Telling, 'appetite' | 'replaces'>,
  { memberId, now }: Request,
): string {
  const at = replaces?.at ?? now;
  const known = replaces?.kind === 'check-in' ? replaces.appetite : null;
  // Only fish are asked how they ate; elsewhere a look at the animals is the whole check-in.
  const ate = appetite ?? known ?? (plan.for === 'fish' ? null : 'normal');
  const event: NewPlanEvent =
    ate === null ? { kind: 'sign-seen', at, ...seen } : { kind: 'check-in', at, signs: [seen], appetite: ate };
  if (replaces && isSame(replaces, event)) return replaces.id;
  const id = store.note(quarantine, event, memberId, now);
  if (replaces) store.note(quarantine, { kind: 'undone', at: now, eventId: replaces.id }, memberId, now);
  return String(id);
}

const isSame = (old: Told, event: NewPlanEvent): boolean => {
  const seenIn = (each: NewPlanEvent) =>
    each.kind === 'sign-seen' ? [each] : each.kind === 'check-in' ? (each.signs ?? []) : [];
  const [one] = seenIn(old);
  const [other] = seenIn(event);
  const ate = (each: NewPlanEvent) => (each.kind === 'check-in' ? each.appetite : null);
  return (
    old.kind === event.kind &&
    ate(old) === ate(event) &&
    one?.sign === other?.sign &&
    one?.effect === other?.effect &&
    one?.urgency === other?.urgency
  );
};

function appetiteIn({ store }: QuarantineDeps, quarantine: Quarantine, eventId: string | null): Appetite | null {
  const event = eventId === null ? undefined : store.events(quarantine).find(({ id }) => id === eventId);
  return event?.kind === 'check-in' ? event.appetite : null;
}

/** What the event of this id did to the dates. */
function changeBy({ base, store }: QuarantineDeps, quarantine: Quarantine, plan: Plan, eventId: string, now: Date) {
  const context = { zone: quarantine.zone, lifeCycles: base.lifeCycles };
  const events = store.events(quarantine);
  const without = events.filter(({ id }) => id !== eventId);
  return dateChange(plan, fold(plan, without, now, context), fold(plan, events, now, context), now);
}
