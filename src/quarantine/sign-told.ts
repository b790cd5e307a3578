import type { Plan } from '../knowledge/plan.ts';
import type { Reply, Sign } from '../knowledge/sign.ts';
import type { EventOf, PlanEvent, Seen } from './plan-event.ts';
import { byUrgency, leastUrgency, type Fit, type SignGroup } from './signs.ts';

type Signs = ReadonlyMap<string, Sign>;

/** Whether a sign is about people or their pets: then first aid is all that is said, and nothing is noted. */
export const isOfPeople = ({ group }: Pick<Sign, 'group'>): boolean => group === 'human' || group === 'pet';

/** The groups of signs that are looked for under a plan. */
const GROUPS: Readonly<Record<Plan['for'], readonly SignGroup[]>> = {
  fish: ['fish'],
  coral: ['coral'],
  invertebrate: ['invertebrate'],
  macroalgae: ['invertebrate', 'coral'],
  display: ['coral', 'invertebrate'],
};

/** The signs that fit a plan, the most urgent first. */
export const signsUnder = (plan: Pick<Plan, 'for'>, signs: Iterable<Sign>): Sign[] =>
  [...signs]
    .filter(({ group }) => GROUPS[plan.for].includes(group))
    .sort((one, other) => leastUrgency(one) - leastUrgency(other) || (one.name < other.name ? -1 : 1));

/** A question that was answered with nothing ruled out, such as by way of another sign. */
export const NOTHING_RULED_OUT: Reply = { says: '', rulesOut: [], pointsTo: [], insteadSee: [] };

/**
 * What may still be behind a sign, the most urgent row first.
 *
 * `reply` is null while the sign's question is open, when nobody could tell, and when nothing is asked. Then what an
 * answer would lead to elsewhere is not ruled out either, and its emergencies stand beside the sign's own rows.
 */
export function rowsLeft(sign: Sign, reply: Reply | null, signs: Signs): Fit[] {
  const own = sign.fits.filter(({ condition }) => !reply?.rulesOut.includes(condition));
  const elsewhere = (reply ? [] : sign.answers.flatMap(({ insteadSee }) => insteadSee))
    .flatMap((id) => signs.get(id)?.fits ?? [])
    .filter(({ urgency }) => urgency === 'emergency')
    .map((fit): Fit => ({ ...fit, weight: 'weak' }));
  const rows = new Map([...elsewhere, ...own].map((fit) => [fit.condition, fit]));
  const spokenFor = ({ condition }: Fit) => Number(!reply?.pointsTo.includes(condition));
  return [...rows.values()].sort(
    (one, other) => (one.urgency === other.urgency ? spokenFor(one) - spokenFor(other) : 0) || byUrgency(one, other),
  );
}

/**
 * What a sign does to the dates of a plan.
 *
 * One row that may be catching is enough, the most urgent one need not be it. Where corals, other invertebrates or
 * algae wait, what is catching is a pest; a sign of a fish there means that a fish is in the water. A sign of corals
 * or invertebrates says nothing of the fish that wait.
 */
export function effectOf(
  plan: Pick<Plan, 'for'>,
  { group }: Pick<Sign, 'group'>,
  rows: readonly Fit[],
): Seen['effect'] {
  if (isOfPeople({ group })) return 'none';
  if (plan.for !== 'fish' && group === 'fish') return 'fish';
  if (plan.for === 'fish' && group !== 'fish') return 'none';
  if (rows.some(({ restarts }) => restarts)) return plan.for === 'fish' ? 'infectious' : 'pest';
  return rows.length > 0 && rows.every(({ normal }) => normal) ? 'none' : 'weak';
}

/** How it is noted. */
export const seenAs = (plan: Pick<Plan, 'for'>, sign: Sign, rows: readonly Fit[]): Seen => ({
  sign: sign.id,
  effect: effectOf(plan, sign, rows),
  urgency: rows[0]?.urgency ?? 'watch',
});

/** An event that tells of a sign. */
export type Told = EventOf<'sign-seen'> | EventOf<'check-in'>;

/** The event of this id, if it tells of this sign and was not taken back. */
export function toldIn(events: readonly PlanEvent[], eventId: string, signId?: string): Told | null {
  const found = events.find(({ id }) => id === eventId);
  if (events.some((event) => event.kind === 'undone' && event.eventId === eventId)) return null;
  if (found?.kind !== 'sign-seen' && found?.kind !== 'check-in') return null;
  const told = found.kind === 'sign-seen' ? [found.sign] : found.signs.map(({ sign }) => sign);
  return signId === undefined || told.includes(signId) ? found : null;
}
