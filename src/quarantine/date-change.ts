import type { Plan } from '../knowledge/plan.ts';
import { DAY_MS } from './fold-moment.ts';
import type { HoldState, PlanState } from './plan-state.ts';

/** What an event did to the dates: how a plan stands with it, against how it would stand without. */
export type DateChange = {
  /** Holds and runs that begin anew. Clear days begin with a local day, the others at once. */
  anew: { name: string; begins: 'now' | 'today' | 'tomorrow' }[];
  /** Holds that go on and end later. */
  added: { name: string; days: number }[];
  /** Holds that are asked for only now. */
  asked: string[];
  /** Everything was done, and is no longer. */
  reopened: boolean;
  endBefore: Date | null;
  endAfter: Date | null;
};

/** Compares the two states, both of one moment. */
export function dateChange(plan: Plan, before: PlanState, after: PlanState, now: Date): DateChange {
  const known = new Set(before.broken.map(keyOf));
  const restarted = new Set(after.broken.filter((each) => !known.has(keyOf(each))).map(({ of }) => of));
  const holdBefore = new Map(before.holds.map((hold) => [hold.id, hold]));
  return {
    anew: [
      ...after.holds
        .filter(({ id }) => restarted.has(id))
        .map((hold) => ({ name: hold.name, begins: beginsOf(hold, now) })),
      ...plan.runs.filter(({ id }) => restarted.has(id)).map(({ title }) => ({ name: title, begins: 'now' as const })),
    ],
    added: after.holds.flatMap((hold) => {
      const was = holdBefore.get(hold.id)?.endsEarliest;
      const days = was && hold.endsEarliest ? Math.round((hold.endsEarliest.getTime() - was.getTime()) / DAY_MS) : 0;
      return days > 0 && !restarted.has(hold.id) ? [{ name: hold.name, days }] : [];
    }),
    asked: after.holds.filter(({ id }) => !holdBefore.has(id)).map(({ name }) => name),
    reopened: before.completed !== null && after.completed === null,
    endBefore: before.endsEarliest,
    endAfter: after.endsEarliest,
  };
}

const keyOf = ({ at, of }: PlanState['broken'][number]) => `${of} ${at.getTime()}`;

const beginsOf = ({ kind, since }: HoldState, now: Date): 'now' | 'today' | 'tomorrow' =>
  kind !== 'clear-days' ? 'now' : since && since <= now ? 'today' : 'tomorrow';
