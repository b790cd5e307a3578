import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { CarriedSighting } from './carried-sighting.ts';
import { VERDICTS, type Case } from './opinion.ts';

const ClosedJson = z.object({
  how: z.enum(['settled', 'by-vote', 'withdrawn']),
  verdict: z.enum(VERDICTS).nullable(),
  entry: z.string().nullable(),
  reason: z.string().nullable(),
  byId: z.string().nullable(),
  byName: z.string().nullable(),
  atMs: z.number(),
});
const UndoJson = z.object({ closed: ClosedJson.nullable(), closesAtMs: z.number(), atMs: z.number() });

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    channel_id: z.string(),
    asker_id: z.string(),
    asker_name: z.string(),
    text: z.string(),
    photo_name: z.string(),
    photo_alt: z.string(),
    credit: z.string().nullable(),
    wants_thread: z.int(),
    sighting: z.string().nullable(),
    opened_at_ms: z.int(),
    closes_at_ms: z.int(),
    open_for_ms: z.int(),
    closings: z.int(),
    closed: z.string().nullable(),
    undo: z.string().nullable(),
    message_id: z.string().nullable(),
    thread_id: z.string().nullable(),
    ballot_message_id: z.string().nullable(),
  })
  .transform((row): Case => ({
    id: row.id,
    guildId: row.guild_id,
    channelId: row.channel_id,
    askerId: row.asker_id,
    askerName: row.asker_name,
    text: row.text,
    photoName: row.photo_name === '' ? null : row.photo_name,
    photoAlt: row.photo_alt,
    credit: row.credit,
    wantsThread: row.wants_thread === 1,
    sighting: row.sighting === null ? null : readSighting(row.sighting),
    openedAt: new Date(row.opened_at_ms),
    closesAt: new Date(row.closes_at_ms),
    openForMs: row.open_for_ms,
    closings: row.closings,
    closed: row.closed === null ? null : ClosedJson.parse(JSON.parse(row.closed)),
    undo: row.undo === null ? null : UndoJson.parse(JSON.parse(row.undo)),
    messageId: row.message_id,
    threadId: row.thread_id,
    ballotMessageId: row.ballot_message_id,
  }));

/** A trait that the vocabulary no longer has makes what was carried along unreadable; the words are there all the same. */
const readSighting = (kept: string): CarriedSighting | null => {
  const read = CarriedSighting.safeParse(JSON.parse(kept));
  return read.success ? read.data : null;
};

export type NewCase = Pick<
  Case,
  | 'guildId'
  | 'channelId'
  | 'askerId'
  | 'askerName'
  | 'text'
  | 'photoName'
  | 'photoAlt'
  | 'credit'
  | 'wantsThread'
  | 'sighting'
  | 'openedAt'
  | 'closesAt'
  | 'openForMs'
>;

/** Cases of second opinions. A case is found by its server and its id together. */
export function caseStore(db: Database) {
  const insert = db.prepare(`INSERT INTO cases
    (guild_id, channel_id, asker_id, asker_name, text, photo_name, photo_alt, credit, wants_thread, opened_at_ms, closes_at_ms,
     open_for_ms, sighting_id, sighting)
    VALUES (@guildId, @channelId, @askerId, @askerName, @text, @photoName, @photoAlt, @credit, @wantsThread, @openedMs, @closesMs,
     @openForMs, @sightingId, @sighting)`);
  const select = db.prepare('SELECT * FROM cases WHERE id = ? AND guild_id = ?');
  // The tick looks after all servers at once; what it does with a case goes by that case's own server.
  const selectDue = db.prepare(
    'SELECT * FROM cases WHERE closed IS NULL AND message_id IS NOT NULL AND closes_at_ms <= ? ORDER BY closes_at_ms, id LIMIT ?',
  );
  const selectSettled = db.prepare(
    `SELECT * FROM cases WHERE guild_id = ? AND closed ->> 'how' = 'settled' ORDER BY id DESC LIMIT ?`,
  );
  const selectOfSighting = db.prepare(`SELECT * FROM cases WHERE guild_id = ? AND sighting_id = ?
    AND (closed IS NULL OR closed ->> 'how' <> 'withdrawn') ORDER BY id LIMIT 1`);
  const update =
    db.prepare(`UPDATE cases SET closes_at_ms = @closesMs, closings = @closings, closed = @closed, undo = @undo
    WHERE id = @id AND guild_id = @guildId`);
  const place = db.prepare(`UPDATE cases SET message_id = @messageId, thread_id = @threadId,
    ballot_message_id = @ballotMessageId WHERE id = @id AND guild_id = @guildId`);
  const find = (id: number, guildId: string): Case | undefined => Row.optional().parse(select.get(id, guildId));

  return {
    find,
    ofSighting: (sightingId: number, guildId: string): Case | undefined =>
      Row.optional().parse(selectOfSighting.get(guildId, sightingId)),
    open({ openedAt, closesAt, wantsThread, sighting, photoName, ...rest }: NewCase): Case {
      const { lastInsertRowid } = insert.run({
        ...rest,
        text: rest.text.toWellFormed(),
        photoAlt: rest.photoAlt.toWellFormed(),
        wantsThread: wantsThread ? 1 : 0,
        photoName: photoName ?? '',
        sightingId: sighting?.id ?? null,
        sighting: sighting && JSON.stringify(sighting),
        openedMs: openedAt.getTime(),
        closesMs: closesAt.getTime(),
      });
      const opened = find(Number(lastInsertRowid), rest.guildId);
      if (!opened) throw new Error(`the case that was just written, ${lastInsertRowid}, is not there`);
      return opened;
    },
    due: (now: Date, limit: number): Case[] => selectDue.all(now.getTime(), limit).map((row) => Row.parse(row)),
    settled: (guildId: string, limit: number): Case[] => selectSettled.all(guildId, limit).map((row) => Row.parse(row)),
    /** Keeps the state of a case as it now is. */
    save: ({ id, guildId, closesAt, closings, closed, undo }: Case) =>
      void update.run({
        id,
        guildId,
        closings,
        closesMs: closesAt.getTime(),
        closed: closed && JSON.stringify(closed),
        undo: undo && JSON.stringify(undo),
      }),
    /** Keeps where a case is to be seen. */
    place: ({ id, guildId, messageId, threadId, ballotMessageId }: Case) =>
      void place.run({ id, guildId, messageId, threadId, ballotMessageId }),
  };
}
export type CaseStore = ReturnType<typeof caseStore>;
