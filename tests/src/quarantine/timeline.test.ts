import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { planTimeline, type TimelineData } from '../../../src/drawing/charts/charts.ts';
import type { Painter } from '../../../src/drawing/painter.ts';
import { loadKnowledge } from '../../../src/knowledge/knowledge.loader.ts';
import { calendarView } from '../../../src/quarantine/calendar.view.ts';
import { fold } from '../../../src/quarantine/fold.ts';
import type { PlanEvent } from '../../../src/quarantine/plan-event.ts';
import { boardView, planView, todayView } from '../../../src/quarantine/state.view.ts';
import { timelineOf } from '../../../src/quarantine/timeline.ts';
import { painterStage, type PainterStage } from '../drawing/painter-stage.ts';
import { checkIn, checkIns, copper, day, event, hour, lifeCycles, moved, planOf, plans, started } from './fold-of.ts';
import { quarantineOf } from './quarantine-of.ts';

const { knowledge } = loadKnowledge('knowledge');
const signs = new Map(knowledge.signs.map((sign) => [sign.id, sign]));
const base = { signs, sources: new Map(knowledge.sources.map((source) => [source.id, source])) };
const spots = (at: Date) =>
  event(at, { kind: 'sign-seen', sign: 'fish-white-spots', effect: 'infectious', urgency: 'urgent' });

function standing(id: string, events: readonly PlanEvent[], now: Date, zone = 'Europe/Berlin') {
  const plan = planOf(id);
  return {
    quarantine: quarantineOf({ plan: id, zone }),
    plan,
    events,
    state: fold(plan, events, now, { zone, lifeCycles }),
  };
}
function drawnOf(id: string, events: readonly PlanEvent[], now: Date, zone?: string): TimelineData {
  const data = timelineOf(signs, standing(id, events, now, zone), now);
  if (!data) throw new Error('nothing to draw');
  return data;
}
const lane = ({ lanes }: TimelineData, name: string) => lanes.find((each) => each.name === name)!;

describe('the timeline of a quarantine', () => {
  test('shows the days before a sign as lost, and the new count up to its end', () => {
    const data = drawnOf(
      'observation',
      [started(), ...checkIns(1, 19), spots(day(20)), ...checkIns(21, 25)],
      day(25.5),
    );
    const clear = lane(data, 'Days without a sign');
    expect(clear.spans.map(({ state }) => state)).toEqual(['restarted', 'running']);
    // Days are those of Berlin: two hours ahead of UTC in June.
    expect(clear.spans[0]).toMatchObject({
      from: new Date('2026-06-01T22:00:00Z'),
      to: new Date('2026-06-21T22:00:00Z'),
    });
    expect(clear.spans[1]!.to).toEqual(data.ends);
    expect(clear.counted).toEqual({ days: 5, needed: 30 });
    expect(data.marks).toContainEqual({ at: day(20), kind: 'sign', label: 'White spots the size of salt grains' });
    expect(data.zoneOffsetMinutes).toBe(120);
  });

  test('shows every count that was lost, and days on which nobody looked', () => {
    const events = [started(), ...checkIns(1, 9), spots(day(10)), ...checkIns(11, 16)];
    const twice = [...events, event(day(17), { kind: 'animal-added' }), ...checkIns(18, 20), ...checkIns(23, 25)];
    const { spans } = lane(drawnOf('observation', twice, day(25.5)), 'Days without a sign');
    expect(spans.map(({ state }) => state)).toEqual(['restarted', 'restarted', 'done', 'paused', 'running']);
    const [, , , missed] = spans;
    expect((missed!.to.getTime() - missed!.from.getTime()) / 86_400_000).toBe(2);
  });

  test('shows a hold that stopped counting, and readings that mattered and no others', () => {
    const good = [2, 3, 4, 5].map((at) => copper(day(at), 0.17));
    const data = drawnOf('copper-ionic', [started(), copper(day(1), 0.08), ...good, copper(day(5.2), 0.3)], day(8));
    expect(lane(data, 'Time at the copper level').spans.map(({ state }) => state)).toEqual([
      'done',
      'paused',
      'coming',
    ]);
    expect(data.marks).toEqual([{ at: day(5.2), kind: 'reading', label: 'copper 0.3 mg/L Cu' }]);
  });

  test('shows the turns of a run, and that a late one began it anew', () => {
    const late = 64 + 90;
    const data = drawnOf(
      'tank-transfer',
      [started(), moved(hour(64)), moved(hour(late)), moved(hour(late + 64))],
      hour(late + 140),
    );
    const transfers = lane(data, 'Transfer 1 to 4');
    expect(transfers.spans).toEqual([{ from: hour(0), to: hour(late), state: 'restarted' }]);
    expect(transfers.windows!.map(({ state }) => state)).toEqual(['done', 'overdue', 'coming', 'coming']);
    // A move in time stands in the lane; the late one is a mark of its own.
    expect(data.marks.map(({ at, kind }) => [at, kind])).toEqual([[hour(late), 'moved']]);
  });

  test('puts looks that differ by their hour alone into one lane', () => {
    const names = drawnOf('suspected-velvet', [started()], hour(5)).lanes.map(({ name }) => name);
    expect(names).toContain('Look again');
    expect(names.filter((name) => name.startsWith('Look again'))).toHaveLength(1);
  });

  test('is not there before the start', () => {
    for (const { id } of plans) expect(timelineOf(signs, standing(id, [], day(1)), day(1))).toBeNull();
  });

  test('has the dates of the zone', () => {
    expect(drawnOf('observation', [started()], day(1), 'America/Chicago').zoneOffsetMinutes).toBe(-300);
    expect(drawnOf('observation', [started()], day(1), 'Asia/Kathmandu').zoneOffsetMinutes).toBe(345);
  });
});

