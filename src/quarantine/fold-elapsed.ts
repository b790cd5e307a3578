import { DAY_MS, hoursAfter, type Moment } from './fold-moment.ts';
import type { Touched } from './fold-rules.ts';

export type Elapsed = {
  counted: number;
  since: Date;
  reached: Date | null;
  end: Date;
  restartedBy: { at: Date; says: string } | null;
};

/** Counts hours, not calendar days: a change of the clocks neither adds nor takes one. */
export function elapsed(from: Moment, neededDays: number, touched: readonly Touched[], now: Date): Elapsed {
  const restart = touched.filter(({ at, rule }) => rule.does === 'restart' && at >= from.at).at(-1);
  const since = restart?.at ?? from.at;
  const end = hoursAfter(since, neededDays * 24);
  const passed = from.projected ? 0 : (now.getTime() - since.getTime()) / DAY_MS;
  return {
    counted: Math.max(0, Math.min(passed, neededDays)),
    since,
    reached: !from.projected && end <= now ? end : null,
    end,
    restartedBy: restart ? { at: restart.at, says: restart.says } : null,
  };
}
