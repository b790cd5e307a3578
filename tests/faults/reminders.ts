import Database from 'better-sqlite3';
import { join } from 'node:path';
import { openDatabase } from '../../src/database/open.ts';
import { courseStore } from '../../src/dosing/dose-course.store.ts';
import { scaledClock } from './scaled-time.ts';

/**
 * One course a member, with its first reminder soon and the second a day later, which no run reaches. They come due one
 * after the other, so that firing and sending overlap.
 */
export function planReminders(
  folder: string,
  { memberIds, startedMs, apartMs }: { memberIds: readonly string[]; startedMs: number; apartMs: number },
): void {
  const { db, close } = openDatabase(folder);
  const courses = courseStore(db);
  const now = scaledClock(startedMs).now();
  db.transaction(() => {
    memberIds.forEach((memberId, n) => {
      const at = new Date(now.getTime() + n * apartMs);
      const course = {
        guildId: '1000000000000000001',
        memberId,
        channelId: '1000000000000000002',
        title: 'alkalinity 7 to 8.5 dKH',
        doses: [1, 2].map(() => ({ words: '4.5 g of soda', effect: null })),
        tankId: null,
        rule: { timeOfDay: at.toISOString().slice(11, 16), zone: 'Etc/UTC' },
        next: { date: at.toISOString().slice(0, 10), at },
      };
      courses.begin(course, now);
    });
  }).immediate();
  close();
}

export type Kept = { sent: number; dead: number; integrity: string };

/** A look at the database from outside, which may go on while the other process writes. */
export function look(folder: string): Pick<Kept, 'sent' | 'dead'> {
  return peek(folder, (db) => {
    const count = db.prepare('SELECT count(*) FROM outbox WHERE state = ?').pluck();
    return { sent: Number(count.get(2)), dead: Number(count.get(3)) };
  });
}

export const integrity = (folder: string): string =>
  peek(folder, (db) => String(db.pragma('integrity_check', { simple: true })));

function peek<Seen>(folder: string, see: (db: Database.Database) => Seen): Seen {
  const db = new Database(join(folder, 'reef-club.db'), { timeout: 1_000 });
  try {
    return see(db);
  } finally {
    db.close();
  }
}
