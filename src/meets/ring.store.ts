import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { NO_LASTS_DAYS, RING_STATES, type SwapRing } from './ring.ts';

const Arcs = z.array(z.strictObject({ offerId: z.int(), from: z.string(), to: z.string(), name: z.string() }));
const Answers = z.record(z.string(), z.strictObject({ said: z.enum(['yes', 'no', 'silent']), at: z.number() }));
const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    meet_id: z.int().nullable(),
    state: z.enum(RING_STATES),
    arcs: z.string(),
    answers: z.string(),
    until_ms: z.int().nullable(),
    created_at_ms: z.int(),
  })
  .transform((row): SwapRing => ({
    id: row.id,
    guildId: row.guild_id,
    meetId: row.meet_id,
    state: row.state,
    arcs: Arcs.parse(JSON.parse(row.arcs)),
    answers: Answers.parse(JSON.parse(row.answers)),
    until: new Date(row.until_ms ?? row.created_at_ms),
    createdAt: new Date(row.created_at_ms),
  }));
const LeftOut = z.object({ member_id: z.string(), times: z.int() });

const DAY_MS = 86_400_000;

/** Rings as they were put to members and what became of them, and who was left out how often. */
export function ringStore(db: Database) {
  const insert = db.prepare(`INSERT INTO swap_rings
    (guild_id, meet_id, state, arcs, answers, until_ms, created_at_ms, changed_at_ms)
    VALUES (@guildId, @meetId, 'proposed', @arcs, '{}', @untilMs, @nowMs, @nowMs)`);
  const remove = db.prepare('DELETE FROM swap_rings WHERE id = ? AND guild_id = ?');
  const select = db.prepare('SELECT * FROM swap_rings WHERE id = ? AND guild_id = ?');
  const selectIn = db.prepare(
    `SELECT * FROM swap_rings WHERE guild_id = ? AND state IN ('proposed', 'agreed') ORDER BY id`,
  );
  const selectOpen = db.prepare(`SELECT * FROM swap_rings WHERE state IN ('proposed', 'agreed') ORDER BY id`);
  const selectDissolved = db.prepare(
    `SELECT * FROM swap_rings WHERE guild_id = ? AND state = 'dissolved' AND changed_at_ms > ? ORDER BY id`,
  );
  const update = db.prepare(`UPDATE swap_rings SET state = @state, answers = @answers, changed_at_ms = @nowMs
    WHERE id = @id AND guild_id = @guildId`);
  const selectLeftOut = db.prepare('SELECT member_id, times FROM swap_left_out WHERE guild_id = ?');
  const once = db.prepare(`INSERT INTO swap_left_out (guild_id, member_id, times) VALUES (?, ?, 1)
    ON CONFLICT (guild_id, member_id) DO UPDATE SET times = times + 1`);
  const served = db.prepare('DELETE FROM swap_left_out WHERE guild_id = ? AND member_id = ?');
  const find = (id: number, guildId: string): SwapRing | undefined =>
    Number.isSafeInteger(id) ? Row.optional().parse(select.get(id, guildId)) : undefined;
  return {
    find,
    /** Proposed and agreed ones of a club, the oldest first. */
    open: (guildId: string): SwapRing[] => selectIn.all(guildId).map((row) => Row.parse(row)),
    /** Proposed and agreed ones of every club. */
    openAnywhere: (): SwapRing[] => selectOpen.all().map((row) => Row.parse(row)),
    /** Dissolved ones that still teach something. */
    lessons: (guildId: string, now: Date): SwapRing[] =>
      selectDissolved.all(guildId, now.getTime() - NO_LASTS_DAYS * DAY_MS).map((row) => Row.parse(row)),
    add({ guildId, meetId, arcs, until, createdAt }: Omit<SwapRing, 'id' | 'state' | 'answers'>): SwapRing {
      const row = { guildId, meetId, arcs: JSON.stringify(arcs).toWellFormed() };
      const { lastInsertRowid } = insert.run({ ...row, untilMs: until.getTime(), nowMs: createdAt.getTime() });
      const added = find(Number(lastInsertRowid), guildId);
      if (!added) throw new Error(`the ring that was just written, ${lastInsertRowid}, is not there`);
      return added;
    },
    /** Takes back one that was just added and could not be held. */
    remove: ({ id, guildId }: SwapRing): void => void remove.run(id, guildId),
    save: ({ id, guildId, state, answers }: SwapRing, now: Date): void =>
      void update.run({ id, guildId, state, answers: JSON.stringify(answers), nowMs: now.getTime() }),
    leftOut: (guildId: string): ReadonlyMap<string, number> =>
      new Map(selectLeftOut.all(guildId).map((row) => LeftOut.parse(row)).map(({ member_id, times }) => [member_id, times])), // prettier-ignore
    leaveOut: (guildId: string, memberId: string): void => void once.run(guildId, memberId),
    serve: (guildId: string, memberId: string): void => void served.run(guildId, memberId),
  };
}
export type RingStore = ReturnType<typeof ringStore>;
