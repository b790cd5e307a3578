import { MOST_PIECES, type Offer } from '../swaps/offer.ts';
import type { KeptPromise } from './promise.ts';

export const CURATOR_ACTS = ['hide', 'show', 'map', 'merge', 'edit'] as const;
export type CuratorAct = (typeof CURATOR_ACTS)[number];

/** What a member reported of an offer; who and how settled it, once somebody did. */
export type Report = {
  id: number;
  guildId: string;
  offerId: number;
  byId: string;
  words: string;
  settledBy: string | null;
  settledHow: string | null;
  at: Date;
};

/** What a curator asks for; `merge` joins the offer into another of the same member. */
export type Curating =
  | { act: 'hide' | 'show' }
  | { act: 'map'; coral: string }
  | { act: 'edit'; name?: string | undefined; special?: string | null | undefined }
  | { act: 'merge'; into: Offer };

export type NotCurated =
  | 'own'
  | 'hidden-already'
  | 'not-hidden'
  | 'closed'
  | 'same'
  | 'other-keeper'
  | 'too-many'
  | 'promised-twice'
  | 'merged'
  | 'nothing'
  | 'changed-since';

/** What an act on one offer changes of it; null with a reason when it may not be. A merge is looked at by itself. */
export function curated(
  offer: Offer,
  curating: Exclude<Curating, { act: 'merge' }>,
  now: Date,
): { kind: 'to'; offer: Offer } | { kind: 'no'; why: NotCurated } {
  const { details, state } = offer;
  switch (curating.act) {
    case 'hide':
      if (state === 'hidden') return { kind: 'no', why: 'hidden-already' };
      return state === 'open' ? { kind: 'to', offer: { ...offer, state: 'hidden' } } : { kind: 'no', why: 'closed' };
    case 'show':
      if (state !== 'hidden') return { kind: 'no', why: 'not-hidden' };
      return { kind: 'to', offer: { ...offer, state: offer.expiresAt > now ? 'open' : 'expired' } };
    case 'map':
      if (details.coral === curating.coral) return { kind: 'no', why: 'same' };
      return { kind: 'to', offer: { ...offer, details: { ...details, coral: curating.coral } } };
    case 'edit': {
      const { name = details.name, special = details.special } = curating;
      if (name === details.name && special === details.special) return { kind: 'no', why: 'same' };
      return { kind: 'to', offer: { ...offer, details: { ...details, name, special } } };
    }
  }
}

const isLive = ({ state }: KeptPromise) => state === 'queued' || state === 'promised';

/**
 * Which promises move when one offer is joined into another, and which places in a queue are given up since their
 * member stands in both; or why the two stay apart.
 */
export function merging(
  from: Offer,
  into: Offer,
  promises: { from: readonly KeptPromise[]; into: readonly KeptPromise[] },
): { kind: 'to'; dropped: readonly KeptPromise[] } | { kind: 'no'; why: NotCurated } {
  if (from.id === into.id) return { kind: 'no', why: 'same' };
  if (from.memberId !== into.memberId) return { kind: 'no', why: 'other-keeper' };
  if (from.state !== 'open' || into.state !== 'open') return { kind: 'no', why: 'closed' };
  if (from.pieces + into.pieces > MOST_PIECES) return { kind: 'no', why: 'too-many' };
  const twice = promises.from.filter(isLive).flatMap((one) => {
    const other = promises.into.find((each) => isLive(each) && each.takerId === one.takerId);
    return other ? [{ one, other }] : [];
  });
  if (twice.some(({ one, other }) => one.state === 'promised' && other.state === 'promised'))
    return { kind: 'no', why: 'promised-twice' };
  return { kind: 'to', dropped: twice.map(({ one, other }) => lesser(one, other)) };
}

/** Of two places of one member the later one that only waits. */
function lesser(one: KeptPromise, other: KeptPromise): KeptPromise {
  if (one.state !== other.state) return one.state === 'queued' ? one : other;
  return one.id > other.id ? one : other;
}
