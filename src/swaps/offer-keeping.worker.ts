import type { Database } from 'better-sqlite3';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { PromiseStore } from '../promises/promise.store.ts';
import type { Promises } from '../promises/promises.worker.ts';
import type { SwapPromise } from './offer.ts';
import type { Draft } from './draft.ts';
import type { DraftStore } from './draft.store.ts';
import { fits } from './find.ts';
import type { Changed, Posted, Renewed, Undone, Withdrawn } from './keeper-acts.ts';
import type { OfferActStore } from './offer-acts.store.ts';
import type { OfferCards } from './offer-cards.worker.ts';
import type { OfferStore } from './offer.store.ts';
import { MOST_OFFERS, OFFER_LASTS_DAYS, RENEWABLE_DAYS, type Offer, type OfferDetails } from './offer.ts';
import { newsDueAt } from './quiet-hours.ts';
import type { WantNewsStore } from './want-news.store.ts';
import type { WantStore } from './want.store.ts';

const DAY_MS = 86_400_000;

export type OfferKeepingDeps = {
  db: Database;
  base: KnowledgeBase;
  offers: OfferStore;
  drafts: DraftStore;
  acts: OfferActStore;
  wants: WantStore;
  news: WantNewsStore;
  cards: OfferCards;
  promises: Pick<PromiseStore, 'of' | 'blocked'>;
  /** Those of the promises who are to hear what becomes of their offer. */
  promising: Pick<Promises, 'offerGone' | 'offerBack' | 'offerChanged'>;
  zoneOf: (memberId: string) => string | null;
};

type Filled = { pieces: number; details: OfferDetails };
const isLive = ({ state }: SwapPromise) => state === 'queued' || state === 'promised';
const later = (from: Date, days: number) => new Date(from.getTime() + days * DAY_MS);

