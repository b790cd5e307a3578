import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  closeByVote,
  mayNotVote,
  reopen,
  settle,
  undo,
  UNDO_WITHIN_MS,
  VERDICTS,
  wasRight,
  withBallot,
  withdraw,
  type Ballot,
  type Case,
  type Moved,
} from '../../../src/opinions/opinion.ts';
import { aCase, after, CORA, HOUR_MS, MINUTE_MS, NOON, OPEN_FOR_MS } from './cases.ts';

const PEST = { verdict: 'pest', entry: 'aiptasia', reason: 'long stalk, clear tips' } as const;
const movedTo = (result: Moved): Case => {
  if (result.kind === 'no') throw new Error(`did not move: ${result.why}`);
  return result.opinion;
};
const settled = (from = aCase(), now = NOON) => movedTo(settle(from, CORA, PEST, now));

test('a case stays open for 48 hours, to the second', () => {
  expect(closeByVote(aCase(), 'pest', null, after(48 * HOUR_MS - 1))).toEqual({ kind: 'no', why: 'open' });
  const closed = movedTo(closeByVote(aCase(), 'pest', 'aiptasia', after(48 * HOUR_MS)));
  expect(closed).toMatchObject({ closed: { how: 'by-vote', verdict: 'pest', entry: 'aiptasia' }, closings: 1 });
});

test('what is closed is not closed again, however late it is', () => {
  const late = after(30 * 24 * HOUR_MS);
  const closed = movedTo(closeByVote(aCase(), 'harmless', null, late));
  expect(closeByVote(closed, 'pest', null, late)).toEqual({ kind: 'no', why: 'closed' });
  expect(withdraw(settled(), 'ana', late)).toEqual({ kind: 'no', why: 'closed' });
});

test('everybody votes but the asker, while the case is open', () => {
  expect(mayNotVote(aCase(), 'ben')).toBeNull();
  expect(mayNotVote(aCase(), 'ana')).toBe('asker');
  expect(mayNotVote(settled(), 'ben')).toBe('closed');
});

test('a member has one ballot, the last one', () => {
  const ballot = fc.record<Ballot>({
    memberId: fc.constantFrom('ben', 'cora', 'dee'),
    verdict: fc.constantFrom(...VERDICTS),
    entry: fc.constantFrom('aiptasia', null),
    isCurator: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(ballot, { minLength: 1 }), (cast) => {
      const kept = cast.reduce<Ballot[]>((ballots, each) => withBallot(ballots, each), []);
      expect(new Set(kept.map(({ memberId }) => memberId)).size).toBe(kept.length);
      for (const each of kept) expect(each).toBe(cast.findLast(({ memberId }) => memberId === each.memberId));
    }),
  );
});

describe('a curator', () => {
  test('settles with a reason, and may decide a closed case anew', () => {
    expect(settled().closed).toMatchObject({ how: 'settled', byName: 'Cora', reason: PEST.reason });
    const anew = movedTo(
      settle(settled(), CORA, { verdict: 'harmless', entry: null, reason: 'a feather duster' }, NOON),
    );
    expect(anew).toMatchObject({ closed: { verdict: 'harmless' }, closings: 2 });
  });

  test('does not settle what the asker took back', () => {
    const withdrawn = movedTo(withdraw(aCase(), 'ana', NOON));
    expect(settle(withdrawn, CORA, PEST, NOON)).toEqual({ kind: 'no', why: 'closed' });
  });

  test('takes the last act back within ten minutes, once', () => {
    const tenMinutes = after(10 * MINUTE_MS);
    expect(UNDO_WITHIN_MS).toBe(10 * MINUTE_MS);
    const undone = movedTo(undo(settled(), tenMinutes));
    expect(undone).toMatchObject({ closed: null, undo: null });
    expect(undone.closesAt).toEqual(aCase().closesAt);
    expect(undo(undone, tenMinutes)).toEqual({ kind: 'no', why: 'too-late' });
    expect(undo(settled(), after(10 * MINUTE_MS + 1))).toEqual({ kind: 'no', why: 'too-late' });
  });

  test('who decided anew and takes it back is where they were', () => {
    const first = settled();
    const second = movedTo(settle(first, CORA, { verdict: 'harmless', entry: null, reason: 'no' }, after(1)));
    expect(movedTo(undo(second, after(2))).closed).toEqual(first.closed);
  });

  test('opens a closed case for another 48 hours', () => {
    const later = after(100 * HOUR_MS);
    const open = movedTo(reopen(settled(), 'cora', true, later));
    expect(open.closed).toBeNull();
    expect(open.closesAt.getTime()).toBe(later.getTime() + OPEN_FOR_MS);
    expect(reopen(aCase(), 'cora', true, later)).toEqual({ kind: 'no', why: 'open' });
  });
});

test('only the asker withdraws, and may open again what they withdrew but not what was decided', () => {
  expect(withdraw(aCase(), 'ben', NOON)).toEqual({ kind: 'no', why: 'not-yours' });
  const withdrawn = movedTo(withdraw(aCase(), 'ana', NOON));
  expect(withdrawn).toMatchObject({ closed: { how: 'withdrawn' }, closings: 0 });
  expect(movedTo(reopen(withdrawn, 'ana', false, NOON)).closed).toBeNull();
  expect(reopen(withdrawn, 'ben', false, NOON)).toEqual({ kind: 'no', why: 'not-yours' });
  expect(reopen(settled(), 'ana', false, NOON)).toEqual({ kind: 'no', why: 'not-yours' });
});

test('a closing is told once: only decisions are counted, and no step lowers the count', () => {
  const steps = fc.constantFrom<(at: Case, now: Date) => Moved>(
    (at, now) => settle(at, CORA, PEST, now),
    (at, now) => closeByVote(at, 'pest', null, now),
    (at, now) => withdraw(at, 'ana', now),
    (at, now) => reopen(at, 'cora', true, now),
    undo,
  );
  fc.assert(
    fc.property(fc.array(fc.tuple(steps, fc.nat(72)), { maxLength: 12 }), (played) => {
      let at = aCase();
      let hours = 0;
      for (const [take, pause] of played) {
        hours += pause;
        const result = take(at, after(hours * HOUR_MS));
        if (result.kind === 'no') continue;
        const isDecision = result.opinion.closings === at.closings + 1;
        if (isDecision) expect(['settled', 'by-vote']).toContain(result.opinion.closed?.how);
        else expect(result.opinion.closings).toBe(at.closings);
        at = result.opinion;
      }
    }),
  );
});

test('"can’t tell" is neither right nor wrong', () => {
  expect(wasRight('pest', 'pest')).toBe(true);
  expect(wasRight('harmless', 'pest')).toBe(false);
  for (const verdict of VERDICTS) {
    expect(wasRight('cannot-tell', verdict)).toBeNull();
    expect(wasRight(verdict, 'cannot-tell')).toBeNull();
  }
});

test('reopened, a case takes the time again that it was opened with', () => {
  const short = aCase({ openForMs: 6 * HOUR_MS });
  const open = movedTo(reopen(settled(short), 'cora', true, after(HOUR_MS)));
  expect(open.closesAt).toEqual(after(7 * HOUR_MS));
});
