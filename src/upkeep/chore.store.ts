import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { ACTS, type ActKind, type ChoreAct } from './chore-act.ts';
import type { Chore } from './chore-rule.ts';

const Every = z.union([
  z.object({ kind: z.literal('days'), days: z.int() }),
  z.object({ kind: z.literal('weekdays'), weekdays: z.array(z.int()) }),
]);
const State = z.object({
  title: z.string(),
  idea: z.string().nullable(),
  tankId: z.int().nullable(),
  every: Every,
  rule: z.object({ timeOfDay: z.string(), zone: z.string() }),
  due: z.string(),
  next: z.object({ date: z.string(), at: z.coerce.date(), asked: z.boolean() }).nullable(),
  told: z.string().nullable(),
  unanswered: z.int(),
  lastDone: z.string().nullable(),
});
const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    member_id: z.string(),
    channel_id: z.string(),
    state: z.string(),
    told_key: z.string().nullable(),
  })
  .transform((row): Chore => ({
    id: row.id,
    guildId: row.guild_id,
    memberId: row.member_id,
    channelId: row.channel_id,
    toldKey: row.told_key,
    ...State.parse(JSON.parse(row.state)),
  }));

const ActRow = z
  .object({
    id: z.int(),
    chore_id: z.int(),
    what: z.enum(ACTS),
    due_date: z.string(),
    done_date: z.string().nullable(),
    at_ms: z.int(),
    state_before: z.string().nullable(),
  })
  .transform((row): ChoreAct => ({
    id: row.id,
    choreId: row.chore_id,
    what: row.what,
    dueDate: row.due_date,
    doneDate: row.done_date,
    at: new Date(row.at_ms),
    stateBefore: row.state_before,
  }));

const stateOf = ({ id: _i, guildId: _g, memberId: _m, channelId: _c, toldKey: _k, ...state }: Chore): string =>
  JSON.stringify({ ...state, title: state.title.toWellFormed() });
const whole = (id: number): number => (Number.isSafeInteger(id) ? id : -1);
const MOST_HISTORY = 60;

