import type { Database } from 'better-sqlite3';
import { z } from 'zod';

const Row = z.object({ id: z.int(), stopped_at_ms: z.int().nullable() });

/** Runs of the program: when each began and whether it ended as it should. */
export function runStore(db: Database) {
  const last = db.prepare('SELECT id, stopped_at_ms FROM runs ORDER BY id DESC LIMIT 1');
  const insert = db.prepare('INSERT INTO runs (version, started_at_ms) VALUES (?, ?)');
  const update = db.prepare('UPDATE runs SET stopped_at_ms = ? WHERE id = ? AND stopped_at_ms IS NULL');
  return {
    /** Begins a run; tells whether the one before it was cut off. */
    begin(version: string, now: Date): { id: number; previousWasCutOff: boolean } {
      const previous = Row.optional().parse(last.get());
      const { lastInsertRowid } = insert.run(version, now.getTime());
      return {
        id: Number(lastInsertRowid),
        previousWasCutOff: previous !== undefined && previous.stopped_at_ms === null,
      };
    },
    end: (id: number, now: Date) => void update.run(now.getTime(), id),
  };
}
