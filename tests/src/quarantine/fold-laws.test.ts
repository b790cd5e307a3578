import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlanEvent } from '../../../src/quarantine/plan-event.ts';
import { day, event, foldOf, holdOf, hour, planOf, plans, started } from './fold-of.ts';

const END = 100;
const MINUTES = 60 * 24 * END;
const at = fc.integer({ min: 1, max: MINUTES });
const what = fc.oneof(
  fc.constantFrom<object>(
    { kind: 'check-in' },
    { kind: 'check-in', appetite: 'none' },
    { kind: 'moved-tank' },
    { kind: 'dose-given' },
    { kind: 'shared-water' },
    { kind: 'animal-added' },
    { kind: 'death', causeKnown: false },
  ),
  fc
    .constantFrom('infectious', 'weak', 'pest', 'fish')
    .map((effect) => ({ kind: 'sign-seen', sign: 'seen', effect, urgency: 'soon' })),
  fc
    .constantFrom(...plans.flatMap(({ steps, runs }) => [...steps, ...runs].map(({ id }) => id)))
    .map((step) => ({ kind: 'step-done', step })),
  fc.double({ min: 0.05, max: 0.3, noNaN: true }).map((value) => ({
    kind: 'reading',
    reading: { parameter: 'copper', value, unit: 'mg/L Cu', form: 'ionic' },
  })),
  fc
    .double({ min: 9, max: 17, noNaN: true })
    .map((value) => ({ kind: 'reading', reading: { parameter: 'salinity', value, unit: 'ppt' } })),
  fc
    .tuple(fc.constantFrom('ammonia', 'ph', 'nitrite', 'chelated'), fc.double({ min: 0, max: 1, noNaN: true }))
    .map(([parameter, share]) => ({
      kind: 'reading',
      reading:
        parameter === 'ph'
          ? { parameter, value: 7.5 + share, unit: 'pH' }
          : parameter === 'ammonia'
            ? { parameter, value: share, unit: 'mg/L NH3-N' }
            : parameter === 'nitrite'
              ? { parameter, value: share * 10, unit: 'mg/L NO2' }
              : { parameter: 'copper', value: share * 3, unit: 'mg/L Cu', form: 'chelated' },
    })),
  fc.double({ min: 22, max: 31, noNaN: true }).map((value) => ({
    kind: 'reading',
    reading: { parameter: 'temperature', value, unit: '°C' },
  })),
);
const history = fc
  .uniqueArray(fc.tuple(at, what), { maxLength: 60, selector: ([minute]) => minute })
  .map((rows) => [started(), ...rows.map(([minute, rest]) => event(hour(minute / 60), rest))]);
const planId = fc.constantFrom(...plans.map(({ id }) => id));
const RUNS = { numRuns: 150 };

/** A life that goes well: daily check-ins and readings, with what else happens strewn in. */
const goodDays = (parameter: 'copper' | 'salinity' | undefined, skipped: ReadonlySet<number>): PlanEvent[] =>
  Array.from({ length: END }, (_, index) => index + 1)
    .filter((each) => !skipped.has(each))
    .flatMap((each) => [
      event(day(each), { kind: 'check-in' }),
      ...(parameter === 'copper'
        ? [event(day(each), { kind: 'reading', reading: { parameter, value: 0.18, unit: 'mg/L Cu', form: 'ionic' } })]
        : []),
      ...(parameter === 'salinity'
        ? [event(day(each), { kind: 'reading', reading: { parameter, value: 11.5, unit: 'ppt' } })]
        : []),
    ]);
const skippedDays = fc.uniqueArray(fc.integer({ min: 1, max: END }), { maxLength: 30 });
const badSigns = fc.array(fc.tuple(at, fc.constantFrom('infectious', 'weak', 'pest', 'fish')), { maxLength: 6 });
const signsOf = (rows: readonly (readonly [number, string])[]) =>
  rows.map(([minute, effect]) =>
    event(hour(minute / 60), { kind: 'sign-seen', sign: 'seen', effect, urgency: 'soon' }),
  );

