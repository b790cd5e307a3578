import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import type { LogEntry, NewLogEntry, Reading } from './tank-log.ts';

const Amounts = z.record(z.string(), z.number());
const DoseDetail = z.object({
  what: z.string(),
  effect: z.object({ by: z.enum(['rise', 'total']), of: Amounts }),
  days: z.int(),
});
const ChangeDetail = z.object({ share: z.number(), newWater: Amounts });

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    tank_id: z.int(),
    kind: z.enum(['reading', 'dose', 'water-change']),
    parameter: z.string().nullable(),
    value: z.number().nullable(),
    kit: z.string().nullable(),
    kit_error: z.number().nullable(),
    detail: z.string().nullable(),
    at_ms: z.int(),
  })
  .transform((row): LogEntry => {
    const base = { id: row.id, guildId: row.guild_id, tankId: row.tank_id, at: new Date(row.at_ms) };
    const detail: unknown = JSON.parse(row.detail ?? 'null');
    switch (row.kind) {
      case 'reading':
        return {
          ...base,
          kind: row.kind,
          parameter: row.parameter ?? '',
          value: row.value ?? Number.NaN,
          kit: row.kit,
          kitError: row.kit_error,
        };
      case 'dose':
        return { ...base, kind: row.kind, ...DoseDetail.parse(detail) };
      case 'water-change':
        return { ...base, kind: row.kind, ...ChangeDetail.parse(detail) };
    }
  });

const columnsOf = (entry: NewLogEntry) => {
  const shared = {
    kind: entry.kind,
    atMs: entry.at.getTime(),
    parameter: null,
    value: null,
    kit: null,
    kitError: null,
  };
  switch (entry.kind) {
    case 'reading': {
      const { parameter, value, kit, kitError } = entry;
      return { ...shared, parameter, value, kit, kitError, detail: null };
    }
    case 'dose': {
      const { what, effect, days } = entry;
      return { ...shared, detail: JSON.stringify({ what, effect, days }) };
    }
    case 'water-change': {
      const { share, newWater } = entry;
      return { ...shared, detail: JSON.stringify({ share, newWater }) };
    }
  }
};

/** What was measured, dosed and changed in the tanks of every club; each question names the club. */
export function tankLogStore(db: Database) {
  const ofTank = 'FROM tank_log WHERE guild_id = @guildId AND tank_id = @tankId';
  const one = db.prepare('SELECT * FROM tank_log WHERE guild_id = @guildId AND id = @id');
  const since = db.prepare(`SELECT * ${ofTank} AND at_ms >= @sinceMs ORDER BY at_ms, id`);
  const newest = db.prepare(`SELECT * ${ofTank} ORDER BY at_ms DESC, id DESC LIMIT @most`);
  const ofParameter = db.prepare(
    `SELECT * ${ofTank} AND parameter = @parameter ORDER BY at_ms DESC, id DESC LIMIT @most`,
  );
  const lastOfEach = db.prepare(`SELECT * FROM (SELECT *, row_number() OVER
    (PARTITION BY parameter ORDER BY at_ms DESC, id DESC) AS place ${ofTank} AND kind = 'reading') WHERE place = 1`);
  const countOf = db.prepare(`SELECT count(*) AS n ${ofTank}`);
  const oldest = db.prepare(`SELECT * ${ofTank} ORDER BY at_ms, id LIMIT 1`);
  const insert =
    db.prepare(`INSERT INTO tank_log (guild_id, tank_id, kind, parameter, value, kit, kit_error, detail, at_ms)
    VALUES (@guildId, @tankId, @kind, @parameter, @value, @kit, @kitError, @detail, @atMs)`);
  const update = db.prepare(`UPDATE tank_log SET value = @value, kit = @kit, kit_error = @kitError, at_ms = @atMs
    WHERE guild_id = @guildId AND id = @id AND kind = 'reading'`);
  const remove = db.prepare('DELETE FROM tank_log WHERE guild_id = @guildId AND id = @id');
  const found = (row: unknown): LogEntry | undefined => (row === undefined ? undefined : Row.parse(row));
  const all = (rows: unknown[]): LogEntry[] => rows.map((row) => Row.parse(row));
  const isReading = (entry: LogEntry): entry is Reading => entry.kind === 'reading';
  return {
    find: (guildId: string, id: number): LogEntry | undefined =>
      found(one.get({ guildId, id: Number.isSafeInteger(id) ? id : -1 })),
    /** Everything from a moment on, in the order in which it happened. */
    since: (guildId: string, tankId: number, moment: Date): LogEntry[] =>
      all(since.all({ guildId, tankId, sinceMs: moment.getTime() })),
    /** The newest first. */
    newest: (guildId: string, tankId: number, most: number): LogEntry[] => all(newest.all({ guildId, tankId, most })),
    /** Readings of one parameter, the newest first. */
    readings: (guildId: string, tankId: number, parameter: string, most: number): Reading[] =>
      all(ofParameter.all({ guildId, tankId, parameter, most })).filter(isReading),
    /** The last reading of each parameter that was ever measured. */
    lastReadings: (guildId: string, tankId: number): Reading[] =>
      all(lastOfEach.all({ guildId, tankId })).filter(isReading),
    count: (guildId: string, tankId: number): number =>
      z.object({ n: z.int() }).parse(countOf.get({ guildId, tankId })).n,
    oldest: (guildId: string, tankId: number): LogEntry | undefined => found(oldest.get({ guildId, tankId })),
    add: (guildId: string, tankId: number, entry: NewLogEntry): number =>
      Number(insert.run({ guildId, tankId, ...columnsOf(entry) }).lastInsertRowid),
    replaceReading: ({ guildId, id, value, kit, kitError, at }: Reading): void =>
      void update.run({ guildId, id, value, kit, kitError, atMs: at.getTime() }),
    remove: (guildId: string, id: number): void => void remove.run({ guildId, id }),
  };
}
export type TankLogStore = ReturnType<typeof tankLogStore>;
