import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import type { MessageView } from '../discord/message-view.ts';
import { owedView } from './outbox.ts';
import type { NewOutboxMessage, OutboxEdit, OutboxMessage } from './outbox.ts';

const STATES = { due: 0, tried: 1, sent: 2, dead: 3 } as const;

/** Our own views come back as they were written. */
const View = z.custom<MessageView>((value) => typeof value === 'object' && value !== null && 'blocks' in value);
const viewOf = (json: string | null): MessageView | null => (json === null ? null : View.parse(JSON.parse(json)));

const Row = z
  .object({
    id: z.int(),
    key: z.string(),
    guild_id: z.string(),
    topic: z.string(),
    act: z.enum(['post', 'edit', 'thread']),
    channel_id: z.string(),
    fallback_channel_id: z.string().nullable(),
    member_id: z.string().nullable(),
    target_id: z.string().nullable(),
    title: z.string().nullable(),
    view: z.string().nullable(),
    mark: z.string().nullable(),
    file: z.instanceof(Buffer).nullable(),
    late: z.enum(['always', 'merge', 'drop']),
    due_at_ms: z.int(),
    first_try_ms: z.int().nullable(),
    attempts: z.int(),
  })
  .transform((row): OutboxMessage => ({
    id: row.id,
    key: row.key,
    guildId: row.guild_id,
    topic: row.topic,
    act: row.act,
    channelId: row.channel_id,
    fallbackChannelId: row.fallback_channel_id,
    memberId: row.member_id,
    targetId: row.target_id,
    title: row.title,
    view: viewOf(row.view),
    mark: row.mark,
    file: row.file,
    late: row.late,
    dueAt: new Date(row.due_at_ms),
    firstTryAt: row.first_try_ms === null ? null : new Date(row.first_try_ms),
    attempts: row.attempts,
  }));

const Sent = z.object({ state: z.int(), channel_id: z.string(), message_id: z.string().nullable() });
const Owed = z.object({ id: z.int(), view: z.string(), why: z.string().nullable() });
const AnyOwed = z.object({ any_owed: z.int() });
const Together = z.object({ ids: z.string() });
const NextDue = z.object({ at: z.int().nullable() });

/** Settled rows are kept this long, so that a restored backup or a clock set back finds its keys taken. */
const KEPT_DAYS = 90;
const DAY_MS = 86_400_000;

