import type { Database } from 'better-sqlite3';
import { z } from 'zod';

const Due = z
  .object({ guild_id: z.string(), member_id: z.string() })
  .transform((row) => ({ guildId: row.guild_id, memberId: row.member_id }));
const Told = z.object({ at: z.int().nullable() });

export type NewsOf = z.infer<typeof Due>;

/** Who is to hear of which new offer, and who has heard. Each pair of member and offer stands once. */
export function wantNewsStore(db: Database) {
  const insert = db.prepare(`INSERT OR IGNORE INTO swap_news (guild_id, member_id, offer_id, due_at_ms)
    VALUES (@guildId, @memberId, @offerId, @dueMs)`);
  const selectDue = db.prepare(`SELECT DISTINCT guild_id, member_id FROM swap_news
    WHERE told_at_ms IS NULL AND due_at_ms <= ? ORDER BY due_at_ms LIMIT ?`);
  const selectOffers = db.prepare(`SELECT offer_id FROM swap_news
    WHERE guild_id = ? AND member_id = ? AND told_at_ms IS NULL ORDER BY offer_id`);
  const selectTold = db.prepare('SELECT max(told_at_ms) AS at FROM swap_news WHERE member_id = ?');
  const told = db.prepare(`UPDATE swap_news SET told_at_ms = @nowMs
    WHERE guild_id = @guildId AND member_id = @memberId AND told_at_ms IS NULL`);
  const postpone = db.prepare(`UPDATE swap_news SET due_at_ms = @untilMs
    WHERE guild_id = @guildId AND member_id = @memberId AND told_at_ms IS NULL`);
  const drop = db.prepare(
    'DELETE FROM swap_news WHERE guild_id = @guildId AND member_id = @memberId AND told_at_ms IS NULL',
  );
  return {
    /** Forgets what a member has not heard of. */
    drop: (news: NewsOf): void => void drop.run(news),
    postpone: (news: NewsOf, until: Date): void => void postpone.run({ ...news, untilMs: until.getTime() }),
    add: (news: NewsOf & { offerId: number }, dueAt: Date): void =>
      void insert.run({ ...news, dueMs: dueAt.getTime() }),
    due: (now: Date, limit: number): NewsOf[] => selectDue.all(now.getTime(), limit).map((row) => Due.parse(row)),
    /** All that a member has not heard of yet, due or not. */
    offersFor: ({ guildId, memberId }: NewsOf): number[] =>
      selectOffers.all(guildId, memberId).map((row) => z.object({ offer_id: z.int() }).parse(row).offer_id),
    /** When a member was last told of anything, in whatever club. */
    lastTold(memberId: string): Date | null {
      const { at } = Told.parse(selectTold.get(memberId));
      return at === null ? null : new Date(at);
    },
    told: (news: NewsOf, now: Date): void => void told.run({ ...news, nowMs: now.getTime() }),
  };
}
export type WantNewsStore = ReturnType<typeof wantNewsStore>;
