import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { KEEPER_ACTS, type KeeperAct } from './keeper-acts.ts';
import { OFFER_STATES, OfferDetails, type Offer } from './offer.ts';

/** The offer as it was before. */
export type Before = Pick<Offer, 'state' | 'pieces' | 'details' | 'expiresAt' | 'remindedAt'>;
export type NotedAct = { id: number; offerId: number; byId: string; what: KeeperAct; before: Before };

const Kept = z.object({
  state: z.enum(OFFER_STATES),
  pieces: z.int(),
  details: OfferDetails,
  expiresAt: z.coerce.date(),
  remindedAt: z.coerce.date().nullable(),
});
const Row = z
  .object({
    id: z.int(),
    offer_id: z.int(),
    by_id: z.string(),
    what: z.enum(KEEPER_ACTS),
    state_before: z.string(),
  })
  .transform((row): NotedAct => ({
    id: row.id,
    offerId: row.offer_id,
    byId: row.by_id,
    what: row.what,
    before: Kept.parse(JSON.parse(row.state_before)),
  }));
const Last = z.looseObject({ what: z.string(), by_id: z.string() });

/** What keepers did to their offers, so that the last of it can be taken back. */
export function offerActStore(db: Database) {
  const insert = db.prepare(`INSERT INTO swap_acts (guild_id, offer_id, by_id, what, state_before, at_ms)
    VALUES (@guildId, @offerId, @byId, @what, @before, @nowMs)`);
  // One that was taken back stands no more between its offer and the one before.
  const selectLast = db.prepare(`SELECT * FROM swap_acts WHERE offer_id = ? AND guild_id = ?
    AND what NOT LIKE 'undone-%' ORDER BY id DESC LIMIT 1`);
  const selectLastOf = db.prepare(`SELECT offer_id FROM swap_acts WHERE guild_id = ? AND by_id = ?
    AND what IN ('edit', 'renew', 'withdraw') ORDER BY id DESC LIMIT 1`);
  const undone = db.prepare(`UPDATE swap_acts SET what = 'undone-' || what WHERE id = ?`);
  return {
    note: ({ id, guildId, memberId, ...offer }: Offer, what: KeeperAct, now: Date): void => {
      const { state, pieces, details, expiresAt, remindedAt } = offer;
      const before = JSON.stringify({ state, pieces, details, expiresAt, remindedAt }).toWellFormed();
      insert.run({ guildId, offerId: id, byId: memberId, what, before, nowMs: now.getTime() });
    },
    /** The last act on an offer if it was its keeper's; undefined when a curator did something since. */
    last({ id, guildId, memberId }: Pick<Offer, 'id' | 'guildId' | 'memberId'>): NotedAct | undefined {
      const row = selectLast.get(id, guildId);
      const found = Last.optional().parse(row);
      const isOwn = found?.by_id === memberId && KEEPER_ACTS.some((each) => each === found.what);
      return isOwn ? Row.parse(row) : undefined;
    },
    /** The offer that a member changed last. */
    lastOffer: (guildId: string, memberId: string): number | undefined =>
      z.object({ offer_id: z.int() }).optional().parse(selectLastOf.get(guildId, memberId))?.offer_id,
    undone: ({ id }: Pick<NotedAct, 'id'>): void => void undone.run(id),
  };
}
export type OfferActStore = ReturnType<typeof offerActStore>;