/** Messages waiting to be delivered. Every change of an unsettled row is guarded, so the first settlement stays. */
export function outboxStore(db: Database) {
  const insert = db.prepare(`INSERT OR IGNORE INTO outbox
    (key, guild_id, topic, act, channel_id, fallback_channel_id, member_id, target_id, title, view, mark, file, late,
     due_at_ms, not_before_ms)
    VALUES (@key, @guildId, @topic, @act, @channelId, @fallbackChannelId, @memberId, @targetId, @title, @view, @mark,
     @file, @late, @dueMs, @dueMs)`);
  const selectPending = db.prepare(
    'SELECT * FROM outbox WHERE state < 2 AND not_before_ms <= ? ORDER BY not_before_ms, id LIMIT ?',
  );
  // "state < 2" and the time allow the index of what waits, which keeps a turn with nothing due short.
  const isLate = 'state < 2 AND not_before_ms <= @now AND state = 0 AND due_at_ms < @before';
  const dropLate = db.prepare(`UPDATE outbox SET state = 2, message_id = '', file = NULL, settled_at_ms = @now
    WHERE ${isLate} AND late = 'drop'`);
  const selectLateTogether = db.prepare(`SELECT json_group_array(id) AS ids FROM outbox
    WHERE ${isLate} AND late = 'merge' GROUP BY guild_id, channel_id, member_id HAVING count(*) > 1 ORDER BY min(id)`);
  const selectByIds = db.prepare(
    'SELECT * FROM outbox WHERE id IN (SELECT value FROM json_each(?)) ORDER BY due_at_ms, id',
  );
  const selectNext = db.prepare('SELECT min(not_before_ms) AS at FROM outbox WHERE state < 2');
  const selectByKey = db.prepare('SELECT state, channel_id, message_id FROM outbox WHERE key = ? AND guild_id = ?');
  const tried = db.prepare(`UPDATE outbox SET state = 1, attempts = attempts + 1,
    first_try_ms = coalesce(first_try_ms, @now) WHERE id = @id AND state < 2`);
  // A change has no occurrence of its own: the newest one counts, so its key only has to be new.
  const insertEdit = db.prepare(`INSERT INTO outbox
    (key, guild_id, topic, act, channel_id, target_id, view, late, due_at_ms, not_before_ms)
    VALUES ('edit/' || @targetId || '/' || (SELECT coalesce(max(id), 0) + 1 FROM outbox), @guildId, @topic, 'edit',
     @channelId, @targetId, @view, 'always', @now, @now)`);
  const settle = db.prepare(`UPDATE outbox SET state = @state, message_id = @messageId, why = @why, file = NULL,
    settled_at_ms = @now WHERE id = @id AND state < 2`);
  const postpone = db.prepare('UPDATE outbox SET not_before_ms = ?, why = ? WHERE id = ? AND state < 2');
  const redirect = db.prepare(`UPDATE outbox SET channel_id = fallback_channel_id, fallback_channel_id = NULL,
    state = 0, first_try_ms = NULL, attempts = 0, not_before_ms = ? WHERE id = ? AND state < 2`);
  const rewrite = db.prepare('UPDATE outbox SET view = ? WHERE id = ? AND state < 2');
  const supersede = db.prepare(`UPDATE outbox SET state = 3, why = 'superseded', told_at_ms = @now, file = NULL,
    settled_at_ms = @now WHERE guild_id = @guildId AND act = 'edit' AND target_id = @targetId AND state < 2`);
  const cancel = db.prepare(`UPDATE outbox SET state = 3, why = 'called off', told_at_ms = @now, file = NULL,
    settled_at_ms = @now WHERE key = @key AND guild_id = @guildId AND state = 0`);
  const selectOwed = db.prepare(`SELECT id, view, why FROM outbox
    WHERE guild_id = ? AND member_id = ? AND state = 3 AND told_at_ms IS NULL AND view IS NOT NULL ORDER BY id LIMIT 3`);
  const selectAnyOwed = db.prepare(
    'SELECT EXISTS (SELECT 1 FROM outbox WHERE state = 3 AND told_at_ms IS NULL AND view IS NOT NULL) AS any_owed',
  );
  const told = db.prepare('UPDATE outbox SET told_at_ms = ? WHERE id = ?');
  const forget = db.prepare('DELETE FROM outbox WHERE state >= 2 AND settled_at_ms < ?');
  const end = (id: number, state: number, messageId: string | null, why: string | null, now: Date): boolean =>
    settle.run({ id, state, messageId, why, now: now.getTime() }).changes > 0;

  // Every answer asks what is owed and whether anything waits; nearly always the answer is no, without a statement.
  const known = { news: false, mayOwe: true };

  return {
    /** Adds a message; false when its key is there already. */
    add({ view, dueAt, ...message }: NewOutboxMessage): boolean {
      known.news = true;
      return insert.run({ ...message, view: view && JSON.stringify(view), dueMs: dueAt.getTime() }).changes > 0;
    },
    /** Whether anything was added since this was last asked. */
    hasNews(): boolean {
      const { news } = known;
      known.news = false;
      return news;
    },
    /** Changes a message of ours; an older change that has not gone out yet is given up, since this one says it all. */
    addEdit({ view, ...edit }: OutboxEdit, now: Date): void {
      known.news = true;
      supersede.run({ guildId: edit.guildId, targetId: edit.targetId, now: now.getTime() });
      insertEdit.run({ ...edit, view: JSON.stringify(view), now: now.getTime() });
    },
    /** Gives up changes of a message that have not gone out, because it shows a newer state already. */
    giveUpEdits: (guildId: string, targetId: string, now: Date) =>
      void supersede.run({ guildId, targetId, now: now.getTime() }),
    pending: (now: Date, limit: number) => selectPending.all(now.getTime(), limit).map((row) => Row.parse(row)),
    /** Leaves out what was never tried, was due before an instant, and is of no use when late. */
    dropLate: (before: Date, now: Date) => void dropLate.run({ before: before.getTime(), now: now.getTime() }),
    /** Late messages that may be joined, as one list of ids for each member and place that has several. */
    lateTogether: (before: Date, now: Date): string[] =>
      selectLateTogether.all({ before: before.getTime(), now: now.getTime() }).map((row) => Together.parse(row).ids),
    /** Messages by such a list, in the order in which they were due. */
    byIds: (ids: string): OutboxMessage[] => selectByIds.all(ids).map((row) => Row.parse(row)),
    nextAt(): Date | null {
      const { at } = NextDue.parse(selectNext.get());
      return at === null ? null : new Date(at);
    },
    /** Notes a try before it is made; false when the message was settled meanwhile. */
    tried: (id: number, now: Date): boolean => tried.run({ id, now: now.getTime() }).changes > 0,
    sent: (id: number, messageId: string, now: Date) => end(id, STATES.sent, messageId, null, now),
    dead(id: number, why: string, now: Date): boolean {
      known.mayOwe = true;
      return end(id, STATES.dead, null, why, now);
    },
    postpone: (id: number, until: Date, why: string) => void postpone.run(until.getTime(), why, id),
    /** Sends a post to its fallback channel instead, as if it were new. */
    redirect: (id: number, now: Date) => void redirect.run(now.getTime(), id),
    rewrite: (id: number, view: MessageView) => void rewrite.run(JSON.stringify(view), id),
    /** Takes back a message that nobody has tried to send; false when it is too late for that. */
    callOff: (key: string, guildId: string, now: Date): boolean =>
      cancel.run({ key, guildId, now: now.getTime() }).changes > 0,
    /** Where a message was sent; undefined while it was not. */
    sentAs(key: string, guildId: string): { channelId: string; messageId: string } | undefined {
      const row = Sent.optional().parse(selectByKey.get(key, guildId));
      return row?.state === STATES.sent && row.message_id !== null
        ? { channelId: row.channel_id, messageId: row.message_id }
        : undefined;
    },
    /** What a member was to be told and could not be; each is given out once. */
    takeOwed(guildId: string, memberId: string, now: Date): MessageView[] {
      if (!known.mayOwe) return [];
      const rows = selectOwed.all(guildId, memberId).map((row) => Owed.parse(row));
      for (const { id } of rows) told.run(now.getTime(), id);
      known.mayOwe = AnyOwed.parse(selectAnyOwed.get()).any_owed > 0;
      return rows.flatMap(({ view, why }) => owedView(viewOf(view), why));
    },
    forgetOld: (now: Date) => void forget.run(now.getTime() - KEPT_DAYS * DAY_MS),
  };
}
export type OutboxStore = ReturnType<typeof outboxStore>;
