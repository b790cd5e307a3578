import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { PlanEvent } from './plan-event.ts';
import { MOST_EVENTS, type Quarantine, type Reminding } from './quarantine.ts';

const Label = z.object({ form: z.enum(['chelated', 'amine']), low: z.number(), high: z.number() });
const RemindingRow = z.object({
  told: z.array(z.string()),
  until: z.coerce.date(),
  later: z.coerce.date().nullable(),
  unanswered: z.int(),
  seen: z.int(),
});
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
    tank: z.string().nullable(),
    copper_label: z.string().nullable(),
    helpers: z.string(),
    zone: z.string(),
    time_of_day: z.string(),
    visibility: z.enum(['me', 'club']),
    begun_at_ms: z.int(),
    follows: z.int().nullable(),
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
    tank: row.tank,
    copperLabel: row.copper_label === null ? null : Label.parse(JSON.parse(row.copper_label)),
    helpers: z.array(z.string()).parse(JSON.parse(row.helpers)),
    zone: row.zone,
    timeOfDay: row.time_of_day,
    visibility: row.visibility,
    begunAt: new Date(row.begun_at_ms),
    follows: row.follows,
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
    (guild_id, member_id, channel_id, animals, fish, plan, plan_option, tank, copper_label, helpers, zone, time_of_day,
      visibility, begun_at_ms, follows, next_at_ms)
    VALUES (@guildId, @memberId, @channelId, @animals, @fish, @plan, @option, @tank, @label, @helpers, @zone, @timeOfDay,
      @visibility, @begunMs, @follows, 0)`);
  const select = db.prepare('SELECT * FROM quarantines WHERE id = ? AND guild_id = ?');
  const selectAny = db.prepare('SELECT * FROM quarantines WHERE id = ?');
  const selectOwn = db.prepare(
    'SELECT * FROM quarantines WHERE guild_id = ? AND member_id = ? AND ended IS NULL ORDER BY id',
  );
  const selectHelped = db.prepare(`SELECT * FROM quarantines WHERE guild_id = ? AND ended IS NULL AND helpers <> '[]'
    AND EXISTS (SELECT 1 FROM json_each(helpers) WHERE value = ?) ORDER BY id`);
  const selectShown = db.prepare(
    `SELECT * FROM quarantines WHERE guild_id = ? AND visibility = 'club' AND ended IS NULL ORDER BY id DESC LIMIT ?`,
  );
  // What is saved may move the next reminder, so it is looked for anew.
  const update = db.prepare(`UPDATE quarantines SET animals = @animals, fish = @fish,
    plan = @plan, plan_option = @option, tank = @tank, copper_label = @label,
    helpers = @helpers, zone = @zone, time_of_day = @timeOfDay, visibility = @visibility, begun_at_ms = @begunMs,
    ended = @ended, ended_at_ms = @endedMs, next_at_ms = 0 WHERE id = @id AND guild_id = @guildId`);
  const lookAnew = db.prepare('UPDATE quarantines SET next_at_ms = 0 WHERE id = ? AND guild_id = ?');
  const selectDue = db.prepare(`SELECT * FROM quarantines
    WHERE ended IS NULL AND next_at_ms IS NOT NULL AND next_at_ms <= ? ORDER BY next_at_ms, id LIMIT ?`);
  const selectReminding = db.prepare('SELECT reminding FROM quarantines WHERE id = ?').pluck();
  const updateReminding = db.prepare(
    'UPDATE quarantines SET reminding = @reminding, next_at_ms = @nextMs WHERE id = @id',
  );
  const insertEvent =
    db.prepare(`INSERT INTO quarantine_events (quarantine_id, guild_id, by_id, detail, at_ms, noted_at_ms)
    VALUES (@quarantineId, @guildId, @byId, @detail, @atMs, @notedMs)`);
  const selectEvents = db.prepare(
    'SELECT id, detail, at_ms FROM quarantine_events WHERE quarantine_id = ? AND guild_id = ? ORDER BY id',
  );
  const countEvents = db
    .prepare('SELECT count(*) FROM quarantine_events WHERE quarantine_id = ? AND guild_id = ?')
    .pluck();
  const find = (id: number, guildId: string): Quarantine | undefined =>
    Number.isSafeInteger(id) ? Row.optional().parse(select.get(id, guildId)) : undefined;
  const note = ({ id, guildId }: Quarantine, event: NewPlanEvent, byId: string, now: Date): number => {
    const { at, ...detail } = event;
    const row = { quarantineId: id, guildId, byId, detail: JSON.stringify(detail).toWellFormed() };
    const noted = insertEvent.run({ ...row, atMs: at.getTime(), notedMs: now.getTime() });
    lookAnew.run(id, guildId);
    return Number(noted.lastInsertRowid);
  };
  return {
    find,
    /** By its number alone, for buttons of direct messages: whoever asks has to be checked with `mayNote`. */
    findAnywhere: (id: number): Quarantine | undefined =>
      Number.isSafeInteger(id) ? Row.optional().parse(selectAny.get(id)) : undefined,
    own: (guildId: string, memberId: string): Quarantine[] =>
      selectOwn.all(guildId, memberId).map((row) => Row.parse(row)),
    /** Those of others in which a member may check in. */
    helped: (guildId: string, memberId: string): Quarantine[] =>
      selectHelped.all(guildId, memberId).map((row) => Row.parse(row)),
    /** Those whose keepers show them to the club, the newest first. */
    shown: (guildId: string, limit: number): Quarantine[] =>
      selectShown.all(guildId, limit).map((row) => Row.parse(row)),
    /** Begins one, with its first event. */
    begin(
      { fish, begunAt, helpers, copperLabel, ...rest }: Omit<Quarantine, 'id' | 'ended'>,
      first: NewPlanEvent,
    ): Quarantine {
      return db
        .transaction(() => {
          const { lastInsertRowid } = insert.run({
            ...rest,
            fish: JSON.stringify(fish),
            helpers: JSON.stringify(helpers),
            label: copperLabel && JSON.stringify(copperLabel),
            begunMs: begunAt.getTime(),
          });
          const begun = find(Number(lastInsertRowid), rest.guildId);
          if (!begun) throw new Error(`the quarantine that was just written, ${lastInsertRowid}, is not there`);
          note(begun, first, rest.memberId, begunAt);
          return begun;
        })
        .immediate();
    },
    save: ({ copperLabel, fish, helpers, begunAt, ended, ...rest }: Quarantine): void => {
      const { id, guildId, animals, plan, option, tank, zone, timeOfDay, visibility } = rest;
      update.run({
        ...{ id, guildId, animals, plan, option, tank, zone, timeOfDay, visibility },
        fish: JSON.stringify(fish),
        label: copperLabel && JSON.stringify(copperLabel),
        helpers: JSON.stringify(helpers),
        begunMs: begunAt.getTime(),
        ended: ended?.how ?? null,
        endedMs: ended?.at.getTime() ?? null,
      });
    },
    /** Does several of these in one go, or none of them. */
    together: (work: () => void): void => db.transaction(work).immediate(),
    /** Those that a turn has to look at, the longest due first. */
    due: (now: Date, limit: number): Quarantine[] => selectDue.all(now.getTime(), limit).map((row) => Row.parse(row)),
    /** What a member has been told of it; null before the first look. */
    reminding({ id }: Quarantine): Reminding | null {
      const kept = z.string().nullish().parse(selectReminding.get(id));
      return typeof kept === 'string' ? RemindingRow.parse(JSON.parse(kept)) : null;
    },
    /** Keeps what was told, and when to look next; null: not before something happens. */
    keepReminding: ({ id }: Quarantine, reminding: Reminding, next: Date | null): void =>
      void updateReminding.run({ id, reminding: JSON.stringify(reminding), nextMs: next?.getTime() ?? null }),
    /** Whether so much was noted that no more is taken; taking back and the start of another always are. */
    isFull: ({ id, guildId }: Quarantine): boolean => z.int().parse(countEvents.get(id, guildId)) >= MOST_EVENTS,
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
