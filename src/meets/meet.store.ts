import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import type { Guest, Meet } from './meet.ts';

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    by_id: z.string(),
    channel_id: z.string(),
    message_id: z.string().nullable(),
    held_on: z.iso.date(),
    place: z.string(),
    state: z.enum(['planned', 'called-off', 'over']),
    created_at_ms: z.int(),
  })
  .transform((row): Meet => ({
    id: row.id,
    guildId: row.guild_id,
    byId: row.by_id,
    channelId: row.channel_id,
    messageId: row.message_id,
    heldOn: row.held_on,
    place: row.place,
    state: row.state,
    createdAt: new Date(row.created_at_ms),
  }));
const GuestRow = z
  .object({ member_id: z.string(), offers: z.string() })
  .transform((row): Guest => ({ memberId: row.member_id, offers: z.array(z.int()).parse(JSON.parse(row.offers)) }));

/** Meets, and who comes to them with what. */
export function meetStore(db: Database) {
  const insert = db.prepare(`INSERT INTO swap_meets (guild_id, by_id, channel_id, held_on, place, state, created_at_ms)
    VALUES (@guildId, @byId, @channelId, @heldOn, @place, 'planned', @nowMs)`);
  const select = db.prepare('SELECT * FROM swap_meets WHERE id = ? AND guild_id = ?');
  const selectPlanned = db.prepare(
    `SELECT * FROM swap_meets WHERE guild_id = ? AND state = 'planned' ORDER BY held_on, id`,
  );
  const selectBy = db.prepare(`SELECT * FROM swap_meets WHERE state = 'planned' AND held_on <= ? ORDER BY held_on, id`);
  const update = db.prepare(
    'UPDATE swap_meets SET message_id = @messageId, state = @state WHERE id = @id AND guild_id = @guildId',
  );
  const selectGuests = db.prepare(
    'SELECT member_id, offers FROM swap_meet_guests WHERE meet_id = ? AND guild_id = ? ORDER BY at_ms, member_id',
  );
  const upsertGuest = db.prepare(`INSERT INTO swap_meet_guests (meet_id, guild_id, member_id, offers, at_ms)
    VALUES (@id, @guildId, @memberId, @offers, @nowMs)
    ON CONFLICT (meet_id, member_id) DO UPDATE SET offers = @offers`);
  const removeGuest = db.prepare('DELETE FROM swap_meet_guests WHERE meet_id = ? AND guild_id = ? AND member_id = ?');
  const find = (id: number, guildId: string): Meet | undefined =>
    Number.isSafeInteger(id) ? Row.optional().parse(select.get(id, guildId)) : undefined;
  return {
    find,
    /** What is planned in a club, the next one first. */
    planned: (guildId: string): Meet[] => selectPlanned.all(guildId).map((row) => Row.parse(row)),
    /** Planned ones of every club that are held on this date or before. */
    heldBy: (date: string): Meet[] => selectBy.all(date).map((row) => Row.parse(row)),
    add({ createdAt, place, ...rest }: Omit<Meet, 'id' | 'messageId' | 'state'>): Meet {
      const { lastInsertRowid } = insert.run({ ...rest, place: place.toWellFormed(), nowMs: createdAt.getTime() });
      const added = find(Number(lastInsertRowid), rest.guildId);
      if (!added) throw new Error(`the meet that was just written, ${lastInsertRowid}, is not there`);
      return added;
    },
    save: ({ id, guildId, messageId, state }: Meet): void => void update.run({ id, guildId, messageId, state }),
    guests: ({ id, guildId }: Meet): Guest[] => selectGuests.all(id, guildId).map((row) => GuestRow.parse(row)),
    come: ({ id, guildId }: Meet, { memberId, offers }: Guest, now: Date): void =>
      void upsertGuest.run({ id, guildId, memberId, offers: JSON.stringify(offers), nowMs: now.getTime() }),
    /** False when they were not coming anyway. */
    stayAway: ({ id, guildId }: Meet, memberId: string): boolean => removeGuest.run(id, guildId, memberId).changes > 0,
  };
}
export type MeetStore = ReturnType<typeof meetStore>;
