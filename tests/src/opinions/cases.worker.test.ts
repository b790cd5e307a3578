import { describe, expect, test } from 'vitest';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { createIdentifier } from '../../../src/identification/identify.ts';
import { NOTHING_DESCRIBED } from '../../../src/identification/session.ts';
import { createFinder } from '../../../src/knowledge/finder.ts';
import { ballotStore } from '../../../src/opinions/ballot.store.ts';
import { caseStore } from '../../../src/opinions/case.store.ts';
import { casesWorker } from '../../../src/opinions/cases.worker.ts';
import { settle, undo, type Case, type Verdict } from '../../../src/opinions/opinion.ts';
import type { Settled } from '../../../src/outbox/outbox.ts';
import { outboxStore } from '../../../src/outbox/outbox.store.ts';
import { knowledge } from '../../set-up-club.ts';
import { aCase, after, CORA, HOUR_MS, NOON } from './cases.ts';
import { plainPng } from './pictures.ts';

const identifier = createIdentifier(knowledge(), createFinder(knowledge()));

function setUp() {
  const { db } = openTemporaryDatabase();
  const outbox = outboxStore(db);
  const ballots = ballotStore(db);
  const cases = casesWorker({ db, cases: caseStore(db), ballots, outbox, identifier });
  /** Plays the delivery: everything that waits has gone out. */
  const deliver = (now: Date, outcome: (topic: string) => Settled = () => ({ kind: 'sent', messageId: '77' })) => {
    const topics: string[] = [];
    for (let waiting = outbox.pending(now, 1); waiting[0]; waiting = outbox.pending(now, 1)) {
      const [message] = waiting;
      const settled = outcome(message.topic);
      topics.push(message.topic);
      if (settled.kind === 'sent') outbox.sent(message.id, settled.messageId, now);
      else outbox.dead(message.id, settled.why, now);
      cases.settled(message, settled, now);
    }
    return topics;
  };
  const open = (guildId = 'guild'): Case => {
    const { opinion } = cases.open({ ...aCase({ guildId }) }, plainPng());
    deliver(NOON);
    return cases.find(opinion.id, guildId)!;
  };
  const vote = (opinion: Case, memberId: string, verdict: Verdict) =>
    cases.cast(opinion, { memberId, verdict, entry: null, isCurator: false }, 'on-the-ballot', NOON);
  const settled = (opinion: Case, verdict: Verdict) =>
    cases.move(
      opinion.id,
      opinion.guildId,
      (at) => settle(at, CORA, { verdict, entry: null, reason: 'seen' }, NOON),
      NOON,
    );
  const recordOf = (opinion: Case, memberId: string) =>
    ballots.of(opinion.id, opinion.guildId).find((ballot) => ballot.memberId === memberId)?.record;
  return { db, outbox, cases, deliver, open, vote, settled, recordOf };
}

test('a photo, then its thread, then the ballot: each follows from the one before', () => {
  const { cases, deliver, outbox } = setUp();
  const { opinion } = cases.open(aCase(), plainPng());
  expect(outbox.pending(NOON, 9).map(({ topic, file }) => [topic, file?.equals(plainPng())])).toEqual([
    ['opinion/1/opening', true],
  ]);
  expect(deliver(NOON).slice(0, 3)).toEqual(['opinion/1/opening', 'opinion/1/thread', 'opinion/1/ballot']);
  expect(cases.find(opinion.id, 'guild')).toMatchObject({ messageId: '77', threadId: '77', ballotMessageId: '77' });
});

test('the photo is dropped from the database once it is posted', () => {
  const { db, open } = setUp();
  open();
  expect(db.prepare('SELECT count(*) AS n FROM outbox WHERE file IS NOT NULL').get()).toEqual({ n: 0 });
});

test('a photo that could not be posted is no open case, and only its asker hears of it', () => {
  const { cases, deliver, outbox } = setUp();
  const { opinion } = cases.open(aCase(), plainPng());
  deliver(NOON, () => ({ kind: 'dead', why: 'Missing Permissions' }));
  expect(cases.find(opinion.id, 'guild')?.closed?.how).toBe('withdrawn');
  cases.closeDue(after(100 * HOUR_MS));
  expect(outbox.pending(after(100 * HOUR_MS), 9)).toEqual([]);
  expect(outbox.takeOwed('guild', 'ana', NOON)).toHaveLength(1);
});

test('a photo that could only be posted days later starts its 48 hours then', () => {
  const { cases, deliver } = setUp();
  const { opinion } = cases.open(aCase(), plainPng());
  const later = after(60 * HOUR_MS);
  cases.closeDue(later);
  deliver(later);
  expect(cases.find(opinion.id, 'guild')).toMatchObject({ closed: null, closesAt: after(108 * HOUR_MS) });
});