/** Chores of every club. What a member did with one is kept beside it: that is its history, and what undo works from. */
export function choreStore(db: Database) {
  const insert = db.prepare(`INSERT INTO chores (guild_id, member_id, channel_id, state, next_at_ms)
    VALUES (@guildId, @memberId, @channelId, @state, @nextMs)`);
  const one = db.prepare('SELECT * FROM chores WHERE id = ? AND member_id = ? AND removed_at_ms IS NULL');
  const any = db.prepare('SELECT * FROM chores WHERE id = ? AND member_id = ?');
  const ofMember = db.prepare(
    'SELECT * FROM chores WHERE guild_id = ? AND member_id = ? AND removed_at_ms IS NULL ORDER BY id',
  );
  const toldBy = db.prepare('SELECT * FROM chores WHERE told_key = ? AND member_id = ? AND removed_at_ms IS NULL');
  const selectDue = db.prepare(
    'SELECT * FROM chores WHERE removed_at_ms IS NULL AND next_at_ms <= ? ORDER BY next_at_ms, id LIMIT ?',
  );
  const update = db.prepare(
    'UPDATE chores SET state = @state, next_at_ms = @nextMs, told_key = @toldKey WHERE id = @id AND member_id = @memberId',
  );
  const setRemoved = db.prepare('UPDATE chores SET removed_at_ms = ? WHERE id = ? AND member_id = ?');
  const insertAct = db.prepare(`INSERT INTO chore_acts
    (guild_id, member_id, chore_id, what, due_date, done_date, state_before, at_ms)
    VALUES (@guildId, @memberId, @choreId, @what, @dueDate, @doneDate, @before, @nowMs)`);
  const lastAct = db.prepare('SELECT * FROM chore_acts WHERE guild_id = ? AND member_id = ? ORDER BY id DESC LIMIT 1');
  const actClub = db.prepare('SELECT guild_id FROM chore_acts WHERE id = ? AND member_id = ?');
  const dropAct = db.prepare('DELETE FROM chore_acts WHERE id = ?');
  const rounds = db.prepare(
    `SELECT * FROM chore_acts WHERE chore_id = ? AND what IN ('done', 'skipped') ORDER BY id DESC LIMIT ${MOST_HISTORY}`,
  );
  const read = (row: unknown): Chore | undefined => (row === undefined ? undefined : Row.parse(row));
  const find = (id: number, memberId: string): Chore | undefined => read(one.get(whole(id), memberId));
  const save = (chore: Chore): void =>
    void update.run({
      id: chore.id,
      memberId: chore.memberId,
      state: stateOf(chore),
      nextMs: chore.next?.at.getTime() ?? null,
      toldKey: chore.toldKey,
    });
  const note = (before: Chore, what: ActKind, doneDate: string | null, now: Date): number =>
    Number(
      insertAct.run({
        guildId: before.guildId,
        memberId: before.memberId,
        choreId: before.id,
        what,
        dueDate: before.due,
        doneDate,
        before: what === 'added' ? null : stateOf(before),
        nowMs: now.getTime(),
      }).lastInsertRowid,
    );
  return {
    find,
    save,
    ofMember: (guildId: string, memberId: string): Chore[] =>
      ofMember.all(guildId, memberId).map((row) => Row.parse(row)),
    /** The chores that one message told, as they stand now. */
    toldBy: (key: string, memberId: string): Chore[] => toldBy.all(key, memberId).map((row) => Row.parse(row)),
    due: (now: Date, limit: number): Chore[] => selectDue.all(now.getTime(), limit).map((row) => Row.parse(row)),
    add: (chore: Omit<Chore, 'id'>, now: Date): { chore: Chore; actId: number } =>
      db
        .transaction(() => {
          const { guildId, memberId, channelId } = chore;
          const { lastInsertRowid } = insert.run({
            guildId,
            memberId,
            channelId,
            state: stateOf({ ...chore, id: 0 }),
            nextMs: chore.next?.at.getTime() ?? null,
          });
          const added = { ...chore, id: Number(lastInsertRowid) };
          return { chore: added, actId: note(added, 'added', null, now) };
        })
        .immediate(),
    /** Writes what a member did: the chore as it is now, and the act with the chore as it was. */
    act: (before: Chore, after: Chore, what: ActKind, doneDate: string | null, now: Date): number =>
      db
        .transaction(() => {
          const actId = note(before, what, doneDate, now);
          save(after);
          if (what === 'removed') setRemoved.run(now.getTime(), before.id, before.memberId);
          return actId;
        })
        .immediate(),
    /** What a member did last in a club, with the chore before and now; nothing when there is none. */
    lastAct(guildId: string, memberId: string): { act: ChoreAct; before: Chore | null; current: Chore } | undefined {
      const row = lastAct.get(guildId, memberId);
      if (row === undefined) return undefined;
      const act = ActRow.parse(row);
      const current = read(any.get(act.choreId, memberId));
      if (!current) return undefined;
      const before = act.stateBefore === null ? null : { ...current, ...State.parse(JSON.parse(act.stateBefore)) };
      return { act, before, current };
    },
    /** The club in which a member did something. */
    clubOfAct: (actId: number, memberId: string): string | undefined =>
      z
        .object({ guild_id: z.string() })
        .optional()
        .parse(actClub.get(whole(actId), memberId))?.guild_id,
    /** Takes an act back; `before` null removes what was added. */
    takeBack: (actId: number, current: Chore, before: Chore | null, now: Date): void =>
      db
        .transaction(() => {
          dropAct.run(actId);
          setRemoved.run(before === null ? now.getTime() : null, current.id, current.memberId);
          if (before) save(before);
        })
        .immediate(),
    /** The rounds that were done or left out, the oldest first. */
    rounds: (choreId: number): ChoreAct[] =>
      rounds
        .all(whole(choreId))
        .map((row) => ActRow.parse(row))
        .reverse(),
  };
}
export type ChoreStore = ReturnType<typeof choreStore>;
