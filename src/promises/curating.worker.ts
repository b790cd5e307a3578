import type { Database } from 'better-sqlite3';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import type { Offer } from '../swaps/offer.ts';
import type { OfferStore } from '../swaps/offer.store.ts';
import { curated, merging, type Curating, type NotCurated, type Report } from './curated.ts';
import { sideOf, type CuratedStore, type KeptAct, type NotedAct } from './curated.store.ts';
import { ownerMessage, reporterMessage } from './curating-messages.ts';
import type { PromiseStore } from './promise.store.ts';
import type { Promises } from './promises.worker.ts';

export type CuratingDeps = {
  db: Database;
  offers: OfferStore;
  promises: PromiseStore;
  kept: CuratedStore;
  happens: Pick<Promises, 'offerChanged'>;
  outbox: OutboxStore;
};

export type CuratedResult = { kind: 'done'; offer: Offer } | { kind: 'no'; why: NotCurated | 'gone' };

class CannotUndo extends Error {}

/** What curators do: each act, its record and whom it concerns being told are one transaction. */
export function curatingWorker({ db, offers, promises, kept, happens, outbox }: CuratingDeps) {
  const atOnce = <T>(work: () => T): T => db.transaction(work).immediate();

  const settleReports = (offerId: number, guildId: string, byId: string, how: string, now: Date): void => {
    for (const report of kept.openReports(guildId))
      if (report.offerId === offerId && kept.settle(report, byId, how)) tellReporter(report, how, now);
  };
  const tellReporter = (report: Report, how: string, now: Date): void => {
    const offer = offers.find(report.offerId, report.guildId);
    if (offer) outbox.add(reporterMessage(report, offer, how, now));
  };

  const merge = (from: Offer, into: Offer, byId: string, reason: string, now: Date): CuratedResult => {
    const [ofFrom, ofInto] = [promises.of(from), promises.of(into)];
    const plan = merging(from, into, { from: ofFrom, into: ofInto });
    if (plan.kind === 'no') return plan;
    const moved = ofFrom.map(({ id }) => id);
    const after: Offer = { ...from, state: 'hidden' };
    // Room first, then who takes it, so that the count is right at every moment.
    offers.save({ ...into, pieces: into.pieces + from.pieces }, now);
    for (const { id } of plan.dropped) kept.drop(id);
    for (const id of moved) kept.move(id, into.id);
    offers.save(after, now);
    const merge = { intoId: into.id, moved, dropped: plan.dropped.map(({ id }) => id) };
    const actId = kept.note(from, 'merge', byId, reason, { before: sideOf(from), after: sideOf(after), merge }, now);
    outbox.add(ownerMessage(after, { act: 'merge', reason, actId, into }, now));
    happens.offerChanged(from, now);
    happens.offerChanged(into, now);
    return { kind: 'done', offer: after };
  };

  const undoMerge = (
    from: Offer,
    { before, merge }: NotedAct,
    parts: NonNullable<KeptAct['merge']>,
    now: Date,
  ): void => {
    const into = offers.find(parts.intoId, from.guildId);
    if (!into || !merge) throw new CannotUndo();
    const left = into.pieces - before.pieces;
    const back = new Set(parts.moved);
    const taken = promises.of(into).filter(({ state }) => state === 'promised' || state === 'handed-over');
    const takenBack = taken.filter(({ id }) => back.has(id)).length;
    if (left < 1 || taken.length - takenBack > left || takenBack > before.pieces) throw new CannotUndo();
    for (const id of parts.moved) kept.move(id, from.id);
    for (const id of parts.dropped) kept.pickUp(id);
    offers.save({ ...into, pieces: left }, now);
    happens.offerChanged(into, now);
  };

  return {
    /** An act with its reason. The keeper of the offer hears of it once. */
    curate: (id: number, guildId: string, curating: Curating, byId: string, reason: string, now: Date): CuratedResult =>
      atOnce((): CuratedResult => {
        const offer = offers.find(id, guildId);
        if (!offer) return { kind: 'no', why: 'gone' };
        if (offer.memberId === byId) return { kind: 'no', why: 'own' };
        if (curating.act === 'merge') return merge(offer, curating.into, byId, reason, now);
        if (curating.act === 'show' && kept.last(offer)?.act === 'merge') return { kind: 'no', why: 'merged' };
        const result = curated(offer, curating, now);
        if (result.kind === 'no') return result;
        const sides = { before: sideOf(offer), after: sideOf(result.offer), merge: null };
        offers.save(result.offer, now);
        const actId = kept.note(offer, curating.act, byId, reason, sides, now);
        outbox.add(ownerMessage(result.offer, { act: curating.act, reason, actId }, now));
        if (curating.act === 'hide') settleReports(id, guildId, byId, 'The offer was taken down.', now);
        happens.offerChanged(result.offer, now);
        return { kind: 'done', offer: result.offer };
      }),
    /** Takes back what a curator did last to an offer, exactly, unless something came between. */
    undo: (id: number, guildId: string, byId: string, now: Date): CuratedResult => {
      try {
        return atOnce((): CuratedResult => {
          const offer = offers.find(id, guildId);
          const act = offer && kept.last(offer);
          if (!offer || !act) return { kind: 'no', why: 'nothing' };
          if (offer.memberId === byId) return { kind: 'no', why: 'own' };
          if (JSON.stringify(sideOf(offer)) !== JSON.stringify(act.after)) throw new CannotUndo();
          if (act.merge) undoMerge(offer, act, act.merge, now);
          offers.save({ ...offer, ...act.before }, now);
          kept.undone(act);
          const restored = { ...offer, ...act.before };
          outbox.add(ownerMessage(restored, { act: 'undo', reason: act.reason, actId: act.id }, now));
          happens.offerChanged(restored, now);
          return { kind: 'done', offer: restored };
        });
      } catch (error) {
        if (error instanceof CannotUndo) return { kind: 'no', why: 'changed-since' };
        throw error;
      }
    },
    report: (offer: Offer, byId: string, words: string, now: Date): void =>
      atOnce(() => kept.report(offer, byId, words, now)),
    /** A report that needs no act; who reported hears of it once. */
    settle: (report: Report, byId: string, how: string, now: Date): boolean =>
      atOnce(() => {
        const isFirst = kept.settle(report, byId, how);
        if (isFirst) tellReporter(report, how, now);
        return isFirst;
      }),
  };
}
export type Curates = ReturnType<typeof curatingWorker>;
