import type { CarriedSighting } from './carried-sighting.ts';

/** What a voter or a curator says of an animal. */
export const VERDICTS = ['pest', 'harmless', 'cannot-tell'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** How a case came to its end. A withdrawn one has no verdict. */
export type Closed = {
  how: 'settled' | 'by-vote' | 'withdrawn';
  verdict: Verdict | null;
  entry: string | null;
  reason: string | null;
  byId: string | null;
  byName: string | null;
  atMs: number;
};

/** What the last act of a curator replaced. */
export type Undo = { closed: Closed | null; closesAtMs: number; atMs: number };

export type Case = {
  id: number;
  guildId: string;
  channelId: string;
  askerId: string;
  askerName: string;
  text: string;
  /** Null where there is no photo, or not yet. */
  photoName: string | null;
  photoAlt: string;
  /** Whose message the photo came from, when it was somebody else's. */
  credit: string | null;
  wantsThread: boolean;
  /** What a sighting brought along; null when it was asked with words alone. */
  sighting: CarriedSighting | null;
  openedAt: Date;
  closesAt: Date;
  /** How long voting takes, as the club had set it when the case was opened. */
  openForMs: number;
  /** How often it was closed so far: each closing is told once. */
  closings: number;
  closed: Closed | null;
  undo: Undo | null;
  messageId: string | null;
  threadId: string | null;
  ballotMessageId: string | null;
};

export type Ballot = { memberId: string; verdict: Verdict; entry: string | null; isCurator: boolean };

/** A curator may take the last act back for this long. */
export const UNDO_WITHIN_MS = 10 * 60_000;

export type Curator = { id: string; name: string };
export type Settlement = { verdict: Verdict; entry: string | null; reason: string };
export type Moved =
  { kind: 'moved'; opinion: Case } | { kind: 'no'; why: 'closed' | 'open' | 'not-yours' | 'too-late' };

const moved = (opinion: Case): Moved => ({ kind: 'moved', opinion });
const no = (why: Extract<Moved, { kind: 'no' }>['why']): Moved => ({ kind: 'no', why });
const undoOf = ({ closed, closesAt }: Case, now: Date): Undo => ({
  closed,
  closesAtMs: closesAt.getTime(),
  atMs: now.getTime(),
});

/** Why a member may not vote; null when they may. The asker does not vote on their own case. */
export function mayNotVote(opinion: Case, memberId: string): 'closed' | 'asker' | null {
  if (opinion.askerId === memberId) return 'asker';
  return opinion.closed ? 'closed' : null;
}

/** The ballots with one more, which takes the place of the member's earlier one. */
export function withBallot(ballots: readonly Ballot[], ballot: Ballot): Ballot[] {
  return [...ballots.filter(({ memberId }) => memberId !== ballot.memberId), ballot];
}

/** A curator decides, with a reason; a closed case is decided anew. */
export function settle(opinion: Case, by: Curator, { verdict, entry, reason }: Settlement, now: Date): Moved {
  if (opinion.closed?.how === 'withdrawn') return no('closed');
  return moved({
    ...opinion,
    closed: { how: 'settled', verdict, entry, reason, byId: by.id, byName: by.name, atMs: now.getTime() },
    closings: opinion.closings + 1,
    undo: undoOf(opinion, now),
  });
}

/** The time is over: the ballots decide. Nothing happens to a case that is closed or not due. */
export function closeByVote(opinion: Case, verdict: Verdict, entry: string | null, now: Date): Moved {
  if (opinion.closed) return no('closed');
  if (opinion.closesAt.getTime() > now.getTime()) return no('open');
  return moved({
    ...opinion,
    closed: { how: 'by-vote', verdict, entry, reason: null, byId: null, byName: null, atMs: now.getTime() },
    closings: opinion.closings + 1,
    undo: null,
  });
}

/** The asker takes the question back. */
export function withdraw(opinion: Case, memberId: string, now: Date): Moved {
  if (opinion.closed) return no('closed');
  if (opinion.askerId !== memberId) return no('not-yours');
  const none = { verdict: null, entry: null, reason: null, byId: null, byName: null };
  return moved({ ...opinion, closed: { how: 'withdrawn', ...none, atMs: now.getTime() }, undo: null });
}

/** A curator opens a closed case again; the asker may reopen what they withdrew. */
export function reopen(opinion: Case, memberId: string, isCurator: boolean, now: Date): Moved {
  if (!opinion.closed) return no('open');
  const isOwnWithdrawal = opinion.askerId === memberId && opinion.closed.how === 'withdrawn';
  if (!isCurator && !isOwnWithdrawal) return no('not-yours');
  return moved({
    ...opinion,
    closed: null,
    closesAt: new Date(now.getTime() + opinion.openForMs),
    undo: isCurator ? undoOf(opinion, now) : null,
  });
}

/** Takes the last act of a curator back, once and not for long. A case that was overdue meanwhile closes at the next tick. */
export function undo(opinion: Case, now: Date): Moved {
  const last = opinion.undo;
  if (!last || now.getTime() - last.atMs > UNDO_WITHIN_MS) return no('too-late');
  return moved({ ...opinion, closed: last.closed, closesAt: new Date(last.closesAtMs), undo: null });
}

/** Whether the voter was right, as far as that can be said: "can't tell" is neither right nor wrong. */
export function wasRight(verdict: Verdict, truth: Verdict): boolean | null {
  return verdict === 'cannot-tell' || truth === 'cannot-tell' ? null : verdict === truth;
}
