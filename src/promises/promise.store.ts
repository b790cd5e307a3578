import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { offerStore } from '../swaps/offer.store.ts';
import { PROMISE_STATES, type Offer } from '../swaps/offer.ts';
import { blockStore } from './block.store.ts';
import {
  actorOf,
  moved,
  promisedUntil,
  type Actor,
  type KeptPromise,
  type PromiseAct,
  type Refusal,
} from './promise.ts';

const moment = (ms: number | null): Date | null => (ms === null ? null : new Date(ms));

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    offer_id: z.int(),
    giver_id: z.string(),
    taker_id: z.string(),
    state: z.enum(PROMISE_STATES),
    ring_id: z.int().nullable(),
    until_ms: z.int().nullable(),
    giver_said: z.int(),
    taker_said: z.int(),
    word: z.string().nullable(),
    thread_id: z.string().nullable(),
    extended: z.int(),
    created_at_ms: z.int(),
    changed_at_ms: z.int(),
  })
  .transform((row): KeptPromise => ({
    id: row.id,
    guildId: row.guild_id,
    offerId: row.offer_id,
    giverId: row.giver_id,
    takerId: row.taker_id,
    state: row.state,
    ringId: row.ring_id,
    until: moment(row.until_ms),
    giverSaid: row.giver_said === 1,
    takerSaid: row.taker_said === 1,
    word: row.word,
    threadId: row.thread_id,
    extended: row.extended === 1,
    createdAt: new Date(row.created_at_ms),
    changedAt: new Date(row.changed_at_ms),
  }));

/** What became of a press; `gone`: every piece was handed over, so that none can come back. */
export type PressResult =
  | { kind: 'promised'; promise: KeptPromise; place?: undefined }
  | { kind: 'queued' | 'already'; promise: KeptPromise; place?: number | undefined }
  | { kind: 'own' | 'closed' | 'blocked' | 'gone'; promise?: undefined; place?: undefined };

/** What became of an act; `next`: those of the queue to whom a piece went in the same transaction. */
export type ActResult =
  | { kind: 'moved'; promise: KeptPromise; before: KeptPromise; next: readonly KeptPromise[] }
  | { kind: 'no'; why: Refusal | 'gone' };

export type RingArc = { offerId: number; giverId: string; takerId: string };

/**
 * Promises of every club. Each act is one transaction that takes the write lock at once, so that two processes never
 * promise the same piece; the tables refuse it besides. A piece goes to whoever pressed first and is not blocked.
 */
