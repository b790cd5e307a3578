import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { daysAfter, localDate, occurrenceOn } from '../../../src/schedule/local-time.ts';
import { calendarView } from '../../../src/quarantine/calendar.view.ts';
import { fold } from '../../../src/quarantine/fold.ts';
import type { PlanEvent } from '../../../src/quarantine/plan-event.ts';
import { event, lifeCycles, planOf, plans } from './fold-of.ts';
import { quarantineOf } from './quarantine-of.ts';

const HOUR_MS = 3_600_000;

/** The calendar file of a plan, as a general-purpose parser reads it. */
function openedFile(planId: string, zone: string, start: Date, now: Date, more: readonly PlanEvent[] = []) {
  const plan = planOf(planId);
  const quarantine = quarantineOf({ plan: planId, zone, begunAt: start });
  const state = fold(plan, [event(start, { kind: 'started' }), ...more], now, { zone, lifeCycles });
  const file = calendarView(quarantine, plan, state, now).blocks.find((block) => block.kind === 'file');
  const text = file?.kind === 'file' ? file.content : null;
  if (text === null) return { state, entries: [] };
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
  const entries = calendar.getAllSubcomponents('vevent').map((part) => {
    const { uid, summary, startDate } = new ICAL.Event(part);
    return { id: uid, title: summary, at: startDate.toJSDate() };
  });
  return { state, entries };
}

describe('the calendar file of a quarantine', () => {
  // Clocks: Lisbon goes back on 25 October 2026 and forward on 28 March 2027, Chicago back on 1 November 2026.
  test.each([
    ['Europe/Lisbon', '2026-10-20T18:30:00Z', '2026-10-25'],
    ['Europe/Lisbon', '2027-03-10T09:00:00Z', '2027-03-28'],
    ['America/Chicago', '2026-10-15T23:00:00Z', '2026-11-01'],
    ['America/Chicago', '2027-03-01T15:00:00Z', '2027-03-14'],
  ])('of observation in %s from %s has the dates of the plan, across %s', (zone, begun, change) => {
    const start = new Date(begun);
    const { state, entries } = openedFile('observation', zone, start, start);
    const clear = state.holds.find(({ id }) => id === 'clear')!;
    const found = (part: string) => entries.find(({ id }) => id.includes(part))?.at;
    expect(found('hold-clear')).toEqual(clear.endsEarliest);
    expect(found('exit-inspection')).toEqual(state.steps.find(({ id }) => id === 'exit-inspection')!.planned);
    // Thirty local days after the day of the start, at local midnight, whatever the clocks did.
    const last = daysAfter(localDate(start, zone), 30);
    expect(clear.endsOn).toBe(last);
    expect(found('hold-clear')).toEqual(occurrenceOn({ timeOfDay: '00:00', zone }, last).at);

    // A look at 19:00 local time on every day, the day of the change too.
    const looks = entries.filter(({ id }) => id.includes('-look-'));
    const clock = new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit' });
    expect(new Set(looks.map(({ at }) => clock.format(at)))).toEqual(new Set(['19:00']));
    const dates = looks.map(({ at }) => localDate(at, zone));
    expect(new Set(dates).size).toBe(dates.length);
    expect(dates).toContain(change);
    expect(dates.at(-1)).toBe(last);
    // Elapsed time is not the same everywhere: one of the days is an hour longer or shorter.
    const gaps = looks.slice(1).map(({ at }, index) => (at.getTime() - looks[index]!.at.getTime()) / HOUR_MS);
    expect(new Set(gaps).size).toBe(2);
  });

  test('keeps the id of a date that moves', () => {
    const start = new Date('2026-10-20T09:00:00Z');
    const later = new Date('2026-10-30T09:00:00Z');
    const sign = event(later, { kind: 'sign-seen', sign: 'fish-white-spots', effect: 'infectious', urgency: 'soon' });
    const before = openedFile('observation', 'Europe/Lisbon', start, start);
    const after = openedFile('observation', 'Europe/Lisbon', start, later, [sign]);
    const end = (opened: typeof before) => opened.entries.find(({ id }) => id.includes('hold-clear'))!;
    expect(end(after).id).toBe(end(before).id);
    expect(end(after).at > end(before).at).toBe(true);
  });

  test.each(plans.map(({ id }) => id))('of %s opens, and no two entries are one', (id) => {
    const start = new Date('2026-10-20T09:00:00Z');
    const warm = event(start, { kind: 'reading', reading: { parameter: 'temperature', value: 25, unit: '°C' } });
    const { state, entries } = openedFile(id, 'Europe/Lisbon', start, start, [warm]);
    expect(new Set(entries.map((entry) => entry.id)).size).toBe(entries.length);
    const dated = state.steps.filter(({ planned, doneAt }) => planned && !doneAt);
    for (const { planned } of dated) expect(entries.map(({ at }) => at)).toContainEqual(planned);
  });

  test('is not there while nothing has a date, and the answer says so', () => {
    const start = new Date('2026-10-20T09:00:00Z');
    const plan = planOf('copper-bound');
    const state = fold(plan, [], start, { zone: 'Europe/Lisbon', lifeCycles });
    const { blocks } = calendarView(quarantineOf({ plan: plan.id }), plan, state, start);
    expect(blocks.map(({ kind }) => kind)).toEqual(['text', 'text']);
    expect(JSON.stringify(blocks)).toContain('Nothing has a date yet');
  });
});
