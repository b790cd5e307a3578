import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { DoseInCourse } from '../calculators/dose-in-course.ts';
import type { DoseCourse } from './dose-course.ts';

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    member_id: z.string(),
    channel_id: z.string(),
    title: z.string(),
    doses: z.string(),
    tank_id: z.int().nullable(),
    given: z.int(),
    time_of_day: z.string(),
    zone: z.string(),
    next_date: z.string().nullable(),
    next_at_ms: z.int().nullable(),
    open_date: z.string().nullable(),
    unanswered: z.int(),
    ended: z.enum(['finished', 'stopped', 'forgotten']).nullable(),
  })
  .transform((row): DoseCourse => ({
    id: row.id,
    guildId: row.guild_id,
    memberId: row.member_id,
    channelId: row.channel_id,
    title: row.title,
    doses: z.array(DoseInCourse).parse(JSON.parse(row.doses)),
    tankId: row.tank_id,
    given: row.given,
    rule: { timeOfDay: row.time_of_day, zone: row.zone },
    next:
      row.next_date === null || row.next_at_ms === null ? null : { date: row.next_date, at: new Date(row.next_at_ms) },
    open: row.open_date,
    unanswered: row.unanswered,
    ended: row.ended,
  }));

export type NewCourse = Pick<
  DoseCourse,
  'guildId' | 'memberId' | 'channelId' | 'title' | 'doses' | 'tankId' | 'rule' | 'next'
>;

const stateOf = ({ given, next, open, unanswered, ended }: DoseCourse) => ({
  given,
  nextDate: next?.date ?? null,
  nextMs: next?.at.getTime() ?? null,
  open,
  unanswered,
  ended,
});

/** Courses of doses. A course is found by its id and its member: its buttons also work in direct messages. */
export function courseStore(db: Database) {
  const insert = db.prepare(`INSERT INTO dose_courses
    (guild_id, member_id, channel_id, title, doses, tank_id, time_of_day, zone, next_date, next_at_ms, begun_at_ms)
    VALUES (@guildId, @memberId, @channelId, @title, @doses, @tankId, @timeOfDay, @zone, @nextDate, @nextMs, @nowMs)`);
  const select = db.prepare('SELECT * FROM dose_courses WHERE id = ? AND member_id = ?');
  const selectDue = db.prepare(
    'SELECT * FROM dose_courses WHERE ended IS NULL AND next_at_ms <= ? ORDER BY next_at_ms, id LIMIT ?',
  );
  const selectRunning = db.prepare(
    `SELECT * FROM dose_courses WHERE guild_id = ? AND member_id = ? AND (ended IS NULL OR ended = 'forgotten')
     ORDER BY id DESC LIMIT ?`,
  );
  const selectZone = db.prepare(
    'SELECT zone, time_of_day FROM dose_courses WHERE guild_id = ? AND member_id = ? ORDER BY id DESC LIMIT 1',
  );
  const update = db.prepare(`UPDATE dose_courses SET given = @given, next_date = @nextDate, next_at_ms = @nextMs,
    open_date = @open, unanswered = @unanswered, ended = @ended WHERE id = @id AND member_id = @memberId`);
  const find = (id: number, memberId: string): DoseCourse | undefined => Row.optional().parse(select.get(id, memberId));
  return {
    find,
    begin({ rule, next, doses, ...rest }: NewCourse, now: Date): DoseCourse {
      const { lastInsertRowid } = insert.run({
        ...rest,
        title: rest.title.toWellFormed(),
        doses: JSON.stringify(doses),
        timeOfDay: rule.timeOfDay,
        zone: rule.zone,
        nextDate: next?.date ?? null,
        nextMs: next?.at.getTime() ?? null,
        nowMs: now.getTime(),
      });
      const begun = find(Number(lastInsertRowid), rest.memberId);
      if (!begun) throw new Error(`the course that was just written, ${lastInsertRowid}, is not there`);
      return begun;
    },
    /** The tick looks after all clubs at once. */
    due: (now: Date, limit: number): DoseCourse[] => selectDue.all(now.getTime(), limit).map((row) => Row.parse(row)),
    running: (guildId: string, memberId: string, limit: number): DoseCourse[] =>
      selectRunning.all(guildId, memberId, limit).map((row) => Row.parse(row)),
    /** What the member chose last time. */
    lastRule(guildId: string, memberId: string): DoseCourse['rule'] | undefined {
      const row = z
        .object({ zone: z.string(), time_of_day: z.string() })
        .optional()
        .parse(selectZone.get(guildId, memberId));
      return row && { zone: row.zone, timeOfDay: row.time_of_day };
    },
    save: (course: DoseCourse): void =>
      void update.run({ id: course.id, memberId: course.memberId, ...stateOf(course) }),
  };
}
export type CourseStore = ReturnType<typeof courseStore>;
