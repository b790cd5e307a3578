import Database from 'better-sqlite3';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { z } from 'zod';
import { outboxStore } from '../../src/outbox/outbox.store.ts';
import { isOver, over, startWorker } from './children.ts';
import { timesDelivered } from './cell.ts';
import { look } from './reminders.ts';
import { scaledClock } from './scaled-time.ts';
import { onStage, until, type Stage } from './stage.ts';

/** What was tried, whether it held, and what was seen. */
export type Check = { what: string; held: boolean; seen: string };

const PATIENCE_MS = 20_000;
/** Two waits of the database, 100 ms each, on a machine that others use too. */
const DEAF_AT_MOST_MS = 300;
/** Longer than the client waits for an answer. */
const HANG_MS = 15_000;
const EX_CONFIG = 78;

const planOf = ({ folder, startedMs, discord: { apiUrl, botId } }: Stage) => ({
  folder,
  startedMs,
  apiUrl,
  botId,
  failpoint: undefined,
});
const file = (folder: string) => new Database(join(folder, 'reef-club.db'), { timeout: 2_000 });

/** Two started by mistake: the second one ends at once, the first one goes on. */
export const secondProcess = (): Promise<Check> =>
  onStage({ reminders: 20, apartMs: 6_000 }, async (stage) => {
    const first = startWorker(planOf(stage));
    await until(() => look(stage.folder).sent > 0, PATIENCE_MS);
    const second = startWorker(planOf(stage));
    await until(() => isOver(second), 5_000);
    second.kill('SIGKILL');
    const { code } = await over(second);
    await until(() => look(stage.folder).sent === 20, PATIENCE_MS);
    first.kill('SIGKILL');
    await over(first);
    const times = [...timesDelivered(await stage.discord.report()).values()];
    return {
      what: 'a second process on the same folder',
      held: code === EX_CONFIG && times.length === 20 && times.every((count) => count === 1),
      seen: `it ended with code ${code}; ${times.length} of 20 came, at most ${Math.max(...times)} time`,
    };
  });

/** Another process holds the write lock for seconds, in the middle of deliveries. */
export const lockedDatabase = (): Promise<Check> =>
  onStage({ reminders: 100, apartMs: 3_000 }, async (stage) => {
    const worker = startWorker(planOf(stage));
    let deafMs = 0;
    await until(() => look(stage.folder).sent >= 10, PATIENCE_MS);
    worker.on('message', (said) => {
      const { data } = z.object({ deafMs: z.number() }).safeParse(said);
      if (data) deafMs = Math.max(deafMs, data.deafMs);
    });
    const holder = file(stage.folder);
    holder.exec('BEGIN IMMEDIATE');
    const before = look(stage.folder).sent;
    await sleep(4_000);
    const during = look(stage.folder).sent - before;
    holder.exec('ROLLBACK');
    holder.close();
    await until(() => look(stage.folder).sent === 100, PATIENCE_MS);
    worker.kill('SIGKILL');
    await over(worker);
    const times = [...timesDelivered(await stage.discord.report()).values()];
    return {
      what: 'the database locked for 4 s by another process',
      held: times.length === 100 && times.every((count) => count === 1) && during === 0 && deafMs < DEAF_AT_MOST_MS,
      seen: `${times.length} of 100 came, at most ${Math.max(...times)} time; deaf for ${deafMs.toFixed(0)} ms at most`,
    };
  });

/** A worker that sleeps through its own delivery, and wakes when the message has its outcome. */
export const lateFinisher = (): Promise<Check> =>
  onStage({ reminders: 1, apartMs: 0, discord: { SLOW_MS: '1500' } }, async (stage) => {
    const worker = startWorker(planOf(stage));
    const heard: unknown[] = [];
    worker.on('message', (said) => heard.push(said));
    const db = file(stage.folder);
    const state = db.prepare('SELECT id, state, message_id FROM outbox');
    const Row = z.object({ id: z.int(), state: z.int(), message_id: z.string().nullable() }).optional();
    await until(() => Row.parse(state.get())?.state === 1, PATIENCE_MS);
    worker.kill('SIGSTOP');
    const { id } = Row.unwrap().parse(state.get());
    const isFirst = outboxStore(db).sent(id, 'the first', scaledClock(stage.startedMs).now());
    await sleep(2_000);
    worker.kill('SIGCONT');
    await sleep(1_500);
    const after = Row.unwrap().parse(state.get());
    db.close();
    worker.kill('SIGKILL');
    await over(worker);
    const told = heard.filter((said) => z.object({ settled: z.string() }).safeParse(said).success).length;
    const answered = (await stage.discord.report()).delivered.length;
    return {
      what: 'a worker stopped in a delivery that is settled meanwhile',
      held: isFirst && after.state === 2 && after.message_id === 'the first' && told === 0 && answered === 1,
      seen: `the outcome stayed "${after.message_id}"; the feature heard of ${told} more; ${answered} message`,
    };
  });

/** Discord takes a message and then says nothing for 15 s: longer than anybody waits for an answer. */
export const hungReply = (): Promise<Check> =>
  onStage({ reminders: 3, apartMs: 500, discord: { SLOW_MS: String(HANG_MS) } }, async (stage) => {
    const worker = startWorker(planOf(stage));
    await until(() => look(stage.folder).sent === 3, HANG_MS + PATIENCE_MS);
    // The late answer itself changes nothing any more.
    await sleep(HANG_MS / 3);
    worker.kill('SIGKILL');
    await over(worker);
    const { delivered, lookUps, ...seen } = await stage.discord.report();
    const times = [...timesDelivered({ ...seen, delivered, lookUps }).values()];
    return {
      what: 'an answer that hangs for 15 s although the message stands',
      held: times.length === 3 && times.every((count) => count === 1),
      seen: `${times.length} of 3 came, at most ${Math.max(...times)} time; ${lookUps} look-ups of the history`,
    };
  });
