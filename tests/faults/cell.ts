import { setTimeout as sleep } from 'node:timers/promises';
import { isOver, over, startWorker } from './children.ts';
import { dice, type Dice } from './dice.ts';
import { FAILPOINTS } from './failpoints.ts';
import { integrity, look } from './reminders.ts';
import type { DiscordReport } from './report.ts';
import { NONCE_WINDOW_MS, realMs } from './scaled-time.ts';
import { onStage, type Stage } from './stage.ts';

export type CellPlan = { name: string; kills: boolean; http: boolean; downtime: boolean; seed: number };
export type Cell = {
  name: string;
  lost: number;
  doubled: number;
  kills: number;
  faults: number;
  lookUps: number;
  deduped: number;
  /** Requests that came before Discord allowed them again. */
  early: number;
  integrity: string;
  breaches: string[];
  seconds: number;
};

const REMINDERS = 200;
/** From one reminder to the next, in the program's time. */
const APART_MS = 3_000;
const MOST_KILLS = 35;
/** Up to so many passes of its failpoint a process lives. */
const MOST_PASSES = 8;
const DOWN_AFTER = 1 / 3;
const LOOK_EVERY_MS = 30;
const LONGEST_MS = 120_000;
/** What nobody asked for would come soon after the last. */
const AFTERWARDS_MS = 300;

/** Runs one cell: 200 reminders, a fake Discord, and a process that is started again as often as it is killed. */
export function runCell(plan: CellPlan): Promise<Cell> {
  const apartMs = plan.downtime ? 2 * APART_MS : APART_MS;
  const discord = { SEED: String(plan.seed), HTTP_FAULTS: plan.http ? 'yes' : 'no' };
  return onStage({ reminders: REMINDERS, apartMs, discord }, async (stage) => {
    const kills = await deliverAll(plan, stage);
    const seen = await stage.discord.report();
    const seconds = (Date.now() - stage.startedMs) / 1000;
    return { ...counted(plan.name, seen), kills, integrity: integrity(stage.folder), seconds };
  });
}

/** Starts the worker again and again until every reminder is settled; gives how often it was killed. */
async function deliverAll(plan: CellPlan, { folder, discord, startedMs }: Stage): Promise<number> {
  const chance = dice(plan.seed);
  const isDone = () => {
    const { sent, dead } = look(folder);
    return sent + dead >= REMINDERS || Date.now() - startedMs > LONGEST_MS;
  };
  let kills = 0;
  for (;;) {
    const failpoint = plan.kills && kills < MOST_KILLS ? failpointFrom(chance, kills) : undefined;
    const { apiUrl, botId } = discord;
    const child = startWorker({ folder, apiUrl, botId, startedMs, failpoint });
    while (!isOver(child) && !isDone()) await sleep(LOOK_EVERY_MS);
    if (!isOver(child)) {
      await sleep(AFTERWARDS_MS);
      child.kill('SIGKILL');
      await over(child);
      return kills;
    }
    const { signal, code } = await over(child);
    if (signal !== 'SIGKILL') throw new Error(`the worker ended by itself with code ${code}`);
    kills += 1;
    if (plan.downtime && chance.falls(DOWN_AFTER)) await sleep(realMs(NONCE_WINDOW_MS) * 1.1);
  }
}

/** Every point has its turn; how many passes it takes falls by chance. One turn fires all that waited, so one pass is enough. */
function failpointFrom(chance: Dice, kills: number): string {
  const point = FAILPOINTS[kills % FAILPOINTS.length];
  return `${point}:${point === 'after-firing' ? 1 : chance.upTo(MOST_PASSES)}`;
}

/** How often each reminder came, by its course. */
export function timesDelivered({ delivered }: DiscordReport): Map<string, number> {
  const times = new Map<string, number>();
  for (const { body } of delivered) {
    const course = /1:course-done:(\d+):/.exec(body)?.[1];
    if (course === undefined) throw new Error(`something came that is no reminder: ${body.slice(0, 200)}`);
    times.set(course, (times.get(course) ?? 0) + 1);
  }
  return times;
}

function counted(name: string, seen: DiscordReport): Omit<Cell, 'kills' | 'integrity' | 'seconds'> {
  const times = timesDelivered(seen);
  return {
    name,
    lost: REMINDERS - times.size,
    doubled: [...times.values()].reduce((sum, count) => sum + count - 1, 0),
    faults: seen.faults,
    lookUps: seen.lookUps,
    deduped: seen.deduped,
    early: earlyRequests(seen.requests),
    breaches: seen.breaches,
  };
}

const WAIT_AFTER_429_MS = 100;

/** How many requests came to a route within the time for which it had refused more. */
function earlyRequests(requests: DiscordReport['requests']): number {
  const refusedAt = new Map<string, number>();
  return requests.filter(({ what, status, atMs }) => {
    const last = refusedAt.get(what);
    if (status === 429) refusedAt.set(what, atMs);
    return last !== undefined && realMs(atMs - last) < WAIT_AFTER_429_MS * 0.9;
  }).length;
}
