import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { CHANGES, MOST_UNDONE, type ChangeKind, type TankChange } from './tank-change.ts';

const TABLES = { tanks: 'tanks', tank_log: 'tank_log' } as const;
type Table = keyof typeof TABLES;
/** A row as it was before a change; null: it was not there. */
export type RowBefore = { table: Table; id: number; row: Record<string, string | number | null> | null };

const Cells = z.record(z.string(), z.union([z.string(), z.number(), z.null()]));
const RowsBefore = z.array(z.object({ table: z.enum(['tanks', 'tank_log']), id: z.int(), row: Cells.nullable() }));
const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    member_id: z.string(),
    tank_id: z.int(),
    what: z.enum(CHANGES),
    rows_before: z.string(),
    at_ms: z.int(),
  })
  .transform((row): TankChange & { before: RowBefore[] } => ({
    id: row.id,
    guildId: row.guild_id,
    memberId: row.member_id,
    tankId: row.tank_id,
    what: row.what,
    before: RowsBefore.parse(JSON.parse(row.rows_before)),
    at: new Date(row.at_ms),
  }));

/** The changes that can be taken back: the rows they touched, as they were. */
export function tankChangeStore(db: Database) {
  const rows = {
    tanks: db.prepare('SELECT * FROM tanks WHERE guild_id = @guildId AND id = @id'),
    tank_log: db.prepare('SELECT * FROM tank_log WHERE guild_id = @guildId AND id = @id'),
  };
  const drops = {
    tanks: db.prepare('DELETE FROM tanks WHERE guild_id = @guildId AND id = @id'),
    tank_log: db.prepare('DELETE FROM tank_log WHERE guild_id = @guildId AND id = @id'),
  };
  const insert = db.prepare(`INSERT INTO tank_changes (guild_id, member_id, tank_id, what, rows_before, at_ms)
    VALUES (@guildId, @memberId, @tankId, @what, @before, @nowMs)`);
  const thin = db.prepare(`DELETE FROM tank_changes WHERE guild_id = @guildId AND tank_id = @tankId AND id <= (SELECT id
    FROM tank_changes WHERE guild_id = @guildId AND tank_id = @tankId ORDER BY id DESC LIMIT 1 OFFSET ${MOST_UNDONE})`);
  const lastOfMember = db.prepare(
    'SELECT * FROM tank_changes WHERE guild_id = @guildId AND member_id = @memberId ORDER BY id DESC LIMIT 1',
  );
  const lastOfTank = db.prepare(
    'SELECT * FROM tank_changes WHERE guild_id = @guildId AND tank_id = @tankId ORDER BY id DESC LIMIT 1',
  );
  const one = db.prepare('SELECT * FROM tank_changes WHERE guild_id = @guildId AND id = @id');
  const remove = db.prepare('DELETE FROM tank_changes WHERE guild_id = @guildId AND id = @id');
  const found = (row: unknown) => (row === undefined ? undefined : Row.parse(row));
  return {
    /** A row as it is now, to be kept with the change that follows. */
    rowNow(guildId: string, table: Table, id: number): RowBefore {
      const row = rows[table].get({ guildId, id });
      return { table, id, row: row === undefined ? null : Cells.parse(row) };
    },
    keep({ guildId, memberId, tankId, what, before, now }: Kept): number {
      const given = { guildId, memberId, tankId, what, before: JSON.stringify(before), nowMs: now.getTime() };
      const id = Number(insert.run(given).lastInsertRowid);
      thin.run({ guildId, tankId });
      return id;
    },
    lastOfMember: (guildId: string, memberId: string) => found(lastOfMember.get({ guildId, memberId })),
    lastOfTank: (guildId: string, tankId: number) => found(lastOfTank.get({ guildId, tankId })),
    find: (guildId: string, id: number) => found(one.get({ guildId, id: Number.isSafeInteger(id) ? id : -1 })),
    /** Puts the rows back as they were, and forgets the change. Throws when a name has been taken meanwhile. */
    takeBack({ guildId, id, before }: { guildId: string; id: number; before: readonly RowBefore[] }): void {
      remove.run({ guildId, id });
      for (const { table, id: rowId, row } of before)
        if (row === null) drops[table].run({ guildId, id: rowId });
        else putBack(db, TABLES[table], row);
    },
  };
}
type Kept = {
  guildId: string;
  memberId: string;
  tankId: number;
  what: ChangeKind;
  before: readonly RowBefore[];
  now: Date;
};

/** The columns are those of the row itself, which came out of the same table. */
function putBack(db: Database, table: string, row: Record<string, string | number | null>): void {
  const columns = Object.keys(row).filter((column) => /^[a-z_]+$/.test(column));
  db.prepare(
    `INSERT INTO ${table} (${columns.join(', ')}) VALUES (${columns.map((column) => `@${column}`).join(', ')})
     ON CONFLICT (id) DO UPDATE SET ${columns.map((column) => `${column} = excluded.${column}`).join(', ')}`,
  ).run(row);
}
