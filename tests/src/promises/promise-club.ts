import type { Database } from 'better-sqlite3';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { promiseStore } from '../../../src/promises/promise.store.ts';
import { offerStore } from '../../../src/swaps/offer.store.ts';
import type { Offer, OfferDetails } from '../../../src/swaps/offer.ts';

export const NOW = new Date('2026-11-25T12:00:00Z');
export const DAY_MS = 86_400_000;
export const later = (ms: number) => new Date(NOW.getTime() + ms);

export const details = (given: Partial<OfferDetails> = {}): OfferDetails => ({
  ...{
    coral: null,
    name: 'Red zoas',
    special: null,
    size: null,
    cutOn: null,
    healsInDays: 14,
    light: null,
    flow: null,
  },
  ...{ colour: null, motherAge: null, pestsSeen: null, dips: null, swapFor: null, give: true, area: null },
  ...{ photoName: null, photoAlt: null },
  ...given,
});

/** Offers, as members of one club make them. */
export function offering(db: Database) {
  const offers = offerStore(db);
  return (memberId: string, pieces: number, given: Partial<OfferDetails> = {}, now = NOW): Offer =>
    offers.add(
      {
        ...{ guildId: 'club', memberId, channelId: 'hall', pieces, details: details(given) },
        expiresAt: new Date(now.getTime() + 45 * DAY_MS),
      },
      now,
    );
}

/** A club in memory with the real tables. */
export function openStores() {
  const { db } = openTemporaryDatabase();
  return { db, promises: promiseStore(db), offers: offerStore(db), offer: offering(db) };
}