test('closing is one transaction: when it fails half way nothing has happened, and the next turn does all of it', () => {
  const { cases, open, outbox, db } = setUp();
  const opinion = open();
  db.exec(`CREATE TRIGGER cut BEFORE INSERT ON outbox BEGIN SELECT RAISE(ABORT, 'power cut'); END`);
  const due = after(48 * HOUR_MS);
  expect(() => cases.closeDue(due)).toThrow('power cut');
  expect(cases.find(opinion.id, 'guild')?.closed).toBeNull();
  db.exec('DROP TRIGGER cut');
  cases.closeDue(due);
  cases.closeDue(due);
  expect(cases.find(opinion.id, 'guild')?.closed?.how).toBe('by-vote');
  expect(outbox.pending(due, 9).filter(({ topic }) => topic === 'opinion/1/notice')).toHaveLength(1);
});

describe('a case of another server', () => {
  test('is not there', () => {
    const { cases, open, settled } = setUp();
    const opinion = open();
    expect(cases.find(opinion.id, 'another')).toBeUndefined();
    expect(
      cases.move(
        opinion.id,
        'another',
        (at) => settle(at, CORA, { verdict: 'pest', entry: null, reason: 'x' }, NOON),
        NOON,
      ).kind,
    ).toBe('no');
    settled(opinion, 'pest');
    expect(cases.settledCases('another', 9)).toEqual([]);
    expect(cases.settledCases('guild', 9)).toHaveLength(1);
  });

  test('counts in no record of this one', () => {
    const { open, vote, settled, recordOf } = setUp();
    const there = open('another');
    vote(there, 'ben', 'pest');
    settled(there, 'pest');
    const here = open();
    vote(here, 'ben', 'pest');
    expect(recordOf(here, 'ben')).toEqual({ right: 0, wrong: 0 });
  });
});

describe('records', () => {
  test('count who was right in cases that a curator settled, and an undo takes them back', () => {
    const { cases, open, vote, settled, recordOf } = setUp();
    const first = open();
    vote(first, 'ben', 'pest');
    vote(first, 'dee', 'harmless');
    vote(first, 'eve', 'cannot-tell');
    vote(first, 'cora', 'pest');
    settled(first, 'pest');
    const second = open();
    for (const member of ['ben', 'dee', 'eve', 'cora']) vote(second, member, 'pest');
    const records = () => ['ben', 'dee', 'eve', 'cora'].map((member) => recordOf(second, member));
    const none = { right: 0, wrong: 0 };
    // Who settles does not grade their own ballot.
    expect(records()).toEqual([{ right: 1, wrong: 0 }, { right: 0, wrong: 1 }, none, none]);
    settled(first, 'harmless');
    expect(records()).toEqual([{ right: 0, wrong: 1 }, { right: 1, wrong: 0 }, none, none]);
    cases.move(first.id, 'guild', (at) => undo(at, NOON), NOON);
    expect(records()).toEqual([{ right: 1, wrong: 0 }, { right: 0, wrong: 1 }, none, none]);
  });

  test('leave out what only votes closed', () => {
    const { cases, open, vote, recordOf } = setUp();
    const first = open();
    for (const member of ['ben', 'dee', 'eve', 'fay', 'gil', 'hal']) vote(first, member, 'pest');
    cases.closeDue(after(48 * HOUR_MS));
    expect(cases.find(first.id, 'guild')?.closed).toMatchObject({ how: 'by-vote', verdict: 'pest' });
    const second = open();
    vote(second, 'ben', 'pest');
    expect(recordOf(second, 'ben')).toEqual({ right: 0, wrong: 0 });
  });

  test('a voter who was right often moves the call further than a new one', () => {
    const { open, vote, settled, cases } = setUp();
    for (let n = 0; n < 5; n += 1) {
      const past = open();
      vote(past, 'ben', 'pest');
      settled(past, 'pest');
    }
    const [one, other] = [open(), open()];
    vote(one, 'ben', 'harmless');
    vote(other, 'dee', 'harmless');
    expect(cases.show(one).call.harmless).toBeGreaterThan(cases.show(other).call.harmless);
  });
});

test('an opening that comes late starts the time of its own case anew', () => {
  const { cases, deliver } = setUp();
  const { opinion } = cases.open(aCase({ openForMs: 6 * HOUR_MS, closesAt: after(6 * HOUR_MS) }), plainPng());
  deliver(after(60 * HOUR_MS));
  expect(cases.find(opinion.id, 'guild')).toMatchObject({ closed: null, closesAt: after(66 * HOUR_MS) });
});

test('the case of a sighting is found in its own server only', () => {
  const { cases } = setUp();
  cases.open(aCase({ sighting: { id: 7, described: NOTHING_DESCRIBED, answers: [] } }), null);
  expect(cases.ofSighting(7, 'guild')?.sighting?.id).toBe(7);
  expect(cases.ofSighting(7, 'another')).toBeUndefined();
  expect(cases.ofSighting(8, 'guild')).toBeUndefined();
});
