import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { Answer, Described, type Sighting } from './session.ts';

const Row = z
  .object({
    id: z.int(),
    member_id: z.string(),
    guild_id: z.string().nullable(),
    text: z.string(),
    described: z.string(),
    answers: z.string(),
  })
  .transform(({ id, member_id, guild_id, text, described, answers }): Sighting => ({
    id,
    memberId: member_id,
    guildId: guild_id,
    text,
    described: Described.parse(JSON.parse(described)),
    answers: z.array(Answer).parse(JSON.parse(answers)),
  }));

/** A sighting nobody has worked on for this long is forgotten. */
const KEPT_DAYS = 30;
const DAY_MS = 86_400_000;

/** Sightings under way, so that their buttons outlive a restart. */
export function sightingStore(db: Database) {
  const insert = db.prepare(`INSERT INTO sightings (member_id, guild_id, text, described, answers, updated_at_ms)
                             VALUES (?, ?, ?, ?, '[]', ?)`);
  const select = db.prepare(
    'SELECT id, member_id, guild_id, text, described, answers FROM sightings WHERE id = ? AND guild_id IS ?',
  );
  const update = db.prepare('UPDATE sightings SET answers = ?, updated_at_ms = ? WHERE id = ?');
  const forget = db.prepare('DELETE FROM sightings WHERE updated_at_ms < ?');
  return {
    begin(
      { memberId, guildId, text, described }: Pick<Sighting, 'memberId' | 'guildId' | 'text' | 'described'>,
      now: Date,
    ): Sighting {
      forget.run(now.getTime() - KEPT_DAYS * DAY_MS);
      const { lastInsertRowid } = insert.run(
        memberId,
        guildId,
        text.toWellFormed(),
        JSON.stringify(described),
        now.getTime(),
      );
      return { id: Number(lastInsertRowid), memberId, guildId, text, described, answers: [] };
    },
    /** The sighting of this id in this server; undefined when it is not there or belongs to another server. */
    find(id: number, guildId: string | null): Sighting | undefined {
      const row = select.get(id, guildId);
      return row === undefined ? undefined : Row.parse(row);
    },
    /** Keeps the answers as they now are. */
    answered: (id: number, answers: readonly Answer[], now: Date) =>
      void update.run(JSON.stringify(answers), now.getTime(), id),
  };
}
export type SightingStore = ReturnType<typeof sightingStore>;