describe('a fold', () => {
  test('does not care in which order events at different times arrive', () => {
    fc.assert(
      fc.property(planId, history, fc.infiniteStream(fc.nat()), (id, events, keys) => {
        const shuffled = events
          .map((each) => ({ each, key: keys.next().value ?? 0 }))
          .sort((a, b) => a.key - b.key)
          .map(({ each }) => each);
        expect(foldOf(id, shuffled, day(END))).toEqual(foldOf(id, events, day(END)));
      }),
      RUNS,
    );
  });
  test('undoes exactly, and an undoing can be undone', () => {
    fc.assert(
      fc.property(planId, history, at, what, (id, events, minute, rest) => {
        const extra = event(hour(minute / 60), rest);
        const undone = event(day(END), { kind: 'undone', eventId: extra.id });
        const redone = event(day(END), { kind: 'undone', eventId: undone.id });
        const now = day(END);
        expect(foldOf(id, [...events, extra, undone], now)).toEqual(foldOf(id, events, now));
        expect(foldOf(id, [...events, extra, undone, redone], now)).toEqual(foldOf(id, [...events, extra], now));
      }),
      RUNS,
    );
  });
  test('a bad sign never shortens anything', () => {
    fc.assert(
      fc.property(
        planId,
        history,
        skippedDays,
        badSigns,
        fc.integer({ min: 1, max: END }),
        (id, strewn, skipped, bad, now) => {
          const events = [...strewn, ...goodDays(monitored(id), new Set(skipped))];
          const [before, after] = [events, [...events, ...signsOf(bad)]].map((each) => foldOf(id, each, day(now)));
          for (const hold of before?.holds ?? []) {
            const worse = after?.holds.find((each) => each.id === hold.id);
            if (worse) expect(time(worse.endsEarliest)).toBeGreaterThanOrEqual(time(hold.endsEarliest));
          }
          if (after?.completed) expect(time(after.completed)).toBeGreaterThanOrEqual(time(before?.completed ?? null));
        },
      ),
      RUNS,
    );
  });
  test('a warmer reading never makes the next dose due later, nor allows it later', () => {
    const celsius = fc.double({ min: 22, max: 32, noNaN: true });
    const doses = fc.uniqueArray(fc.integer({ min: 1, max: 200 }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(
        fc.constantFrom('praziquantel', 'freshwater-dip'),
        doses,
        celsius,
        celsius,
        celsius,
        fc.integer({ min: 0, max: 300 }),
        (id, hours, before, one, other, at) => {
          const base = [
            started(),
            event(hour(0.5), { kind: 'reading', reading: { parameter: 'temperature', value: before, unit: '°C' } }),
            ...hours.map((each) => event(hour(each), { kind: 'dose-given' })),
          ];
          // The dose that was given last stands before the reading, so that the same turn is compared.
          const seen = hour(Math.max(at, ...hours) + 1);
          const next = (value: number) =>
            foldOf(
              id,
              [...base, event(seen, { kind: 'reading', reading: { parameter: 'temperature', value, unit: '°C' } })],
              hour(600),
            ).steps.find(({ run, doneAt }) => run && !doneAt);
          const [cool, warm] = [next(Math.min(one, other)), next(Math.max(one, other))];
          expect(time(warm?.latest ?? null)).toBeLessThanOrEqual(time(cool?.latest ?? null));
          expect(time(warm?.planned ?? null)).toBeLessThanOrEqual(time(cool?.planned ?? null));
        },
      ),
      RUNS,
    );
  });
  test('more clear days never lengthen a hold of clear days', () => {
    fc.assert(
      fc.property(skippedDays, badSigns, fc.integer({ min: 1, max: END }), at, (skipped, bad, now, minute) => {
        const events = [started(), ...signsOf(bad), ...goodDays(undefined, new Set(skipped))];
        const more = [...events, event(hour(minute / 60), { kind: 'check-in' })];
        const end = (each: readonly PlanEvent[]) => time(holdOf('observation', 'clear', each, day(now)).endsEarliest);
        expect(end(more)).toBeLessThanOrEqual(end(events));
      }),
      RUNS,
    );
  });
  test('a plan is never completed with a step or a hold missing', () => {
    let completed = 0;
    fc.assert(
      fc.property(planId, skippedDays, badSigns, fc.boolean(), (id, skipped, bad, all) => {
        const plan = planOf(id);
        const doings = [...plan.steps, ...plan.runs.flatMap((run) => Array<{ id: string }>(8).fill(run))].slice(
          all ? 0 : 1,
        );
        const acts = doings.map(({ id: step }, index) => event(day(END - 12 + index), { kind: 'step-done', step }));
        const state = foldOf(
          id,
          [started(), ...goodDays(monitored(id), new Set(skipped)), ...signsOf(bad), ...acts],
          day(END),
        );
        const open = [...state.steps.filter(({ doneAt }) => !doneAt), ...state.holds.filter(({ reached }) => !reached)];
        if (state.completed) {
          completed += 1;
          expect(open).toEqual([]);
          const parts = [...state.steps.map(({ doneAt }) => doneAt), ...state.holds.map(({ reached }) => reached)];
          expect(time(state.completed)).toBeGreaterThanOrEqual(Math.max(...parts.map(time)));
        }
      }),
      { numRuns: 400 },
    );
    expect(completed).toBeGreaterThan(20);
  });
});

function monitored(id: string): 'copper' | 'salinity' | undefined {
  if (id === 'hyposalinity') return 'salinity';
  return id === 'copper-ionic' ? 'copper' : undefined;
}

const time = (date: Date | null) => date?.getTime() ?? Infinity;