/** What happens to offers by their keepers: each step and the messages that follow from it are one transaction. */
export function offerKeeping(deps: OfferKeepingDeps) {
  const { db, base, offers, drafts, acts, wants, news, cards, promises, promising, zoneOf } = deps;
  const atOnce = <T>(work: () => T): T => db.transaction(work).immediate();

  const isFull = (guildId: string, memberId: string, now: Date): boolean =>
    offers.own(guildId, memberId).filter(({ state, expiresAt }) => state === 'open' && expiresAt > now).length >=
    MOST_OFFERS;

  /** Everybody whose want it meets hears of it, but for those between whom there is a block. */
  const tellWanters = (offer: Offer, now: Date): void => {
    const apart = promises.blocked(offer.guildId);
    for (const want of wants.open(offer.guildId)) {
      const { guildId, memberId } = want;
      if (memberId === offer.memberId || apart.has(`${memberId}/${offer.memberId}`) || !fits(want, offer, base))
        continue;
      const dueAt = newsDueAt(news.lastTold(memberId), zoneOf(memberId), now);
      news.add({ guildId, memberId, offerId: offer.id }, dueAt);
    }
  };

  const taken = ({ pieces, left }: Offer) => pieces - left;
  const kept = (offer: Offer, now: Date): Offer => {
    offers.save(offer, now);
    promising.offerChanged(offer, now);
    return offers.find(offer.id, offer.guildId) ?? offer;
  };

  return {
    cards,
    /** Posts a draft as an offer, once however often it is pressed. */
    post: (draft: Draft, { pieces, details }: Filled, channelId: string, now: Date): Posted =>
      atOnce(() => {
        const { guildId, memberId } = draft;
        const photo = drafts.photo(draft);
        if (isFull(guildId, memberId, now)) return { kind: 'too-many' };
        if (!drafts.remove(draft)) return { kind: 'gone' };
        const expiresAt = later(now, OFFER_LASTS_DAYS);
        const offer = offers.add({ guildId, memberId, channelId, pieces, details, expiresAt }, now);
        cards.post(offer, { photo, fallback: draft.channelId }, now);
        tellWanters(offer, now);
        return { kind: 'posted', offer };
      }),
    /** Keeps what was changed of an offer that stands. The photo stays as it is: the posted file cannot be exchanged. */
    change: (draft: Draft, { pieces, details }: Filled, now: Date): Changed =>
      atOnce(() => {
        const offer = draft.offerId === null ? undefined : offers.find(draft.offerId, draft.guildId);
        const stands = offer?.state === 'open' || offer?.state === 'expired';
        if (!offer || !stands || offer.memberId !== draft.memberId) return { kind: 'gone' };
        if (pieces < taken(offer)) return { kind: 'taken', taken: taken(offer) };
        if (!drafts.remove(draft)) return { kind: 'gone' };
        acts.note(offer, 'edit', now);
        const { photoName, photoAlt, name, coral } = offer.details;
        // Which coral it is may have been settled by a curator; only other words for it are read anew.
        const same = details.name === name ? { coral } : {};
        const changed = { ...offer, pieces, details: { ...details, ...same, photoName, photoAlt } };
        return { kind: 'changed', offer: kept(changed, now) };
      }),
    /** Lets an offer stand on; one that has ended stands again, for some weeks after its end. */
    renew: ({ id, guildId }: Offer, now: Date): Renewed =>
      atOnce(() => {
        const offer = offers.find(id, guildId);
        if (!offer || offer.state === 'hidden') return { kind: 'hidden' };
        // One that could not be posted is put up with this.
        if (offer.state === 'withdrawn' && offer.messageId !== null) return { kind: 'withdrawn' };
        if (offer.state === 'expired' && later(offer.expiresAt, RENEWABLE_DAYS) < now) return { kind: 'too-late' };
        const isOpen = offer.state === 'open' && offer.expiresAt > now;
        if (!isOpen && isFull(guildId, offer.memberId, now)) return { kind: 'too-many' };
        acts.note(offer, 'renew', now);
        const expiresAt = later(now, OFFER_LASTS_DAYS);
        const details = offer.messageId === null ? { ...offer.details, photoName: null } : offer.details;
        const renewed = kept({ ...offer, details, state: 'open', expiresAt, remindedAt: null }, now);
        if (offer.state === 'withdrawn') cards.post(renewed, { photo: null, fallback: null, again: true }, now);
        if (!isOpen) tellWanters(renewed, now);
        return { kind: 'renewed', offer: renewed };
      }),
    /** Takes an offer back. With promises alive it asks first; then everybody whom it leaves hears of it. */
    withdraw: ({ id, guildId }: Offer, isSure: boolean, now: Date): Withdrawn =>
      atOnce(() => {
        const offer = offers.find(id, guildId);
        if (!offer || (offer.state !== 'open' && offer.state !== 'expired')) return { kind: 'over' };
        const live = promises.of(offer).filter(isLive);
        if (live.length > 0 && !isSure) return { kind: 'ask', live };
        acts.note(offer, 'withdraw', now);
        offers.save({ ...offer, state: 'withdrawn' }, now);
        promising.offerGone(offer, now);
        return { kind: 'withdrawn', offer: offers.find(id, guildId) ?? offer, told: live };
      }),
    /** Takes back the last thing that a keeper did to an offer, unless somebody else did something since. */
    undo: ({ id, guildId, memberId }: Offer, now: Date): Undone =>
      atOnce(() => {
        const offer = offers.find(id, guildId);
        const act = offer && acts.last({ id, guildId, memberId });
        if (!offer || !act) return { kind: 'nothing' };
        if (act.before.pieces < taken(offer)) return { kind: 'taken', taken: taken(offer) };
        const stoodOpen = offer.state === 'open';
        if (!stoodOpen && act.before.state === 'open' && isFull(guildId, memberId, now)) return { kind: 'too-many' };
        acts.undone(act);
        offers.save({ ...offer, ...act.before }, now);
        if (act.what === 'withdraw') promising.offerBack(offer, now);
        else promising.offerChanged(offer, now);
        const restored = offers.find(id, guildId) ?? offer;
        return { kind: 'undone', offer: restored, what: act.what, live: promises.of(restored).filter(isLive) };
      }),
  };
}
export type OfferKeeping = ReturnType<typeof offerKeeping>;
