import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import type { MessageView } from '../discord/message-view.ts';
import { DoseInCourse } from './dose-in-course.ts';
import type { Check, WorkedAnswer } from './worked-answer.ts';

/** Our own views come back as they were written. */
const View = z.custom<MessageView>((value) => typeof value === 'object' && value !== null && 'blocks' in value);

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    asker_id: z.string(),
    for_id: z.string().nullable(),
    channel_id: z.string(),
    title: z.string(),
    view: z.string(),
    doses: z.string(),
    tank_id: z.int().nullable(),
    asked_at_ms: z.int(),
    checked_by_id: z.string().nullable(),
    check_result: z.enum(['right', 'off']).nullable(),
    check_note: z.string().nullable(),
    checked_at_ms: z.int().nullable(),
  })
  .transform((row): WorkedAnswer => ({
    id: row.id,
    guildId: row.guild_id,
    askerId: row.asker_id,
    forId: row.for_id,
    channelId: row.channel_id,
    title: row.title,
    view: View.parse(JSON.parse(row.view)),
    doses: z.array(DoseInCourse).parse(JSON.parse(row.doses)),
    tankId: row.tank_id,
    askedAt: new Date(row.asked_at_ms),
    check:
      row.checked_by_id === null || row.check_result === null || row.checked_at_ms === null
        ? null
        : {
            byId: row.checked_by_id,
            result: row.check_result,
            note: row.check_note,
            at: new Date(row.checked_at_ms),
          },
  }));

export type NewWorkedAnswer = Omit<WorkedAnswer, 'id' | 'check' | 'view'> & { view: (id: number) => MessageView };

const KEPT_DAYS = 180;
const DAY_MS = 86_400_000;

/** Worked answers, found by their server and id together. Pictures are not kept: they are drawn from the figures. */
export function workedAnswerStore(db: Database) {
  const insert = db.prepare(`INSERT INTO worked_answers
    (guild_id, asker_id, for_id, channel_id, title, view, doses, tank_id, asked_at_ms)
    VALUES (@guildId, @askerId, @forId, @channelId, @title, '{}', @doses, @tankId, @askedMs)`);
  const setView = db.prepare('UPDATE worked_answers SET view = ? WHERE id = ? AND guild_id = ?');
  const select = db.prepare('SELECT * FROM worked_answers WHERE id = ? AND guild_id = ?');
  const check = db.prepare(`UPDATE worked_answers SET checked_by_id = @byId, check_result = @result,
    check_note = @note, checked_at_ms = @atMs WHERE id = @id AND guild_id = @guildId AND checked_by_id IS NULL`);
  const forget = db.prepare('DELETE FROM worked_answers WHERE asked_at_ms < ?');
  return {
    find: (id: number, guildId: string): WorkedAnswer | undefined => Row.optional().parse(select.get(id, guildId)),
    /** Keeps an answer and gives its view, whose buttons carry the id. */
    keep({ view, askedAt, doses, ...rest }: NewWorkedAnswer): MessageView {
      return db
        .transaction(() => {
          const { lastInsertRowid } = insert.run({ ...rest, doses: JSON.stringify(doses), askedMs: askedAt.getTime() });
          const id = Number(lastInsertRowid);
          const shown = view(id);
          const blocks = shown.blocks.filter(({ kind }) => kind !== 'picture');
          setView.run(JSON.stringify({ ...shown, blocks }), id, rest.guildId);
          forget.run(askedAt.getTime() - KEPT_DAYS * DAY_MS);
          return shown;
        })
        .immediate();
    },
    /** Records the check; false when somebody was faster. */
    check: (id: number, guildId: string, { byId, result, note, at }: Check): boolean =>
      check.run({ id, guildId, byId, result, note, atMs: at.getTime() }).changes > 0,
  };
}
export type WorkedAnswerStore = ReturnType<typeof workedAnswerStore>;
