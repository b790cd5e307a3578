import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import type { DailyRule } from '../schedule/local-time.ts';

const Row = z.object({ zone: z.string(), time_of_day: z.string() });

/** Where a member's clock stands, and at what time they like to be reminded: asked once. */
export function memberZoneStore(db: Database) {
  const select = db.prepare('SELECT zone, time_of_day FROM member_zones WHERE member_id = ?');
  const upsert = db.prepare(`INSERT INTO member_zones (member_id, zone, time_of_day, changed_at_ms)
    VALUES (@memberId, @zone, @timeOfDay, @nowMs)
    ON CONFLICT (member_id) DO UPDATE SET zone = @zone, time_of_day = @timeOfDay, changed_at_ms = @nowMs`);
  return {
    of(memberId: string): DailyRule | undefined {
      const row = Row.optional().parse(select.get(memberId));
      return row && { zone: row.zone, timeOfDay: row.time_of_day };
    },
    remember: (memberId: string, { zone, timeOfDay }: DailyRule, now: Date): void =>
      void upsert.run({ memberId, zone, timeOfDay, nowMs: now.getTime() }),
  };
}
export type MemberZoneStore = ReturnType<typeof memberZoneStore>;
