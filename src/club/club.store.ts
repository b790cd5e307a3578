import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { UNITS } from '../tanks/tank.ts';
import { DEFAULT_SETTINGS, type ClubRecord, type SettingsChange } from './club-settings.ts';

const Row = z
  .object({
    opinion_hours: z.int().nullable(),
    volume_unit: z.enum(UNITS.volume).nullable(),
    temperature_unit: z.enum(UNITS.temperature).nullable(),
    alkalinity_unit: z.enum(UNITS.alkalinity).nullable(),
    salinity_unit: z.enum(UNITS.salinity).nullable(),
    swap_channel_id: z.string().nullable(),
    changed_at_ms: z.int(),
    changed_by_id: z.string(),
  })
  .transform((row): ClubRecord => ({
    settings: {
      opinionHours: row.opinion_hours ?? DEFAULT_SETTINGS.opinionHours,
      volumeUnit: row.volume_unit ?? DEFAULT_SETTINGS.volumeUnit,
      temperatureUnit: row.temperature_unit ?? DEFAULT_SETTINGS.temperatureUnit,
      alkalinityUnit: row.alkalinity_unit ?? DEFAULT_SETTINGS.alkalinityUnit,
      salinityUnit: row.salinity_unit ?? DEFAULT_SETTINGS.salinityUnit,
      // An empty one was unset: NULL would keep the channel that was there.
      swapChannelId: row.swap_channel_id || DEFAULT_SETTINGS.swapChannelId,
    },
    changed: { byId: row.changed_by_id, at: new Date(row.changed_at_ms) },
  }));

/** What each club has set, one row a server; a club that never changed anything has none. */
export function clubStore(db: Database) {
  const select = db.prepare('SELECT * FROM club_settings WHERE guild_id = ?');
  const upsert = db.prepare(`INSERT INTO club_settings
    (guild_id, opinion_hours, volume_unit, temperature_unit, alkalinity_unit, salinity_unit, swap_channel_id,
      changed_at_ms, changed_by_id)
    VALUES (@guildId, @opinionHours, @volumeUnit, @temperatureUnit, @alkalinityUnit, @salinityUnit, @swapChannelId,
      @nowMs, @byId)
    ON CONFLICT (guild_id) DO UPDATE SET opinion_hours = coalesce(excluded.opinion_hours, opinion_hours),
      volume_unit = coalesce(excluded.volume_unit, volume_unit),
      temperature_unit = coalesce(excluded.temperature_unit, temperature_unit),
      alkalinity_unit = coalesce(excluded.alkalinity_unit, alkalinity_unit),
      salinity_unit = coalesce(excluded.salinity_unit, salinity_unit),
      swap_channel_id = coalesce(excluded.swap_channel_id, swap_channel_id),
      changed_at_ms = excluded.changed_at_ms, changed_by_id = excluded.changed_by_id`);
  return {
    of(guildId: string): ClubRecord {
      const row = select.get(guildId);
      return row === undefined ? { settings: DEFAULT_SETTINGS, changed: null } : Row.parse(row);
    },
    /** Keeps what is given; settings that are left out stay as they are. */
    change: (guildId: string, change: SettingsChange, byId: string, now: Date): void =>
      void upsert.run({
        guildId,
        opinionHours: change.opinionHours ?? null,
        volumeUnit: change.volumeUnit ?? null,
        temperatureUnit: change.temperatureUnit ?? null,
        alkalinityUnit: change.alkalinityUnit ?? null,
        salinityUnit: change.salinityUnit ?? null,
        swapChannelId: change.swapChannelId === null ? '' : (change.swapChannelId ?? null),
        byId,
        nowMs: now.getTime(),
      }),
  };
}
export type ClubStore = ReturnType<typeof clubStore>;
