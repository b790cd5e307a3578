import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { Typed, type Draft } from './draft.ts';

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    member_id: z.string(),
    channel_id: z.string(),
    offer_id: z.int().nullable(),
    typed: z.string(),
    photo_name: z.string().nullable(),
  })
  .transform((row): Draft => ({
    id: row.id,
    guildId: row.guild_id,
    memberId: row.member_id,
    channelId: row.channel_id,
    offerId: row.offer_id,
    typed: Typed.parse(JSON.parse(row.typed)),
    photoName: row.photo_name,
  }));
const Photo = z.object({ photo: z.instanceof(Buffer).nullable() });

const COLUMNS = 'id, guild_id, member_id, channel_id, offer_id, typed, photo_name';
/** So many half-finished offers of a member are kept, and so long. */
const MOST_DRAFTS = 3;
const KEPT_MS = 30 * 86_400_000;

/** Offers on their way: typed and not posted yet. They outlive a restart and a form that was swiped away. */
export function draftStore(db: Database) {
  const insert = db.prepare(`INSERT INTO swap_drafts (guild_id, member_id, channel_id, offer_id, typed, created_at_ms)
    VALUES (@guildId, @memberId, @channelId, @offerId, @typed, @nowMs)`);
  const select = db.prepare(`SELECT ${COLUMNS} FROM swap_drafts WHERE id = ? AND guild_id = ? AND member_id = ?`);
  const selectLast = db.prepare(
    `SELECT ${COLUMNS} FROM swap_drafts WHERE guild_id = ? AND member_id = ? ORDER BY id DESC LIMIT 1`,
  );
  const selectPhoto = db.prepare('SELECT photo FROM swap_drafts WHERE id = ?');
  const update = db.prepare('UPDATE swap_drafts SET typed = ? WHERE id = ?');
  const updatePhoto = db.prepare('UPDATE swap_drafts SET photo = @bytes, photo_name = @name WHERE id = @id');
  const remove = db.prepare('DELETE FROM swap_drafts WHERE id = ?');
  const removeOld = db.prepare(`DELETE FROM swap_drafts WHERE created_at_ms < @before OR (guild_id = @guildId
    AND member_id = @memberId AND id NOT IN (SELECT id FROM swap_drafts WHERE guild_id = @guildId
    AND member_id = @memberId ORDER BY id DESC LIMIT ${MOST_DRAFTS}))`);
  const find = (id: number, guildId: string, memberId: string): Draft | undefined =>
    Number.isSafeInteger(id) ? Row.optional().parse(select.get(id, guildId, memberId)) : undefined;
  return {
    /** A member's own only: nobody else ever sees a draft. */
    find,
    last: (guildId: string, memberId: string): Draft | undefined =>
      Row.optional().parse(selectLast.get(guildId, memberId)),
    add({ typed, ...rest }: Omit<Draft, 'id' | 'photoName'>, now: Date): Draft {
      const nowMs = now.getTime();
      const { lastInsertRowid } = insert.run({ ...rest, typed: JSON.stringify(typed).toWellFormed(), nowMs });
      removeOld.run({ before: nowMs - KEPT_MS, guildId: rest.guildId, memberId: rest.memberId });
      return { ...rest, typed, id: Number(lastInsertRowid), photoName: null };
    },
    save: ({ id, typed }: Pick<Draft, 'id' | 'typed'>): void =>
      void update.run(JSON.stringify(typed).toWellFormed(), id),
    keepPhoto: ({ id }: Pick<Draft, 'id'>, name: string, bytes: Buffer): void =>
      void updatePhoto.run({ id, name, bytes }),
    photo: ({ id }: Pick<Draft, 'id'>): Buffer | null => Photo.optional().parse(selectPhoto.get(id))?.photo ?? null,
    remove: ({ id }: Pick<Draft, 'id'>): boolean => remove.run(id).changes > 0,
  };
}
export type DraftStore = ReturnType<typeof draftStore>;
