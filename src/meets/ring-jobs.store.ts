import type { Database } from 'better-sqlite3';
import { z } from 'zod';

/** Something to plan: of a night, after a ring that came apart, or for a meet. */
export type RingJob = { guildId: string; key: string; meetId: number | null };

const Row = z
  .object({ guild_id: z.string(), key: z.string(), meet_id: z.int().nullable() })
  .transform((row): RingJob => ({ guildId: row.guild_id, key: row.key, meetId: row.meet_id }));
const Guild = z.object({ guild_id: z.string() });

/** What is to be planned. The key names the occasion; one that is done stays, so that no occasion is planned twice. */
export function ringJobStore(db: Database) {
  const insert = db.prepare(`INSERT OR IGNORE INTO swap_ring_jobs (guild_id, key, meet_id, state, at_ms)
    VALUES (@guildId, @key, @meetId, 'wanted', @nowMs)`);
  const selectWanted = db.prepare(`SELECT guild_id, key, meet_id FROM swap_ring_jobs WHERE state = 'wanted'`);
  const finish = db.prepare(`UPDATE swap_ring_jobs SET state = 'done', at_ms = @nowMs
    WHERE guild_id = @guildId AND key = @key AND state = 'wanted'`);
  const selectGuilds = db.prepare(`SELECT DISTINCT guild_id FROM swap_offers
    WHERE state = 'open' AND created_at_ms <= ? AND NOT EXISTS
      (SELECT 1 FROM swap_ring_jobs WHERE swap_ring_jobs.guild_id = swap_offers.guild_id AND key = ?)`);
  return {
    /** Asks for a plan; false when the occasion had one. */
    want: (job: RingJob, now: Date): boolean => insert.run({ ...job, nowMs: now.getTime() }).changes > 0,
    wanted: (): RingJob[] => selectWanted.all().map((row) => Row.parse(row)),
    /** Notes that it is done; false when somebody was quicker. */
    finish: ({ guildId, key }: RingJob, now: Date): boolean =>
      finish.run({ guildId, key, nowMs: now.getTime() }).changes > 0,
    /** Clubs with offers from before an instant for which an occasion was not thought of yet. */
    clubsWithout: (key: string, before: Date): string[] =>
      selectGuilds.all(before.getTime(), key).map((row) => Guild.parse(row).guild_id),
  };
}
export type RingJobStore = ReturnType<typeof ringJobStore>;
