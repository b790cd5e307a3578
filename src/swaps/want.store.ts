import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import type { Want } from './offer.ts';

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    member_id: z.string(),
    coral: z.string().nullable(),
    group_name: z.string().nullable(),
    words: z.string(),
    drive_km: z.int().nullable(),
    created_at_ms: z.int(),
  })
  .transform((row): Want => ({
    id: row.id,
    guildId: row.guild_id,
    memberId: row.member_id,
    coral: row.coral,
    group: row.group_name,
    words: row.words,
    driveKm: row.drive_km,
    createdAt: new Date(row.created_at_ms),
  }));

/** What members look for. One that was met or withdrawn is kept, and shown no more. */
export function wantStore(db: Database) {
  const insert = db.prepare(`INSERT INTO swap_wants
    (guild_id, member_id, coral, group_name, words, drive_km, state, created_at_ms)
    VALUES (@guildId, @memberId, @coral, @group, @words, @driveKm, 'open', @nowMs)`);
  const select = db.prepare(`SELECT * FROM swap_wants WHERE id = ? AND guild_id = ? AND state = 'open'`);
  const selectOwn = db.prepare(
    `SELECT * FROM swap_wants WHERE guild_id = ? AND member_id = ? AND state = 'open' ORDER BY id`,
  );
  const selectOpen = db.prepare(`SELECT * FROM swap_wants WHERE guild_id = ? AND state = 'open' ORDER BY id`);
  const end = db.prepare(
    `UPDATE swap_wants SET state = @state WHERE id = @id AND guild_id = @guildId AND member_id = @memberId`,
  );
  const drive = db.prepare('UPDATE swap_wants SET drive_km = @driveKm WHERE id = @id AND guild_id = @guildId');
  const reopen = db.prepare(`UPDATE swap_wants SET state = 'open'
    WHERE id = @id AND guild_id = @guildId AND member_id = @memberId AND state = 'withdrawn'`);
  const find = (id: number, guildId: string): Want | undefined =>
    Number.isSafeInteger(id) ? Row.optional().parse(select.get(id, guildId)) : undefined;
  return {
    find,
    own: (guildId: string, memberId: string): Want[] => selectOwn.all(guildId, memberId).map((row) => Row.parse(row)),
    open: (guildId: string): Want[] => selectOpen.all(guildId).map((row) => Row.parse(row)),
    add({ createdAt, words, ...rest }: Omit<Want, 'id'>): Want {
      const { lastInsertRowid } = insert.run({ ...rest, words: words.toWellFormed(), nowMs: createdAt.getTime() });
      const added = find(Number(lastInsertRowid), rest.guildId);
      if (!added) throw new Error(`the want that was just written, ${lastInsertRowid}, is not there`);
      return added;
    },
    drive: ({ id, guildId }: Want, driveKm: number): void => void drive.run({ id, guildId, driveKm }),
    /** Opens one again that its member ended; undefined when there is none. */
    reopen: (id: number, guildId: string, memberId: string): Want | undefined => {
      if (Number.isSafeInteger(id)) reopen.run({ id, guildId, memberId });
      const want = find(id, guildId);
      return want?.memberId === memberId ? want : undefined;
    },
    /** Ends it, or opens it again when that is taken back. */
    set: ({ id, guildId, memberId }: Want, state: 'open' | 'met' | 'withdrawn'): void =>
      void end.run({ id, guildId, memberId, state }),
  };
}
export type WantStore = ReturnType<typeof wantStore>;
