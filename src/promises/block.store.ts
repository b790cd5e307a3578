import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import type { KeptPromise, NoShow } from './promise.ts';

const Pair = z.object({ member_id: z.string(), blocked_id: z.string() });
const NoShowRow = z
  .object({ promise_id: z.int(), about_id: z.string(), by_id: z.string(), at_ms: z.int() })
  .transform((row): NoShow => ({
    promiseId: row.promise_id,
    aboutId: row.about_id,
    byId: row.by_id,
    at: new Date(row.at_ms),
  }));

/** Who wants nothing to do with whom, and who did not come. Neither is ever shown to the club. */
export function blockStore(db: Database) {
  const insert = db.prepare(`INSERT OR IGNORE INTO swap_blocks (guild_id, member_id, blocked_id, at_ms)
    VALUES (?, ?, ?, ?)`);
  const remove = db.prepare('DELETE FROM swap_blocks WHERE guild_id = ? AND member_id = ? AND blocked_id = ?');
  const selectAll = db.prepare('SELECT member_id, blocked_id FROM swap_blocks WHERE guild_id = ?');
  const insertNoShow = db.prepare(`INSERT OR IGNORE INTO swap_no_shows (guild_id, promise_id, about_id, by_id, at_ms)
    VALUES (?, ?, ?, ?, ?)`);
  const removeNoShow = db.prepare('DELETE FROM swap_no_shows WHERE promise_id = ? AND by_id = ?');
  const selectNoShows = db.prepare(
    'SELECT promise_id, about_id, by_id, at_ms FROM swap_no_shows WHERE guild_id = ? ORDER BY id DESC',
  );
  const pairs = (guildId: string) => z.array(Pair).parse(selectAll.all(guildId));
  return {
    /** @returns false when it was so already. */
    block: (guildId: string, memberId: string, blockedId: string, now: Date): boolean =>
      insert.run(guildId, memberId, blockedId, now.getTime()).changes > 0,
    /** @returns false when there was no such block. */
    unblock: (guildId: string, memberId: string, blockedId: string): boolean =>
      remove.run(guildId, memberId, blockedId).changes > 0,
    /** Whom a member has blocked. */
    by: (guildId: string, memberId: string): string[] =>
      pairs(guildId).flatMap((pair) => (pair.member_id === memberId ? [pair.blocked_id] : [])),
    /** Both ways, as "a/b". */
    pairs: (guildId: string): ReadonlySet<string> =>
      new Set(
        pairs(guildId).flatMap(({ member_id, blocked_id }) => [
          `${member_id}/${blocked_id}`,
          `${blocked_id}/${member_id}`,
        ]),
      ),
    /** Notes that the other one did not come; false when the member noted it before. */
    noteNoShow({ id, guildId, giverId, takerId }: KeptPromise, byId: string, now: Date): boolean {
      const aboutId = byId === giverId ? takerId : giverId;
      return insertNoShow.run(guildId, id, aboutId, byId, now.getTime()).changes > 0;
    },
    takeBackNoShow: ({ id }: Pick<KeptPromise, 'id'>, byId: string): boolean => removeNoShow.run(id, byId).changes > 0,
    noShows: (guildId: string): NoShow[] => selectNoShows.all(guildId).map((row) => NoShowRow.parse(row)),
  };
}
export type BlockStore = ReturnType<typeof blockStore>;
