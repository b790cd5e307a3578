import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { OFFER_STATES, OfferDetails, type Offer } from './offer.ts';
import { settledFrom } from './settled.ts';

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    member_id: z.string(),
    channel_id: z.string(),
    message_id: z.string().nullable(),
    state: z.enum(OFFER_STATES),
    pieces: z.int(),
    taken: z.int(),
    details: z.string(),
    created_at_ms: z.int(),
    expires_at_ms: z.int(),
    reminded_at_ms: z.int().nullable(),
  })
  .transform((row): Offer => ({
    id: row.id,
    guildId: row.guild_id,
    memberId: row.member_id,
    channelId: row.channel_id,
    messageId: row.message_id,
    state: row.state,
    pieces: row.pieces,
    left: Math.max(0, row.pieces - row.taken),
    details: OfferDetails.parse(JSON.parse(row.details)),
    createdAt: new Date(row.created_at_ms),
    expiresAt: new Date(row.expires_at_ms),
    remindedAt: row.reminded_at_ms === null ? null : new Date(row.reminded_at_ms),
  }));

/** Pieces that are promised or given away; those that wait in the queue take none. */
const WITH_TAKEN = `SELECT swap_offers.*, (SELECT count(*) FROM swap_promises
  WHERE offer_id = swap_offers.id AND swap_promises.state IN ('promised', 'handed-over')) AS taken FROM swap_offers`;

/** When its pieces count as settled, as long as that is still to come: then its card says something else. */
function settlesMs(details: OfferDetails, now: Date): number | null {
  const from = settledFrom(details);
  const at = from === null ? null : Date.parse(from);
  return at !== null && at > now.getTime() ? at : null;
}

export type NewOffer = Omit<Offer, 'id' | 'messageId' | 'state' | 'left' | 'createdAt' | 'remindedAt'>;

/** Offers of every club. What is left of each follows from the promises, so that it cannot be wrong. */
export function offerStore(db: Database) {
  const insert = db.prepare(`INSERT INTO swap_offers
    (guild_id, member_id, channel_id, state, pieces, details, created_at_ms, changed_at_ms, expires_at_ms, settles_at_ms)
    VALUES (@guildId, @memberId, @channelId, 'open', @pieces, @details, @nowMs, @nowMs, @expiresMs, @settlesMs)`);
  const select = db.prepare(`${WITH_TAKEN} WHERE id = ? AND guild_id = ?`);
  const selectAnywhere = db.prepare(`${WITH_TAKEN} WHERE id = ?`);
  const selectOwn = db.prepare(`${WITH_TAKEN} WHERE guild_id = ? AND member_id = ? ORDER BY id`);
  const selectOpen = db.prepare(
    `${WITH_TAKEN} WHERE guild_id = ? AND state = 'open' AND expires_at_ms > ? ORDER BY id DESC`,
  );
  const selectEnding = db.prepare(
    `${WITH_TAKEN} WHERE state = 'open' AND expires_at_ms <= ? ORDER BY expires_at_ms, id LIMIT ?`,
  );
  const selectToRemind = db.prepare(`${WITH_TAKEN} WHERE state = 'open' AND reminded_at_ms IS NULL
    AND expires_at_ms <= @by AND expires_at_ms > @now ORDER BY expires_at_ms, id LIMIT @limit`);
  const selectSettling = db.prepare(
    `${WITH_TAKEN} WHERE state = 'open' AND settles_at_ms <= ? ORDER BY settles_at_ms, id LIMIT ?`,
  );
  const update = db.prepare(`UPDATE swap_offers SET channel_id = @channelId, message_id = @messageId, state = @state,
    pieces = @pieces, details = @details, expires_at_ms = @expiresMs, reminded_at_ms = @remindedMs, changed_at_ms = @nowMs,
    settles_at_ms = @settlesMs
    WHERE id = @id AND guild_id = @guildId`);
  const openIds = db.prepare(`SELECT id, changed_at_ms FROM swap_offers WHERE guild_id = ? AND state = 'open'`);
  const wellFormed = (details: OfferDetails) => JSON.stringify(details).toWellFormed();
  const find = (id: number, guildId: string): Offer | undefined =>
    Number.isSafeInteger(id) ? Row.optional().parse(select.get(id, guildId)) : undefined;
  return {
    find,
    /** By its number alone, for buttons of direct messages: whoever asks has to be checked. */
    findAnywhere: (id: number): Offer | undefined =>
      Number.isSafeInteger(id) ? Row.optional().parse(selectAnywhere.get(id)) : undefined,
    /** A member's own, whatever their state, the oldest first. */
    own: (guildId: string, memberId: string): Offer[] => selectOwn.all(guildId, memberId).map((row) => Row.parse(row)),
    /** Everything that stands open in a club, the newest first. */
    open: (guildId: string, now: Date): Offer[] => selectOpen.all(guildId, now.getTime()).map((row) => Row.parse(row)),
    /** The numbers of what is open and when each was changed, to tell whether a list is out of date. */
    openIds: (guildId: string): { id: number; changedAtMs: number }[] =>
      z
        .array(z.object({ id: z.int(), changed_at_ms: z.int() }))
        .parse(openIds.all(guildId))
        .map(({ id, changed_at_ms }) => ({ id, changedAtMs: changed_at_ms })),
    /** Open ones that end by an instant, in every club, the first first. */
    ending: (by: Date, limit: number): Offer[] => selectEnding.all(by.getTime(), limit).map((row) => Row.parse(row)),
    /** Open ones that end by an instant and whose member was not reminded of it. */
    toRemind: (now: Date, by: Date, limit: number): Offer[] =>
      selectToRemind.all({ now: now.getTime(), by: by.getTime(), limit }).map((row) => Row.parse(row)),
    /** Open ones whose pieces have settled since their card was written; to save one is to be done with it. */
    settling: (now: Date, limit: number): Offer[] =>
      selectSettling.all(now.getTime(), limit).map((row) => Row.parse(row)),
    add({ details, expiresAt, ...rest }: NewOffer, now: Date): Offer {
      const { guildId, memberId, channelId, pieces } = rest;
      const row = { guildId, memberId, channelId, pieces, details: wellFormed(details) };
      const { lastInsertRowid } = insert.run({
        ...row,
        nowMs: now.getTime(),
        expiresMs: expiresAt.getTime(),
        settlesMs: settlesMs(details, now),
      });
      const added = find(Number(lastInsertRowid), guildId);
      if (!added) throw new Error(`the offer that was just written, ${lastInsertRowid}, is not there`);
      return added;
    },
    save: (offer: Offer, now: Date): void => {
      const { id, guildId, channelId, messageId, state, pieces, details, expiresAt, remindedAt } = offer;
      update.run({
        ...{ id, guildId, channelId, messageId, state, pieces },
        details: wellFormed(details),
        expiresMs: expiresAt.getTime(),
        settlesMs: settlesMs(details, now),
        remindedMs: remindedAt?.getTime() ?? null,
        nowMs: now.getTime(),
      });
    },
  };
}
export type OfferStore = ReturnType<typeof offerStore>;
