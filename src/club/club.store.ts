import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { DEFAULT_SETTINGS, type ClubRecord, type SettingsChange } from './club-settings.ts';

const Row = z
  .object({ opinion_hours: z.int().nullable(), changed_at_ms: z.int(), changed_by_id: z.string() })
  .transform(({ opinion_hours, changed_at_ms, changed_by_id }): ClubRecord => ({
    settings: { opinionHours: opinion_hours ?? DEFAULT_SETTINGS.opinionHours },
    changed: { byId: changed_by_id, at: new Date(changed_at_ms) },
  }));

/** What each club has set, one row a server; a club that never changed anything has none. */
export function clubStore(db: Database) {
  const select = db.prepare('SELECT opinion_hours, changed_at_ms, changed_by_id FROM club_settings WHERE guild_id = ?');
  const upsert = db.prepare(`INSERT INTO club_settings (guild_id, opinion_hours, changed_at_ms, changed_by_id)
    VALUES (@guildId, @opinionHours, @nowMs, @byId)
    ON CONFLICT (guild_id) DO UPDATE SET opinion_hours = coalesce(excluded.opinion_hours, opinion_hours),
      changed_at_ms = excluded.changed_at_ms, changed_by_id = excluded.changed_by_id`);
  return {
    of(guildId: string): ClubRecord {
      const row = select.get(guildId);
      return row === undefined ? { settings: DEFAULT_SETTINGS, changed: null } : Row.parse(row);
    },
    /** Keeps what is given; settings that are left out stay as they are. */
    change: (guildId: string, { opinionHours }: SettingsChange, byId: string, now: Date): void =>
      void upsert.run({ guildId, opinionHours: opinionHours ?? null, byId, nowMs: now.getTime() }),
  };
}
export type ClubStore = ReturnType<typeof clubStore>;