const what = fc.oneof(
  fc.constantFrom<object>(
    { kind: 'check-in' },
    { kind: 'check-in', appetite: 'none' },
    { kind: 'check-in', signs: [{ sign: 'fish-flashing', effect: 'weak', urgency: 'watch' }] },
    { kind: 'moved-tank' },
    { kind: 'dose-given' },
    { kind: 'shared-water' },
    { kind: 'animal-added' },
    { kind: 'death', causeKnown: false },
  ),
  fc
    .constantFrom('infectious', 'weak', 'pest', 'fish')
    .map((effect) => ({ kind: 'sign-seen', sign: 'nobody-knows-it', effect, urgency: 'emergency' })),
  fc
    .constantFrom(...plans.flatMap(({ steps, runs }) => [...steps, ...runs].map(({ id }) => id)))
    .map((step) => ({ kind: 'step-done', step })),
  fc
    .tuple(fc.constantFrom('ionic', 'chelated', 'amine'), fc.double({ min: 0.05, max: 3, noNaN: true }))
    .map(([form, value]) => ({ kind: 'reading', reading: { parameter: 'copper', value, unit: 'mg/L Cu', form } })),
  fc
    .tuple(fc.constantFrom('temperature', 'salinity'), fc.double({ min: 9, max: 40, noNaN: true }))
    .map(([parameter, value]) => ({
      kind: 'reading',
      reading: { parameter, value, unit: parameter === 'salinity' ? 'ppt' : '°C' },
    })),
);
const history = fc
  .tuple(
    fc.array(fc.tuple(fc.integer({ min: -600, max: 60 * 24 * 100 }), what), { maxLength: 40 }),
    fc.boolean(),
    fc.option(fc.constantFrom('second-tank', 'warm', 'white-spot-warm', 'flukes', 'nothing')),
  )
  .map(([rows, daily, option]) => [
    started({ ...(option ? { option } : {}), copperLabel: { form: 'chelated', low: 1.5, high: 2 } }),
    ...rows.map(([minute, rest]) => event(hour(minute / 60), rest)),
    ...(daily ? checkIns(1, 90) : [checkIn(day(2))]),
  ]);
const zone = fc.constantFrom('Europe/Berlin', 'America/Chicago', 'Pacific/Apia', 'Etc/UTC', 'Asia/Kathmandu');
const minutes = fc.integer({ min: -60, max: 60 * 24 * 120 });

describe('whatever happened in whatever plan', () => {
  let stage: PainterStage;
  let painter: Painter;
  beforeAll(async () => {
    stage = await painterStage();
    painter = stage.painter({ timeLimitMs: 60_000 });
  });
  afterAll(async () => {
    await painter.close();
    stage.remove();
  });

  test('it can be told and drawn', () => {
    let drawn = 0;
    fc.assert(
      fc.property(fc.constantFrom(...plans), history, zone, minutes, ({ id }, events, where, minute) => {
        const now = hour(minute / 60);
        const all = standing(id, events, now, where);
        const { quarantine, plan, state } = all;
        const data = timelineOf(signs, all, now);
        if (data) {
          const { svg } = planTimeline(data);
          expect(svg).not.toMatch(/NaN|undefined|Infinity/);
          drawn += 1;
        }
        const views = [
          todayView(quarantine, plan, state, now),
          planView(base, all, now),
          boardView([all], [all], [all], now),
          calendarView(quarantine, plan, state, now),
        ];
        for (const { blocks } of views) {
          const texts = blocks.flatMap((block) => (block.kind === 'text' ? [block.text.markdown] : []));
          // No figure that is none, no sentence with two full stops.
          for (const words of texts) expect(words).not.toMatch(/NaN|undefined|null|\.\.|\. \.|\b1 days\b|Invalid/);
        }
      }),
      { numRuns: 250 },
    );
    expect(drawn).toBeGreaterThan(120);
  });

  test.each(plans.map(({ id }) => id))('the picture of %s is painted, in light and dark', async (id) => {
    const now = day(12.3);
    const warm = event(hour(1), { kind: 'reading', reading: { parameter: 'temperature', value: 25, unit: '°C' } });
    const label = { copperLabel: { form: 'chelated', low: 1.5, high: 2 } };
    const data = drawnOf(id, [started(label), warm, ...checkIns(1, 8), spots(day(9)), ...checkIns(10, 12)], now);
    for (const theme of ['light', 'dark'] as const) {
      const { svg, width } = planTimeline(data, theme);
      const png = await painter.paint(svg, width);
      expect(png.subarray(1, 4).toString()).toBe('PNG');
      expect(png.readUInt32BE(16)).toBe(width);
    }
  });
});
