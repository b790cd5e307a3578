import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { PlanEvent } from './plan-event.ts';
import type { Quarantine } from './quarantine.ts';

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    member_id: z.string(),
    channel_id: z.string(),
    animals: z.string(),
    fish: z.string(),
    plan: z.string(),
    plan_option: z.string().nullable(),
    zone: z.string(),
    visibility: z.enum(['me', 'club']),
    begun_at_ms: z.int(),
    ended: z.enum(['finished', 'called-off']).nullable(),
    ended_at_ms: z.int().nullable(),
  })
  .transform((row): Quarantine => ({
    id: row.id,
    guildId: row.guild_id,
    memberId: row.member_id,
    channelId: row.channel_id,
    animals: row.animals,
    fish: z.array(z.string()).parse(JSON.parse(row.fish)),
    plan: row.plan,
    option: row.plan_option,
    zone: row.zone,
    visibility: row.visibility,
    begunAt: new Date(row.begun_at_ms),
    ended: row.ended === null || row.ended_at_ms === null ? null : { how: row.ended, at: new Date(row.ended_at_ms) },
  }));

const EventRow = z.object({ id: z.int(), detail: z.string(), at_ms: z.int() });

/** What is known of an event before it is kept; its id is its row. */
export type NewPlanEvent = PlanEvent extends infer Event
  ? Event extends { id: string }
    ? Omit<Event, 'id'>
    : never
  : never;

/** Quarantines and what happened in them. Only events are kept; what follows from them is worked out anew each time. */
export function quarantineStore(db: Database) {
  const insert = db.prepare(`INSERT INTO quarantines
    (guild_id, member_id, channel_id, animals, fish, plan, plan_option, zone, visibility, begun_at_ms)
    VALUES (@guildId, @memberId, @channelId, @animals, @fish, @plan, @option, @zone, @visibility, @begunMs)`);
  const select = db.prepare('SELECT * FROM quarantines WHERE id = ? AND guild_id = ?');
  const selectOwn = db.prepare(
    'SELECT * FROM quarantines WHERE guild_id = ? AND member_id = ? AND ended IS NULL ORDER BY id',
  );
  const selectShown = db.prepare(
    `SELECT * FROM quarantines WHERE guild_id = ? AND visibility = 'club' AND ended IS NULL ORDER BY id DESC LIMIT ?`,
  );
  const update = db.prepare(`UPDATE quarantines SET animals = @animals, visibility = @visibility, ended = @ended,
    ended_at_ms = @endedMs WHERE id = @id AND guild_id = @guildId`);
  const insertEvent =
    db.prepare(`INSERT INTO quarantine_events (quarantine_id, guild_id, by_id, detail, at_ms, noted_at_ms)
    VALUES (@quarantineId, @guildId, @byId, @detail, @atMs, @notedMs)`);
  const selectEvents = db.prepare(
    'SELECT id, detail, at_ms FROM quarantine_events WHERE quarantine_id = ? AND guild_id = ? ORDER BY id',
  );
  const find = (id: number, guildId: string): Quarantine | undefined =>
    Number.isSafeInteger(id) ? Row.optional().parse(select.get(id, guildId)) : undefined;
  const note = ({ id, guildId }: Quarantine, event: NewPlanEvent, byId: string, now: Date): number => {
    const { at, ...detail } = event;
    const row = { quarantineId: id, guildId, byId, detail: JSON.stringify(detail).toWellFormed() };
    return Number(insertEvent.run({ ...row, atMs: at.getTime(), notedMs: now.getTime() }).lastInsertRowid);
  };
  return {
    find,
    own: (guildId: string, memberId: string): Quarantine[] =>
      selectOwn.all(guildId, memberId).map((row) => Row.parse(row)),
    /** Those whose keepers show them to the club, the newest first. */
    shown: (guildId: string, limit: number): Quarantine[] =>
      selectShown.all(guildId, limit).map((row) => Row.parse(row)),
    /** Begins one, with its first event. */
    begin({ fish, begunAt, ...rest }: Omit<Quarantine, 'id' | 'ended'>, first: NewPlanEvent): Quarantine {
      return db
        .transaction(() => {
          const { lastInsertRowid } = insert.run({ ...rest, fish: JSON.stringify(fish), begunMs: begunAt.getTime() });
          const begun = find(Number(lastInsertRowid), rest.guildId);
          if (!begun) throw new Error(`the quarantine that was just written, ${lastInsertRowid}, is not there`);
          note(begun, first, rest.memberId, begunAt);
          return begun;
        })
        .immediate();
    },
    save: ({ id, guildId, animals, visibility, ended }: Quarantine): void =>
      void update.run({
        id,
        guildId,
        animals,
        visibility,
        ended: ended?.how ?? null,
        endedMs: ended?.at.getTime() ?? null,
      }),
    /** Keeps an event; gives its id. */
    note,
    events: ({ id, guildId }: Quarantine): PlanEvent[] =>
      selectEvents.all(id, guildId).map((row) => {
        const { id: eventId, detail, at_ms } = EventRow.parse(row);
        return PlanEvent.parse({ ...JSON.parse(detail), id: String(eventId), at: new Date(at_ms) });
      }),
  };
}
export type QuarantineStore = ReturnType<typeof quarantineStore>;
