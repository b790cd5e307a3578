import type { Database } from 'better-sqlite3';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { OutboxMessage, Settled } from '../outbox/outbox.ts';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import type { Offer } from '../swaps/offer.ts';
import type { OfferStore } from '../swaps/offer.store.ts';
import { helloMessages, readTopic, threadMessage, toldMessage, type Told } from './promise-messages.ts';
import { actorOf, REMIND_BEFORE_MS, type KeptPromise, type PromiseAct } from './promise.ts';
import type { ActResult, PressResult, PromiseStore } from './promise.store.ts';
import type { Role, ShownPromise } from './promise-words.ts';

const BATCH = 100;
const MOST_BATCHES = 100;

/** Brings the card of an offer in its channel up to date. */
export type Cards = { refresh: (offer: Offer, now: Date) => void };

export type PromisesDeps = {
  db: Database;
  base: Pick<KnowledgeBase, 'corals'>;
  promises: PromiseStore;
  offers: OfferStore;
  outbox: OutboxStore;
  cards: Cards;
};

/** What happens to promises: every act, what both are told of it and the card that shows it are one transaction. */
export function promisesWorker({ db, base, promises, offers, outbox, cards }: PromisesDeps) {
  const atOnce = <T>(work: () => T): T => db.transaction(work).immediate();

  const coralOf = ({ details }: Offer) => (details.coral === null ? undefined : base.corals.get(details.coral));

  const shown = (promise: KeptPromise, readerId?: string): ShownPromise => {
    const offer = offers.find(promise.offerId, promise.guildId);
    if (!offer) throw new Error(`promise ${promise.id} is of an offer that is not there`);
    const noted = promises.blocks.noShows(promise.guildId).filter(({ promiseId }) => promiseId === promise.id);
    const noShow = noted.some(({ byId }) => byId === readerId);
    const noShowOfMine = noted.some(({ aboutId }) => aboutId === readerId);
    const ringAsked = promises.isRingAsked(promise);
    return { promise, offer, place: promises.placeOf(promise), noShow, noShowOfMine, ringAsked };
  };

  const tell = (promise: KeptPromise, told: Told, to: readonly Role[], now: Date): void => {
    for (const role of to) {
      const memberId = role === 'giver' ? promise.giverId : promise.takerId;
      const seen = shown(promise, memberId);
      outbox.add(toldMessage(seen, told, role, coralOf(seen.offer), now));
    }
  };

  const refresh = ({ offerId, guildId }: Pick<KeptPromise, 'offerId' | 'guildId'>, now: Date): void => {
    const offer = offers.find(offerId, guildId);
    if (offer) cards.refresh(offer, now);
  };

  /** Those to whom a piece went on hear of it, and so does the giver. */
  const tellNext = (next: readonly KeptPromise[], now: Date): void => {
    for (const each of next) tell(each, 'passed', ['taker', 'giver'], now);
  };

  const tellOf = (act: PromiseAct, result: Extract<ActResult, { kind: 'moved' }>, by: Role | null, now: Date): void => {
    const { promise, before, next } = result;
    const other: Role[] = by === null ? ['giver', 'taker'] : by === 'giver' ? ['taker'] : ['giver'];
    const isOver = promise.state === 'handed-over' && before.state !== 'handed-over';
    if (act === 'release' && !(before.state === 'queued' && by === 'taker')) tell(promise, 'released', other, now);
    if (act === 'expire') tell(promise, 'expired', other, now);
    if (act === 'settle') tell(promise, 'settled', other, now);
    if (act === 'object') tell(promise, 'not-so', other, now);
    if (act === 'extend') tell(promise, 'extended', other, now);
    if (act === 'hand-over' || act === 'receive')
      if (isOver) tell(promise, 'agreed', other, now);
      else if (before.state === 'promised') tell(promise, 'said', other, now);
    tellNext(next, now);
    refresh(promise, now);
  };

  const hello = (promise: KeptPromise, threadId: string, now: Date): void => {
    promises.inThread(promise, threadId);
    for (const message of helloMessages(shown(promise), threadId, now)) outbox.add(message);
  };

  const onMany = (list: readonly KeptPromise[], told: Told, offer: Pick<Offer, 'id' | 'guildId'>, now: Date): void => {
    for (const each of list) tell(each, told, ['taker'], now);
    refresh({ offerId: offer.id, guildId: offer.guildId }, now);
  };

  const inBatches = (due: () => readonly KeptPromise[], each: (promise: KeptPromise) => void): void => {
    for (let batches = 0; batches < MOST_BATCHES; batches += 1) {
      const list = due();
      if (list.length === 0) return;
      for (const promise of list) atOnce(() => each(promise));
    }
  };

  return {
    shown,
    coralOf,
    /** Tells those of a queue that a piece went on to them. */
    passedOn: tellNext,
    /** A press on "I’d like one"; the giver hears of a promise at once. */
    press: (offer: Pick<Offer, 'id' | 'guildId'>, takerId: string, now: Date): PressResult =>
      atOnce(() => {
        const result = promises.promise(offer, takerId, now);
        if (result.kind === 'promised') tell(result.promise, 'promised', ['giver'], now);
        if (result.kind === 'promised' || result.kind === 'queued') refresh(result.promise, now);
        return result;
      }),
    /** An act of one of the two; the other hears of it, and whoever is next in the queue. */
    act: (promise: KeptPromise, what: PromiseAct, byId: string, now: Date, word: string | null = null): ActResult =>
      atOnce(() => {
        const actor = actorOf(promise, byId);
        const result = promises.act(promise.id, what, byId, now, word);
        if (result.kind === 'moved' && (actor === 'giver' || actor === 'taker')) tellOf(what, result, actor, now);
        return result;
      }),
    /** Asks for a thread on the card; `there`: it is open, `asked`: it comes, `none`: the card was never posted. */
    openThread: (promise: KeptPromise, now: Date): { kind: 'there'; threadId: string } | { kind: 'asked' | 'none' } =>
      atOnce(() => {
        if (promise.threadId !== null) return { kind: 'there', threadId: promise.threadId };
        const seen = shown(promise);
        if (seen.offer.messageId === null) return { kind: 'none' };
        const open = promises.of(seen.offer).find(({ threadId }) => threadId !== null)?.threadId;
        if (open) {
          hello(promise, open, now);
          return { kind: 'there', threadId: open };
        }
        outbox.add(threadMessage(seen, now));
        return { kind: 'asked' };
      }),
    /** There are pieces again, or more of them, or the offer is open again: the queue moves up. */
    offerChanged: (offer: Pick<Offer, 'id' | 'guildId'>, now: Date): void =>
      atOnce(() => {
        tellNext(promises.fill(offer, now), now);
        refresh({ offerId: offer.id, guildId: offer.guildId }, now);
      }),
    /** The offer was withdrawn: whoever waited or was promised a piece hears of it. */
    offerGone: (offer: Pick<Offer, 'id' | 'guildId'>, now: Date): void =>
      atOnce(() => onMany(promises.offerGone(offer, now), 'withdrawn', offer, now)),
    /** The withdrawal was taken back. */
    offerBack: (offer: Pick<Offer, 'id' | 'guildId'>, now: Date): void =>
      atOnce(() => onMany(promises.offerBack(offer, now), 'back', offer, now)),
    /** Ends what is over, counts what nobody objected to, and reminds of what ends soon. */
    remindDue(now: Date): void {
      inBatches(
        () => promises.ending(now, BATCH),
        ({ id, giverSaid, takerSaid }) => {
          const act = giverSaid || takerSaid ? 'settle' : 'expire';
          const result = promises.act(id, act, 'clock', now);
          if (result.kind === 'moved') tellOf(act, result, null, now);
        },
      );
      inBatches(
        () => promises.toRemind(now, new Date(now.getTime() + REMIND_BEFORE_MS), BATCH),
        (promise) => {
          promises.reminded(promise);
          tell(promise, 'ending', ['giver', 'taker'], now);
        },
      );
    },
    /** Hears, inside its transaction, that a thread is open or cannot be. */
    settled(message: OutboxMessage, outcome: Settled, now: Date): void {
      const topic = readTopic(message.topic);
      const promise = topic?.step === 'thread' ? promises.find(topic.promiseId, message.guildId) : undefined;
      if (!promise) return;
      if (outcome.kind === 'sent') hello(promise, outcome.messageId, now);
      else tell(promise, 'no-thread', ['giver', 'taker'], now);
    },
  };
}
export type Promises = ReturnType<typeof promisesWorker>;
