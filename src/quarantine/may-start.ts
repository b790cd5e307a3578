import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Purpose } from '../knowledge/purpose.ts';
import { isWatching, kindsOf, mayBe, urgentPurpose, type Asker } from './advice.ts';
import { belongsTo } from './fold-holds.ts';
import type { PlanEvent } from './plan-event.ts';
import type { Quarantine } from './quarantine.ts';
import { isRefused, notSimplyBorne, type Suited } from './suits.ts';

type Base = Pick<KnowledgeBase, 'fish' | 'plans' | 'purposes'>;

/** A plan that runs, with what was noted in it. */
export type Running = { quarantine: Quarantine; isCompleted: boolean };

export type Hindrance =
  | { kind: 'urgent'; purpose: Purpose }
  | { kind: 'not-borne'; suited: readonly Suited[]; open: readonly string[] }
  | { kind: 'two-medicines'; other: Quarantine };

/** Signs of so long ago still speak. */
const SIGNS_H = 72;
const HOUR_MS = 3_600_000;

/** What stands, without what was taken back. */
export function standingEvents(events: readonly PlanEvent[]): PlanEvent[] {
  const gone = new Set(events.flatMap((event) => (event.kind === 'undone' ? [event.eventId] : [])));
  return events.filter(({ id, kind }) => kind !== 'undone' && !gone.has(id));
}

/** Whom a plan is for, with whether a vet directed it and what was seen lately, here or in the quarantine before. */
export function askerOf(
  { animals, fish }: Quarantine,
  events: readonly PlanEvent[],
  before: readonly PlanEvent[],
  now: Date,
): Asker {
  const since = now.getTime() - SIGNS_H * HOUR_MS;
  const signs = standingEvents([...events, ...before])
    .filter(({ at }) => at.getTime() >= since)
    .flatMap((event) => {
      if (event.kind === 'sign-seen') return [event.sign];
      return event.kind === 'check-in' ? event.signs.map(({ sign }) => sign) : [];
    });
  return { animals, fish, signs, isVetLed: standingEvents(events).some(({ kind }) => kind === 'vet-said') };
}

/**
 * Why a plan may not begin without a vet; null when nothing speaks against it.
 *
 * @param running what its keeper has running, and what others have in which the keeper helps
 */
export function hindrance(
  base: Base,
  quarantine: Quarantine,
  plan: Plan,
  asker: Asker,
  running: readonly Running[],
): Hindrance | null {
  if (asker.isVetLed) return null;
  const urgent = plan.for === 'fish' ? urgentPurpose(base, asker) : undefined;
  if (urgent && !isWatching(plan)) return { kind: 'urgent', purpose: urgent };
  const kinds = kindsOf(base, asker);
  const suited = notSimplyBorne(plan, mayBe(kinds));
  if (isRefused(suited)) return { kind: 'not-borne', suited, open: kinds.shared.map(({ word }) => word) };
  const other = plan.medicated ? running.find((each) => isSecondMedicine(base, quarantine, each)) : undefined;
  return other ? { kind: 'two-medicines', other: other.quarantine } : null;
}

/** Of one's own any medicine counts; of others the one in the same tank or for the same animals. */
function isSecondMedicine(
  { plans }: Pick<Base, 'plans'>,
  quarantine: Quarantine,
  { quarantine: other, isCompleted }: Running,
): boolean {
  if (other.id === quarantine.id || isCompleted || !plans.get(other.plan)?.medicated) return false;
  // A new way of the same medicine takes the place of the old one.
  if (quarantine.follows === other.id && quarantine.plan === other.plan) return false;
  if (other.memberId === quarantine.memberId) return true;
  const same = (one: string | null, another: string | null) =>
    one !== null && another !== null && normaliseName(one) === normaliseName(another);
  return same(other.tank, quarantine.tank) || same(other.animals, quarantine.animals);
}

/** Whether the range of a plan is that of a label, so that without one nothing can be counted. */
export const needsLabel = (plan: Plan, option: string | null): boolean =>
  plan.holds.filter(belongsTo(option)).some(({ range }) => range?.limits === 'label');