export function promiseStore(db: Database) {
  const offers = offerStore(db);
  const blocks = blockStore(db);
  const columns = `guild_id, offer_id, giver_id, taker_id, state, ring_id, until_ms, created_at_ms, changed_at_ms`;
  const insert = db.prepare(`INSERT INTO swap_promises (${columns})
    VALUES (@guildId, @offerId, @giverId, @takerId, @state, @ringId, @untilMs, @nowMs, @nowMs)`);
  const select = db.prepare('SELECT * FROM swap_promises WHERE id = ? AND guild_id = ?');
  const selectAny = db.prepare('SELECT * FROM swap_promises WHERE id = ?');
  const selectAsked = db.prepare(`SELECT 1 FROM swap_rings WHERE id = ? AND state = 'proposed'`);
  const selectOf = db.prepare('SELECT * FROM swap_promises WHERE offer_id = ? AND guild_id = ? ORDER BY id');
  const selectLive = db.prepare(
    `SELECT * FROM swap_promises WHERE guild_id = ? AND state IN ('queued', 'promised') ORDER BY id`,
  );
  const selectWith = db.prepare(`SELECT * FROM swap_promises
    WHERE guild_id = @guildId AND (giver_id = @memberId OR taker_id = @memberId) ORDER BY id`);
  const selectEnding = db.prepare(
    `SELECT * FROM swap_promises WHERE state = 'promised' AND until_ms <= ? ORDER BY until_ms, id LIMIT ?`,
  );
  const selectToRemind = db.prepare(`SELECT * FROM swap_promises WHERE state = 'promised' AND giver_said = 0
    AND taker_said = 0 AND until_ms > @now AND until_ms <= @by AND reminded_for_ms IS NOT until_ms
    ORDER BY until_ms, id LIMIT @limit`);
  const reminded = db.prepare('UPDATE swap_promises SET reminded_for_ms = until_ms WHERE id = ?');
  const update = db.prepare(`UPDATE swap_promises SET state = @state, ring_id = @ringId, until_ms = @untilMs,
    giver_said = @giverSaid, taker_said = @takerSaid, word = @word, thread_id = @threadId, extended = @extended,
    changed_at_ms = @changedMs WHERE id = @id`);
  const selectRecord = db.prepare(`SELECT count(*) FILTER (WHERE giver_id = @memberId) AS given,
    count(*) FILTER (WHERE taker_id = @memberId) AS received FROM swap_promises
    WHERE guild_id = @guildId AND state = 'handed-over'`);

  const atOnce = <T>(work: () => T): T => db.transaction(work).immediate();
  const rows = (found: readonly unknown[]): KeptPromise[] => found.map((row) => Row.parse(row));
  const find = (id: number, guildId: string): KeptPromise | undefined =>
    Number.isSafeInteger(id) ? Row.optional().parse(select.get(id, guildId)) : undefined;
  const findAnywhere = (id: number): KeptPromise | undefined =>
    Number.isSafeInteger(id) ? Row.optional().parse(selectAny.get(id)) : undefined;
  const of = ({ id, guildId }: Pick<Offer, 'id' | 'guildId'>): KeptPromise[] => rows(selectOf.all(id, guildId));
  const save = (promise: KeptPromise): void => {
    const { id, state, ringId, threadId } = promise;
    update.run({
      ...{ id, state, ringId, threadId },
      word: promise.word?.toWellFormed() ?? null,
      untilMs: promise.until?.getTime() ?? null,
      giverSaid: Number(promise.giverSaid),
      takerSaid: Number(promise.takerSaid),
      extended: Number(promise.extended),
      changedMs: promise.changedAt.getTime(),
    });
  };
  const add = (
    offer: Offer,
    takerId: string,
    state: 'queued' | 'promised',
    until: Date | null,
    now: Date,
  ): KeptPromise => {
    const { id: offerId, guildId, memberId: giverId } = offer;
    const row = { guildId, offerId, giverId, takerId, state, ringId: null };
    const { lastInsertRowid } = insert.run({ ...row, untilMs: until?.getTime() ?? null, nowMs: now.getTime() });
    const added = find(Number(lastInsertRowid), guildId);
    if (!added) throw new Error(`the promise that was just written, ${lastInsertRowid}, is not there`);
    return added;
  };
  const isOpen = ({ state, expiresAt }: Offer, now: Date) => state === 'open' && expiresAt > now;
  const queueOf = (offer: Pick<Offer, 'id' | 'guildId'>) => of(offer).filter(({ state }) => state === 'queued');
  const placeOf = ({ id, offerId, guildId, state }: KeptPromise): number | undefined =>
    state === 'queued' ? queueOf({ id: offerId, guildId }).filter((each) => each.id <= id).length : undefined;

  /** Gives free pieces to the queue, first come first served; those between whom there is a block keep their place and wait. */
  const fill = ({ id, guildId }: Pick<Offer, 'id' | 'guildId'>, now: Date): KeptPromise[] =>
    atOnce(() => {
      const offer = offers.find(id, guildId);
      if (!offer || !isOpen(offer, now)) return [];
      const apart = blocks.pairs(guildId);
      const next = queueOf(offer)
        .filter(({ giverId, takerId }) => !apart.has(`${giverId}/${takerId}`))
        .slice(0, offer.left)
        .flatMap((promise) => {
          const result = moved(promise, 'pass', 'clock', now);
          return result.kind === 'moved' ? [result.promise] : [];
        });
      next.forEach(save);
      return next;
    });

  /** One act on a promise as it is at this moment; a piece that comes free goes on in the same transaction. */
  const act = (id: number, what: PromiseAct, by: string | Actor, now: Date, word: string | null = null): ActResult =>
    atOnce(() => {
      const before = findAnywhere(id);
      if (!before) return { kind: 'no', why: 'gone' };
      const actor = by === 'clock' || by === 'offer' ? by : actorOf(before, by);
      const result = moved(before, what, actor, now);
      if (result.kind === 'no') return result;
      const promise = word === null ? result.promise : { ...result.promise, word };
      save(promise);
      const isFree = before.state === 'promised' && (promise.state === 'released' || promise.state === 'expired');
      const next = isFree ? fill({ id: promise.offerId, guildId: promise.guildId }, now) : [];
      return { kind: 'moved', promise, before, next };
    });

  return {
    find,
    /** By its number alone, for buttons of direct messages: whoever asks has to be checked. */
    findAnywhere,
    /** All promises of an offer, in the order of pressing. */
    of,
    /** Everything that is queued or promised in a club. */
    live: (guildId: string): KeptPromise[] => rows(selectLive.all(guildId)),
    /** Whatever a member gives or takes, the oldest first. */
    withMember: (guildId: string, memberId: string): KeptPromise[] => rows(selectWith.all({ guildId, memberId })),
    /** A place in the queue, from 1; undefined for one that does not wait. */
    placeOf,
    /** Whether it is kept for a ring that not all have answered yet. */
    isRingAsked: ({ state, ringId }: KeptPromise): boolean =>
      state === 'promised' && ringId !== null && selectAsked.get(ringId) !== undefined,
    /** A press on "I’d like one": a piece, or the last place in the queue. */
    promise: ({ id, guildId }: Pick<Offer, 'id' | 'guildId'>, takerId: string, now: Date): PressResult =>
      atOnce((): PressResult => {
        const offer = offers.find(id, guildId);
        if (!offer) return { kind: 'closed' };
        if (offer.memberId === takerId) return { kind: 'own' };
        const all = of(offer);
        const live = all.find(
          (each) => each.takerId === takerId && (each.state === 'queued' || each.state === 'promised'),
        );
        if (live) return { kind: 'already', promise: live, place: placeOf(live) };
        if (!isOpen(offer, now)) return { kind: 'closed' };
        const apart = blocks.pairs(guildId);
        if (apart.has(`${takerId}/${offer.memberId}`)) return { kind: 'blocked' };
        if (all.filter(({ state }) => state === 'handed-over').length >= offer.pieces) return { kind: 'gone' };
        const isWaited = all.some((each) => each.state === 'queued' && !apart.has(`${each.takerId}/${offer.memberId}`));
        if (offer.left > 0 && !isWaited)
          return { kind: 'promised', promise: add(offer, takerId, 'promised', promisedUntil(now), now) };
        const promise = add(offer, takerId, 'queued', null, now);
        return { kind: 'queued', promise, place: placeOf(promise) };
      }),
    /** Promises every piece of a ring, or none: a piece that went meanwhile, or a block, leaves everything as it was. */
    promiseForRing: (arcs: readonly RingArc[], ringId: number, until: Date, now: Date): boolean => {
      const given = () => {
        for (const { offerId, giverId, takerId } of arcs) {
          const offer = offers.findAnywhere(offerId);
          if (!offer || offer.memberId !== giverId || giverId === takerId || !isOpen(offer, now) || offer.left < 1)
            throw new NotAll();
          if (blocks.pairs(offer.guildId).has(`${giverId}/${takerId}`)) throw new NotAll();
          const live = of(offer).filter(({ state }) => state === 'queued' || state === 'promised');
          const own = live.find((each) => each.takerId === takerId);
          if (own?.state === 'promised') throw new NotAll();
          const kept = own ?? add(offer, takerId, 'queued', null, now);
          save({ ...kept, state: 'promised', ringId, until, changedAt: now });
        }
      };
      try {
        atOnce(given);
        return true;
      } catch (error) {
        if (error instanceof NotAll) return false;
        throw error;
      }
    },
    act,
    /** Lets a piece or a place go; whoever is next has it in the same transaction. */
    release: ({ id }: Pick<KeptPromise, 'id'>, byId: string, word: string | null, now: Date): ActResult =>
      act(id, 'release', byId, now, word),
    fill,
    /** The offer goes: who waits and who was promised a piece has none, but for a piece that was handed over. */
    offerGone: (offer: Pick<Offer, 'id' | 'guildId'>, now: Date): KeptPromise[] =>
      atOnce(() =>
        of(offer).flatMap(({ id }) => {
          const result = act(id, 'withdraw', 'offer', now);
          return result.kind === 'moved' ? [result.promise] : [];
        }),
      ),
    /** The offer is back: everybody whom it left has again what they had, as far as there are pieces. */
    offerBack: (offer: Pick<Offer, 'id' | 'guildId'>, now: Date): KeptPromise[] =>
      atOnce(() => {
        const all = of(offer);
        const isLive = ({ state }: KeptPromise) => state === 'queued' || state === 'promised';
        const anew = new Set(all.filter(isLive).map(({ takerId }) => takerId));
        const back = all
          .filter(({ state, takerId }) => state === 'withdrawn' && !anew.has(takerId))
          .filter(({ takerId }, at, list) => list.findLastIndex((each) => each.takerId === takerId) === at);
        for (const each of back) {
          const left = offers.find(offer.id, offer.guildId)?.left ?? 0;
          const result = moved(left > 0 ? each : { ...each, until: null }, 'return', 'offer', now);
          if (result.kind === 'moved') save(result.promise);
        }
        fill(offer, now);
        return back.flatMap(({ id }) => findAnywhere(id) ?? []);
      }),
    /** Promises whose time is over, in every club, the first first. */
    ending: (by: Date, limit: number): KeptPromise[] => rows(selectEnding.all(by.getTime(), limit)),
    /** Those that end soon and whose two were not reminded of it. */
    toRemind: (now: Date, by: Date, limit: number): KeptPromise[] =>
      rows(selectToRemind.all({ now: now.getTime(), by: by.getTime(), limit })),
    reminded: ({ id }: Pick<KeptPromise, 'id'>): void => void reminded.run(id),
    inThread: ({ id }: Pick<KeptPromise, 'id'>, threadId: string): void => {
      const promise = findAnywhere(id);
      if (promise) save({ ...promise, threadId });
    },
    /** How many pieces a member gave and got. */
    record: (guildId: string, memberId: string): { given: number; received: number } =>
      z.object({ given: z.int(), received: z.int() }).parse(selectRecord.get({ guildId, memberId })),
    /** Pairs of members, both ways as "a/b", of whom one has blocked the other. */
    blocked: (guildId: string): ReadonlySet<string> => blocks.pairs(guildId),
    blocks,
  };
}
export type PromiseStore = ReturnType<typeof promiseStore>;

/** Ends the transaction of a ring that cannot be promised whole. */
class NotAll extends Error {}
