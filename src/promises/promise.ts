import { PROMISE_LASTS_DAYS, type SwapPromise } from '../swaps/offer.ts';

const DAY_MS = 86_400_000;
/** So long after one of the two said that it was handed over the other may still say that it was not. */
export const OBJECT_WITHIN_DAYS = 3;
/** Before a promise ends both are reminded, this long ahead. */
export const REMIND_BEFORE_MS = DAY_MS;

/** A promise with what only the promises need to know. */
export type KeptPromise = SwapPromise & {
  /** A promise is extended once. */
  extended: boolean;
  changedAt: Date;
};

/** One of the two noted that the other did not come. */
export type NoShow = { promiseId: number; aboutId: string; byId: string; at: Date };

export const ACTS = [
  'release',
  'hand-over',
  'receive',
  'object',
  'extend',
  'pass',
  'expire',
  'settle',
  'withdraw',
  'return',
] as const;
export type PromiseAct = (typeof ACTS)[number];

/** Who acts: one of the two, the time that passes, the offer that goes or comes back, or somebody else. */
export const ACTORS = ['giver', 'taker', 'clock', 'offer', 'stranger'] as const;
export type Actor = (typeof ACTORS)[number];

/** Why an act does nothing. */
export type Refusal = 'not-yours' | 'over' | 'waiting' | 'already' | 'said' | 'nothing-said' | 'not-yet';

export type Moved = { kind: 'moved'; promise: KeptPromise } | { kind: 'no'; why: Refusal };

const WHO: Record<PromiseAct, readonly Actor[]> = {
  release: ['giver', 'taker'],
  'hand-over': ['giver'],
  receive: ['taker'],
  object: ['giver', 'taker'],
  extend: ['giver'],
  pass: ['clock'],
  expire: ['clock'],
  settle: ['clock'],
  withdraw: ['offer'],
  return: ['offer'],
};

export const actorOf = ({ giverId, takerId }: Pick<SwapPromise, 'giverId' | 'takerId'>, memberId: string): Actor =>
  memberId === giverId ? 'giver' : memberId === takerId ? 'taker' : 'stranger';

export const daysFrom = (at: Date, days: number): Date => new Date(at.getTime() + days * DAY_MS);

/** Until when a promise made now stands. */
export const promisedUntil = (now: Date): Date => daysFrom(now, PROMISE_LASTS_DAYS);

/**
 * What an act makes of a promise, or why it makes nothing of it.
 *
 * Once one of the two has said that the piece changed hands, `until` is when that counts unless the other objects.
 * A piece that was handed over stays handed over; who did not say so may still say it.
 */
export function moved(promise: KeptPromise, act: PromiseAct, actor: Actor, now: Date): Moved {
  if (!WHO[act].includes(actor)) return no('not-yours');
  switch (promise.state) {
    case 'queued':
      return whileQueued(promise, act, now);
    case 'promised':
      return whilePromised(promise, act, actor, now);
    case 'handed-over':
      return act === 'hand-over' || act === 'receive' ? saidAfter(promise, act, now) : no('over');
    case 'withdrawn':
      return act === 'return' ? returned(promise, now) : no('over');
    case 'released':
    case 'expired':
      return no('over');
  }
}

const no = (why: Refusal): Moved => ({ kind: 'no', why });
const to = (promise: KeptPromise, change: Partial<KeptPromise>, now: Date): Moved => ({
  kind: 'moved',
  promise: { ...promise, ...change, changedAt: now },
});
const isSaid = ({ giverSaid, takerSaid }: SwapPromise): boolean => giverSaid || takerSaid;
const isDue = ({ until }: SwapPromise, now: Date): boolean => until !== null && until <= now;

function whileQueued(promise: KeptPromise, act: PromiseAct, now: Date): Moved {
  if (act === 'release') return to(promise, { state: 'released' }, now);
  if (act === 'pass') return to(promise, { state: 'promised', until: promisedUntil(now) }, now);
  if (act === 'withdraw') return to(promise, { state: 'withdrawn' }, now);
  return no('waiting');
}

function whilePromised(promise: KeptPromise, act: PromiseAct, actor: Actor, now: Date): Moved {
  switch (act) {
    case 'release':
      return isSaid(promise) ? no('said') : to(promise, { state: 'released' }, now);
    case 'withdraw':
      return isSaid(promise) ? no('said') : to(promise, { state: 'withdrawn' }, now);
    case 'hand-over':
      return promise.giverSaid ? no('already') : said({ ...promise, giverSaid: true }, now);
    case 'receive':
      return promise.takerSaid ? no('already') : said({ ...promise, takerSaid: true }, now);
    case 'object': {
      const otherSaid = actor === 'giver' ? promise.takerSaid : promise.giverSaid;
      if (!otherSaid) return no('nothing-said');
      return to(promise, { giverSaid: false, takerSaid: false, until: daysFrom(now, OBJECT_WITHIN_DAYS) }, now);
    }
    case 'extend': {
      if (isSaid(promise)) return no('said');
      if (promise.extended) return no('already');
      return to(promise, { extended: true, until: daysFrom(promise.until ?? now, PROMISE_LASTS_DAYS) }, now);
    }
    case 'expire':
      if (isSaid(promise)) return no('said');
      return isDue(promise, now) ? to(promise, { state: 'expired' }, now) : no('not-yet');
    case 'settle':
      if (!isSaid(promise)) return no('nothing-said');
      return isDue(promise, now) ? to(promise, { state: 'handed-over' }, now) : no('not-yet');
    case 'pass':
    case 'return':
      return no('already');
  }
}

const said = (promise: KeptPromise, now: Date): Moved =>
  promise.giverSaid && promise.takerSaid
    ? to(promise, { state: 'handed-over' }, now)
    : to(promise, { until: daysFrom(now, OBJECT_WITHIN_DAYS) }, now);

function saidAfter(promise: KeptPromise, act: 'hand-over' | 'receive', now: Date): Moved {
  if (act === 'hand-over') return promise.giverSaid ? no('already') : to(promise, { giverSaid: true }, now);
  return promise.takerSaid ? no('already') : to(promise, { takerSaid: true }, now);
}

/** A piece that was promised before its offer went is promised again, as long as its time is not over. */
const returned = (promise: KeptPromise, now: Date): Moved =>
  promise.until !== null && promise.until > now
    ? to(promise, { state: 'promised' }, now)
    : to(promise, { state: 'queued', until: null }, now);
