import type { Database } from 'better-sqlite3';
import type { OutboxStore } from '../../src/outbox/outbox.store.ts';

/** Where the process is killed. "Inside" is in an open transaction: the row is written and not yet committed. */
export const FAILPOINTS = [
  'inside-firing',
  'after-firing',
  'inside-try',
  'before-send',
  'after-send',
  'inside-mark',
  'after-mark',
] as const;
export type Failpoint = (typeof FAILPOINTS)[number];

/** `before-send:3` kills this process when it comes to that point for the third time; nothing kills it without a plan. */
export function killer(plan: string | undefined) {
  const [point, count] = plan?.split(':') ?? [];
  let left = Number(count ?? 0);
  return (here: Failpoint): void => {
    if (here !== point) return;
    left -= 1;
    // SIGKILL to itself: nothing is flushed, closed or rolled back by the program.
    if (left === 0) process.kill(process.pid, 'SIGKILL');
  };
}
export type Reach = (here: Failpoint) => void;

/** Puts failpoints between a statement and its commit. Temporary triggers leave no trace in the file. */
export function insideTransactions(db: Database, reach: Reach): void {
  db.function('reached', { directOnly: false }, (point) => {
    if (typeof point === 'string') for (const known of FAILPOINTS) if (known === point) reach(known);
    return null;
  });
  db.exec(`
    CREATE TEMP TRIGGER fired AFTER INSERT ON main.outbox BEGIN SELECT reached('inside-firing'); END;
    CREATE TEMP TRIGGER tried AFTER UPDATE OF attempts ON main.outbox BEGIN SELECT reached('inside-try'); END;
    CREATE TEMP TRIGGER marked AFTER UPDATE OF settled_at_ms ON main.outbox BEGIN SELECT reached('inside-mark'); END;
  `);
}

/** Puts failpoints around the sending: a committed try comes before it, the mark after it. */
export const aroundSending = (outbox: OutboxStore, reach: Reach): OutboxStore => ({
  ...outbox,
  tried(id, now) {
    const isWaiting = outbox.tried(id, now);
    reach('before-send');
    return isWaiting;
  },
  sent(id, messageId, now) {
    reach('after-send');
    // By then the transaction around this is committed.
    queueMicrotask(() => reach('after-mark'));
    return outbox.sent(id, messageId, now);
  },
});
