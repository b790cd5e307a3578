import type { Database } from 'better-sqlite3';
import { answerBefore, type Meet } from './meet.ts';
import type { MeetStore } from './meet.store.ts';
import type { SwapRing } from './ring.ts';
import type { RingJob, RingJobStore } from './ring-jobs.store.ts';
import type { Planned } from './plan-apart.ts';
import type { Rings } from './rings.worker.ts';

const HOUR_MS = 3_600_000;
/** Each club is planned for once a day, from this hour on, UTC. */
const NIGHT_HOUR = 3;
/** What failed is tried again after so long. */
const AGAIN_AFTER_MS = HOUR_MS;

export type RingPlannerDeps = {
  db: Database;
  jobs: RingJobStore;
  meets: MeetStore;
  rings: Rings;
  /** Carries out what is to be planned and is no proposal; called in the transaction that ends the job. */
  others: Readonly<Record<string, (job: RingJob, now: Date) => Promise<() => void>>>;
};

/** The name of the night that a moment belongs to. */
export const nightOf = (now: Date): string => new Date(now.getTime() - NIGHT_HOUR * HOUR_MS).toISOString().slice(0, 10);

const startOf = (night: string): Date => new Date(Date.parse(`${night}T00:00:00Z`) + NIGHT_HOUR * HOUR_MS);

/**
 * Plans rings while everything else goes on. What is to be planned is a row; the plan is worked out in a thread, and put
 * to the members in the transaction that ends the row. Whatever breaks in between leaves the row, which is planned anew.
 */
export function ringPlanner({ db, jobs, meets, rings, others }: RingPlannerDeps) {
  const underWay = new Map<string, Promise<void>>();
  const notBefore = new Map<string, number>();
  const failed: unknown[] = [];
  const atOnce = <T>(work: () => T): T => db.transaction(work).immediate();

  const meetOf = ({ meetId, guildId }: RingJob): Meet | null =>
    meetId === null ? null : (meets.find(meetId, guildId) ?? null);

  const propose = (job: RingJob, planned: Planned, now: Date): SwapRing[] => {
    const { guildId, key } = job;
    const meet = meetOf(job);
    if (meet && (meet.state !== 'planned' || answerBefore(meet.heldOn) <= now)) return [];
    const isNight = key.startsWith('night/');
    if (isNight && rings.open(guildId).some(({ state }) => state === 'proposed')) return [];
    const proposed = rings.propose(planned, meet, guildId, now);
    if (isNight) rings.leaveOut(planned, guildId);
    return proposed;
  };

  const carryOut = async (job: RingJob, now: Date): Promise<void> => {
    const other = others[job.key.split('/')[0] ?? ''];
    const commit = other ? await other(job, now) : await planFor(job, now);
    atOnce(() => {
      if (jobs.finish(job, now)) commit();
    });
  };
  const planFor = async (job: RingJob, now: Date): Promise<() => void> => {
    const planned = await rings.plan(job.guildId, now, meetOf(job));
    return () => void propose(job, planned, now);
  };

  const start = (job: RingJob, now: Date): void => {
    const name = `${job.guildId}/${job.key}`;
    if (underWay.has(name) || (notBefore.get(name) ?? 0) > now.getTime()) return;
    const work = carryOut(job, now)
      .catch((error: unknown) => {
        notBefore.set(name, now.getTime() + AGAIN_AFTER_MS);
        failed.push(error);
      })
      .finally(() => underWay.delete(name));
    underWay.set(name, work);
  };
  const startAll = (now: Date): void => jobs.wanted().forEach((job) => start(job, now));

  return {
    startAll,
    /** Everything that is being planned now has been put to its members. */
    settled: async (): Promise<void> => void (await Promise.allSettled(underWay.values())),
    /** Plans at once and puts the rings to their members. */
    async proposeNow(guildId: string, now: Date): Promise<{ planned: Planned; proposed: SwapRing[] }> {
      const planned = await rings.plan(guildId, now);
      return { planned, proposed: atOnce(() => rings.propose(planned, null, guildId, now)) };
    },
    /** Thinks of the night’s plan of each club, once a day, and starts whatever is to be planned. */
    planDue(now: Date): void {
      const night = nightOf(now);
      const key = `night/${night}`;
      // A club whose first offers came after three waits for the next night: by then there is more to choose from.
      for (const guildId of jobs.clubsWithout(key, startOf(night))) jobs.want({ guildId, key, meetId: null }, now);
      startAll(now);
      const [error] = failed.splice(0);
      if (error) throw error;
    },
  };
}
export type RingPlanner = ReturnType<typeof ringPlanner>;
