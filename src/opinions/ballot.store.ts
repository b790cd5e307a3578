import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import type { WeighedBallot } from './call.ts';
import { VERDICTS, type Ballot } from './opinion.ts';

const Row = z
  .object({
    member_id: z.string(),
    verdict: z.enum(VERDICTS),
    entry: z.string().nullable(),
    is_curator: z.int(),
    was_right: z.int(),
    was_wrong: z.int(),
  })
  .transform((row): WeighedBallot => ({
    memberId: row.member_id,
    verdict: row.verdict,
    entry: row.entry,
    isCurator: row.is_curator === 1,
    record: { right: row.was_right, wrong: row.was_wrong },
  }));

/** One ballot a member and case, and the record of each voter in the cases of their server. */
export function ballotStore(db: Database) {
  // The record of a voter leaves out the case itself: nobody is weighed by what is being decided.
  const select = db.prepare(`SELECT b.member_id, b.verdict, b.entry, b.is_curator,
      (SELECT count(*) FROM records r WHERE r.guild_id = b.guild_id AND r.member_id = b.member_id
        AND r.case_id <> b.case_id AND r.was_right = 1) AS was_right,
      (SELECT count(*) FROM records r WHERE r.guild_id = b.guild_id AND r.member_id = b.member_id
        AND r.case_id <> b.case_id AND r.was_right = 0) AS was_wrong
    FROM ballots b WHERE b.case_id = ? AND b.guild_id = ? ORDER BY b.cast_at_ms, b.member_id`);
  const upsert = db.prepare(`INSERT INTO ballots (case_id, guild_id, member_id, verdict, entry, is_curator, cast_at_ms)
    VALUES (@caseId, @guildId, @memberId, @verdict, @entry, @isCurator, @now)
    ON CONFLICT (case_id, member_id) DO UPDATE SET verdict = excluded.verdict, entry = excluded.entry,
      is_curator = excluded.is_curator, cast_at_ms = excluded.cast_at_ms`);
  const forget = db.prepare('DELETE FROM records WHERE case_id = ? AND guild_id = ?');
  const insert = db.prepare('INSERT INTO records (case_id, guild_id, member_id, was_right) VALUES (?, ?, ?, ?)');

  return {
    of: (caseId: number, guildId: string): WeighedBallot[] => select.all(caseId, guildId).map((row) => Row.parse(row)),
    cast: (caseId: number, guildId: string, { memberId, verdict, entry, isCurator }: Ballot, now: Date) =>
      void upsert.run({ caseId, guildId, memberId, verdict, entry, isCurator: isCurator ? 1 : 0, now: now.getTime() }),
    /** What each voter of a case was, in place of what they were before. */
    record(caseId: number, guildId: string, outcomes: readonly { memberId: string; wasRight: boolean }[]): void {
      forget.run(caseId, guildId);
      for (const { memberId, wasRight } of outcomes) insert.run(caseId, guildId, memberId, wasRight ? 1 : 0);
    },
  };
}
export type BallotStore = ReturnType<typeof ballotStore>;
