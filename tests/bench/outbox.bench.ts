import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import { openDatabase } from '../../src/database/open.ts';
import type { OutboxMessage } from '../../src/outbox/outbox.ts';
import { outboxStore } from '../../src/outbox/outbox.store.ts';
import { outboxWorker } from '../../src/outbox/outbox.worker.ts';
import { median, type Row } from './figures.ts';

const ROWS = 1_000_000;
const DUE = 100;
const ROUNDS = 300;
const COMMITS = 400;
const NOW = new Date('2026-11-25T12:00:00Z');
const LATER_MS = NOW.getTime() + 30 * 86_400_000;

/** The outbox with a million messages that wait for next month: an idle turn, the due ones, and a durable outcome. */
export async function benchOutbox(): Promise<Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'reef-club-bench-'));
  const { db, close } = openDatabase(folder);
  try {
    fill(db);
    return [await idleTurn(db), dueOnes(db), durableOutcome(db)];
  } finally {
    close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** SQLite makes the rows by itself: a million calls would take longer than all that is measured. */
function fill(db: Database): void {
  // Building it need not be durable.
  db.pragma('synchronous = OFF');
  db.prepare(
    `INSERT INTO outbox (key, guild_id, topic, act, channel_id, member_id, view, late, due_at_ms, not_before_ms)
     WITH RECURSIVE numbers (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM numbers WHERE n < ?)
     SELECT 'course/' || n, 'g', 'course/' || n, 'post', 'dm:' || n, n, '{"audience":"everyone","tone":"plain","blocks":[]}',
       'always', due, due FROM (SELECT n, ? + n AS due FROM numbers)`,
  ).run(ROWS, LATER_MS);
  db.pragma('wal_checkpoint(TRUNCATE)');
  db.pragma('synchronous = FULL');
}

/** One turn in which nothing is due, against the one query that has to be asked for that. */
async function idleTurn(db: Database): Promise<Row> {
  const worker = outboxWorker({
    db,
    outbox: outboxStore(db),
    delivery: {
      deliver: () => Promise.reject(new Error('nothing is due')),
      lookUp: () => Promise.reject(new Error('nothing is due')),
    },
    onSettled: () => undefined,
    onFailed: () => undefined,
    now: () => NOW,
    isSteady: () => true,
  });
  const bare = db.prepare(
    'SELECT id FROM outbox WHERE state < 2 AND not_before_ms <= ? ORDER BY not_before_ms LIMIT 20',
  );
  const nowMs = NOW.getTime();
  const floor: number[] = [];
  const ours: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    floor.push(timed(() => bare.all(nowMs)));
    const startedMs = performance.now();
    await worker.deliverPending();
    ours.push(performance.now() - startedMs);
  }
  return row(`turn with nothing due, ${ROWS.toLocaleString('en')} waiting`, { ours, floor, most: 3 });
}

/** A hundred due ones, read and checked, against the rows as SQLite gives them. */
function dueOnes(db: Database): Row {
  const outbox = outboxStore(db);
  const until = new Date(LATER_MS + DUE);
  const bare = db.prepare(
    'SELECT * FROM outbox WHERE state < 2 AND not_before_ms <= ? ORDER BY not_before_ms, id LIMIT ?',
  );
  const floor: number[] = [];
  const ours: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    floor.push(timed(() => bare.all(until.getTime(), DUE)));
    ours.push(timed(() => expectDue(outbox.pending(until, DUE))));
  }
  return row(`${DUE} due ones of these`, { ours, floor, most: 2 });
}

function expectDue(messages: readonly OutboxMessage[]): void {
  if (messages.length !== DUE) throw new Error(`${messages.length} were due, expected ${DUE}`);
}

/** A try and its outcome, each committed to the disk, against the same two statements bare. */
function durableOutcome(db: Database): Row {
  const outbox = outboxStore(db);
  const tried = db.prepare('UPDATE outbox SET state = 1, attempts = 1, first_try_ms = ? WHERE id = ?');
  const sent = db.prepare('UPDATE outbox SET state = 2, message_id = ?, settled_at_ms = ? WHERE id = ?');
  const nowMs = NOW.getTime();
  const floor: number[] = [];
  const ours: number[] = [];
  // In turns, since the disk is at times slower for a while.
  for (let id = 1; id <= 2 * COMMITS; id += 2) {
    floor.push(
      timed(() => {
        tried.run(nowMs, id);
        sent.run('1', nowMs, id);
      }),
    );
    ours.push(
      timed(() => {
        outbox.tried(id + 1, NOW);
        db.transaction(() => outbox.sent(id + 1, '1', NOW)).immediate();
      }),
    );
  }
  return row('a try and its outcome, both on the disk', { ours, floor, most: 1.5 });
}

function timed(act: () => unknown): number {
  const startedMs = performance.now();
  act();
  return performance.now() - startedMs;
}

function row(what: string, measured: { ours: readonly number[]; floor: readonly number[]; most: number }): Row {
  const ours = median(measured.ours);
  const floor = median(measured.floor);
  return {
    what,
    ours: `${ours.toFixed(4)} ms`,
    floor: `${floor.toFixed(4)} ms`,
    ratio: (ours / floor).toFixed(2),
    goal: `<= ${measured.most}`,
    met: ours <= floor * measured.most,
  };
}
