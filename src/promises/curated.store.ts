import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { OFFER_STATES, OfferDetails, type Offer } from '../swaps/offer.ts';
import { CURATOR_ACTS, type CuratorAct, type Report } from './curated.ts';

/** An offer as it was and as the act left it, so that undo can tell whether anything came between. */
const Side = z.object({ state: z.enum(OFFER_STATES), pieces: z.int(), details: OfferDetails });
const Merge = z.object({ intoId: z.int(), moved: z.array(z.int()), dropped: z.array(z.int()) });
const Kept = z.object({ before: Side, after: Side, merge: Merge.nullable() });
export type KeptAct = z.infer<typeof Kept>;

const Row = z
  .object({
    id: z.int(),
    offer_id: z.int(),
    by_id: z.string(),
    what: z.string(),
    reason: z.string().nullable(),
    state_before: z.string(),
  })
  .transform((row) => ({
    id: row.id,
    offerId: row.offer_id,
    byId: row.by_id,
    act: z.enum(CURATOR_ACTS).parse(row.what.replace(/^curator-/, '')),
    reason: row.reason ?? '',
    ...Kept.parse(JSON.parse(row.state_before)),
  }));
export type NotedAct = z.output<typeof Row>;

const ReportRow = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    offer_id: z.int(),
    by_id: z.string(),
    words: z.string(),
    settled_by: z.string().nullable(),
    settled_how: z.string().nullable(),
    at_ms: z.int(),
  })
  .transform((row): Report => ({
    id: row.id,
    guildId: row.guild_id,
    offerId: row.offer_id,
    byId: row.by_id,
    words: row.words,
    settledBy: row.settled_by,
    settledHow: row.settled_how,
    at: new Date(row.at_ms),
  }));

export const sideOf = ({ state, pieces, details }: Offer): KeptAct['before'] => ({ state, pieces, details });

/** What curators did, with the reason, and what members reported. */
export function curatedStore(db: Database) {
  const insert = db.prepare(`INSERT INTO swap_acts (guild_id, offer_id, by_id, what, reason, state_before, at_ms)
    VALUES (@guildId, @offerId, @byId, @what, @reason, @before, @nowMs)`);
  const selectLast = db.prepare(`SELECT * FROM swap_acts WHERE offer_id = ? AND guild_id = ? AND what LIKE 'curator-%'
    AND what <> 'curator-joined' ORDER BY id DESC LIMIT 1`);
  const undone = db.prepare(`UPDATE swap_acts SET what = 'undone-' || what WHERE id = ?`);
  const moveTo = db.prepare('UPDATE swap_promises SET offer_id = ? WHERE id = ?');
  const drop = db.prepare(`UPDATE swap_promises SET state = 'released', word = ? WHERE id = ? AND state = 'queued'`);
  const pickUp =
    db.prepare(`UPDATE swap_promises SET state = 'queued', word = NULL WHERE id = @id AND state = 'released'
    AND NOT EXISTS (SELECT 1 FROM swap_promises AS anew WHERE anew.offer_id = swap_promises.offer_id
      AND anew.taker_id = swap_promises.taker_id AND anew.state IN ('queued', 'promised'))`);
  const insertReport = db.prepare(`INSERT INTO swap_reports (guild_id, offer_id, by_id, words, at_ms)
    VALUES (@guildId, @offerId, @byId, @words, @nowMs)`);
  const addWords = db.prepare('UPDATE swap_reports SET words = ? WHERE id = ?');
  const selectReport = db.prepare('SELECT * FROM swap_reports WHERE id = ? AND guild_id = ?');
  const selectOpen = db.prepare('SELECT * FROM swap_reports WHERE guild_id = ? AND settled_by IS NULL ORDER BY id');
  const settle = db.prepare(
    'UPDATE swap_reports SET settled_by = ?, settled_how = ? WHERE id = ? AND settled_by IS NULL',
  );
  const open = (guildId: string): Report[] => selectOpen.all(guildId).map((row) => ReportRow.parse(row));
  const JOINED = 'joined with another place of the same member';
  return {
    /** @returns the number of the act. */
    note(offer: Offer, act: CuratorAct, byId: string, reason: string, kept: KeptAct, now: Date): number {
      const row = { guildId: offer.guildId, byId, reason: reason.toWellFormed(), nowMs: now.getTime() };
      const before = JSON.stringify(kept).toWellFormed();
      const { lastInsertRowid } = insert.run({ ...row, offerId: offer.id, what: `curator-${act}`, before });
      // The other of a merge was changed too, which ends what its keeper could take back.
      if (kept.merge) insert.run({ ...row, offerId: kept.merge.intoId, what: 'curator-joined', before });
      return Number(lastInsertRowid);
    },
    /** What a curator did last to an offer and was not taken back. */
    last: ({ id, guildId }: Pick<Offer, 'id' | 'guildId'>): NotedAct | undefined =>
      Row.optional().parse(selectLast.get(id, guildId)),
    undone: ({ id }: Pick<NotedAct, 'id'>): void => void undone.run(id),
    move: (promiseId: number, offerId: number): void => void moveTo.run(offerId, promiseId),
    /** Gives up a place whose member has another one in what is joined. */
    drop: (promiseId: number): void => void drop.run(JOINED, promiseId),
    pickUp: (promiseId: number): void => void pickUp.run({ id: promiseId }),
    /** Keeps a report; a second one of the same member and offer is added to the first while that is open. */
    report({ id, guildId }: Pick<Offer, 'id' | 'guildId'>, byId: string, words: string, now: Date): void {
      const before = open(guildId).find((each) => each.offerId === id && each.byId === byId);
      if (before) addWords.run(`${before.words}\n${words}`.slice(0, 2_000).toWellFormed(), before.id);
      else insertReport.run({ guildId, offerId: id, byId, words: words.toWellFormed(), nowMs: now.getTime() });
    },
    findReport: (id: number, guildId: string): Report | undefined =>
      Number.isSafeInteger(id) ? ReportRow.optional().parse(selectReport.get(id, guildId)) : undefined,
    openReports: open,
    /** @returns false when it was settled before. */
    settle: ({ id }: Pick<Report, 'id'>, byId: string, how: string): boolean =>
      settle.run(byId, how.toWellFormed(), id).changes > 0,
  };
}
export type CuratedStore = ReturnType<typeof curatedStore>;
