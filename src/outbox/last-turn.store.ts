import type { Database } from 'better-sqlite3';
import { z } from 'zod';

const Row = z.object({ at_ms: z.int() });

/** When the clock last turned: one row, which outlives the program. */
export function lastTurnStore(db: Database) {
  const select = db.prepare('SELECT at_ms FROM last_turn WHERE id = 1');
  const upsert = db.prepare(
    'INSERT INTO last_turn (id, at_ms) VALUES (1, ?) ON CONFLICT (id) DO UPDATE SET at_ms = excluded.at_ms',
  );
  return {
    /** Null before the first turn. */
    read(): Date | null {
      const row = Row.optional().parse(select.get());
      return row ? new Date(row.at_ms) : null;
    },
    write: (at: Date) => void upsert.run(at.getTime()),
  };
}
export type LastTurnStore = ReturnType<typeof lastTurnStore>;
