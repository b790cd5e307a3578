import { describe, expect, test } from 'vitest';
import { dateChange } from '../../../src/quarantine/date-change.ts';
import type { PlanEvent } from '../../../src/quarantine/plan-event.ts';
import { dateWords } from '../../../src/quarantine/sign.view.ts';
import { checkIns, day, did, foldOf, planOf, sign, started } from './fold-of.ts';

/** Looks every day and does each step when it is due, until all of it is done. */
function observed(): { events: PlanEvent[]; over: Date } {
  const events = [started()];
  for (let days = 1; days <= 60; days += 1) {
    events.push(...checkIns(days, days));
    const now = day(days);
    for (const { kind, id } of [
      ...foldOf('observation', events, now).due,
      ...foldOf('observation', events, now).overdue,
    ])
      if (kind === 'step') events.push(did(now, id));
    if (foldOf('observation', events, now).completed) return { events, over: now };
  }
  throw new Error('observation is never done');
}

describe('an observation that was done', () => {
  const { events, over } = observed();
  const at = (hours: number) => new Date(over.getTime() + hours * 3_600_000);

  test('is done with every step, on day 30', () => {
    const state = foldOf('observation', events, at(1));
    expect(state.completed).not.toBeNull();
    expect(state.steps.filter(({ doneAt }) => doneAt === null)).toEqual([]);
    expect(over).toEqual(day(30));
  });

  test('is open again when a sign that may be catching is seen, and says so', () => {
    const seen = sign(at(5));
    const change = dateChange(
      planOf('observation'),
      foldOf('observation', events, at(6)),
      foldOf('observation', [...events, seen], at(6)),
      at(6),
    );
    expect(change.reopened).toBe(true);
    expect(dateWords(change, { effect: 'infectious', rows: [] }).markdown).toContain(
      'All was done; now it is open again.',
    );
    // The days count anew from the day after, and the look in the dark comes after them.
    const open = foldOf('observation', [...events, seen], at(6));
    expect(open.holds.find(({ id }) => id === 'clear')).toMatchObject({ counted: 0, reached: null });
    expect(open.steps.find(({ id }) => id === 'exit-inspection')).toMatchObject({ doneAt: null, status: 'blocked' });
    // Taken back, it is done as it was.
    const back: PlanEvent = { id: 'back', at: at(7), kind: 'undone', eventId: seen.id };
    expect(foldOf('observation', [...events, seen, back], at(8)).completed).not.toBeNull();
  });

  test('stays done when all is well', () => {
    const now = day(31);
    const well = [...events, ...checkIns(31, 31)];
    const change = dateChange(
      planOf('observation'),
      foldOf('observation', events, now),
      foldOf('observation', well, now),
      now,
    );
    expect(change.reopened).toBe(false);
  });
});
