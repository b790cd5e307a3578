import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CHART_INKS } from '../../../../src/drawing/charts/chart-ink.ts';
import { drawnChart, planTimeline, type TimelineData, type TimelineLane, type TimelineState } from '../../../../src/drawing/charts/charts.ts'; // prettier-ignore
import { bar } from '../../../../src/drawing/charts/timeline-symbols.ts';
import type { Theme } from '../../../../src/drawing/ink.ts';
import { altTextOf, type Plate } from '../../../../src/drawing/page.ts';
import type { Painter } from '../../../../src/drawing/painter.ts';
import { painterStage, type PainterStage } from '../painter-stage.ts';
import { FONT_FILES, linesOf, rendered, wordsOf } from '../picture.ts';
import { elementsOf, expectReadable, roomOf, textsOf } from './chart-checks.ts';
import { FISHLESS, lanes, OBSERVATION, on, ONE_DAY, TRANSFERS } from './timeline-data.ts';

const STATES: readonly TimelineState[] = ['done', 'running', 'coming', 'overdue', 'paused', 'restarted'];
const THEMES: readonly Theme[] = ['light', 'dark'];
const EXAMPLES = { observation: OBSERVATION, transfers: TRANSFERS, fishless: FISHLESS, 'one day': ONE_DAY };

/** One lane of one hold. */
const hold = (spans: TimelineLane['spans'], change: Partial<TimelineData> = {}): TimelineData => ({ ...ONE_DAY, now: on(12, 6), ends: on(31), lanes: [{ name: 'Held', kind: 'hold', spans }], ...change }); // prettier-ignore
const step = (windows: NonNullable<TimelineLane['windows']>, now = on(4)): TimelineData => ({ ...ONE_DAY, now, ends: on(31), lanes: [{ name: 'Moved', kind: 'step', spans: [], windows }] }); // prettier-ignore
const window = (day: number, state: TimelineState) => ({ earliest: on(day, 8), planned: on(day, 12), latest: on(day, 20), state }); // prettier-ignore

/** Bars lie between marks that are pushed aside by a little air. */
const AIR = 3;
const todayX = (chart: Plate) => Number(elementsOf(chart, 'line', 'today')[0]?.x1);
/** Pixels a day, and where day 1 begins, from the ticks on the axis. */
function scaleOf(chart: Plate): (day: number) => number {
  const ticks = elementsOf(chart, 'line').filter((line) => line['stroke-width'] === '3' && line.x1 === line.x2 && !line['stroke-dasharray']); // prettier-ignore
  const days = textsOf(chart).flatMap((text) => /^day (\d+)$/.exec(text)?.[1] ?? []).map(Number); // prettier-ignore
  const [x1, x2] = [Number(ticks[0]?.x1), Number(ticks[1]?.x1)];
  const [day1 = 0, day2 = 0] = days;
  return (day) => x1 + ((day - day1) * (x2 - x1)) / (day2 - day1);
}
const placesOf = (chart: Plate, kind: string) => [...chart.svg.matchAll(new RegExp(`<g class="${kind}" transform="translate\\(([\\d.]+) `, 'g'))].map(([, x]) => Number(x)); // prettier-ignore

describe('planTimeline', () => {
  const chart = planTimeline(OBSERVATION);

  it('says what is held and done, today, the dates and the days, and no more', () => {
    expectReadable(chart);
    expect(textsOf(chart).toSorted()).toEqual(
      [
        ...['Observation of the new wrasse', '28 Nov to 17 Jan; today is day 32', 'today, 29 Dec', 'end, 17 Jan'],
        ...['30 clear days', '11 of 30 days counted, restarted 18 Dec', 'not counted', 'running'],
        ...['Feeding watched', 'done, 28 Nov to 12 Dec', 'done'],
        ...['Ammonia at zero', '14 of 14 days counted, done', 'done', 'done'],
        ...['Move to the display', 'coming, 17 Jan to 20 Jan', '17 Jan, coming'],
        ...['sign', 'reading', '28 Nov', 'day 1', '12 Dec', 'day 15', '26 Dec', 'day 29', '9 Jan', 'day 43'],
        ...['6 Dec, day 9, reading: ammonia 0.5 mg/L', '17 Dec, day 20, sign: three white spots on', 'the tail'],
        ...['done', 'running', 'paused', 'not counted', 'coming', 'earliest, planned, latest'],
      ].toSorted(),
    );
  });

  it.each(Object.entries(EXAMPLES))('keeps words readable: %s', (_, data) => {
    for (const theme of THEMES) expectReadable(planTimeline(data, theme));
  });

  it('draws bars, today, windows and marks to one scale', () => {
    const x = scaleOf(chart);
    expect(x(2) - x(1)).toBeGreaterThan(10);
    const [lost] = elementsOf(chart, 'rect', 'bar restarted');
    expect(Math.abs(Number(lost?.x) - x(1))).toBeLessThan(AIR);
    expect(Math.abs(Number(lost?.x) + Number(lost?.width) - x(21))).toBeLessThan(AIR);
    const [running] = elementsOf(chart, 'rect', 'bar running');
    expect(Math.abs(Number(running?.x) + Number(running?.width) - x(51))).toBeLessThan(AIR);
    expect(todayX(chart)).toBeCloseTo(x(32.5), 0);
    expect(placesOf(chart, 'mark sign')[0]).toSatisfy((at: number) => Math.abs(at - x(20.75)) < AIR);
    expect(placesOf(chart, 'window coming')[0]).toBeCloseTo(x(51.5), 0);
    const [, from, to] = /^M([\d.]+) .*H([\d.]+)v/.exec(elementsOf(chart, 'path', 'bracket')[0]?.d ?? '') ?? [];
    expect(Number(to)).toBeCloseTo(x(54), 0);
    expect(Number(from)).toBeLessThan(x(51.5));
  });

  it('fills what has passed of a stretch that is running', () => {
    const [passed] = elementsOf(chart, 'rect', 'passed');
    expect(Number(passed?.x) + Number(passed?.width)).toBeCloseTo(todayX(chart), 0);
    const before = planTimeline(hold([{ from: on(14), to: on(20), state: 'running' }]));
    // One in the key.
    expect(elementsOf(chart, 'rect', 'passed')).toHaveLength(2);
    expect(elementsOf(before, 'rect', 'passed')).toHaveLength(1);
  });

  it('lays lanes below each other and marks below the lanes', () => {
    const y = (words: string) => linesOf(chart).find(({ text }) => text === words)?.y ?? NaN;
    const order = ['30 clear days', 'Feeding watched', 'Ammonia at zero', 'Move to the display', 'sign', 'reading', '28 Nov']; // prettier-ignore
    const heights = order.map(y);
    expect(heights).toEqual(heights.toSorted((one, other) => one - other));
    expect(new Set(heights).size).toBe(order.length);
  });

  it.each<[string, TimelineLane['spans'], string]>([
    ['nothing yet', [{ from: on(20), to: on(30), state: 'coming' }], '10 days, from 17 Dec'],
    ['some', [{ from: on(1), to: on(31), state: 'running' }], '11 of 30 days counted, running'],
    ['all', [{ from: on(1), to: on(11), state: 'done' }], '10 of 10 days counted, done'],
    ['none while paused', [{ from: on(1), to: on(6), state: 'done' }, { from: on(6), to: on(14), state: 'paused' }, { from: on(14), to: on(19), state: 'coming' }], '5 of 10 days counted, paused'],
    ['none before a restart', [{ from: on(1), to: on(10), state: 'restarted' }, { from: on(10), to: on(31), state: 'running' }], '2 of 21 days counted, restarted 7 Dec'],
    ['what was due', [{ from: on(1), to: on(6), state: 'done' }, { from: on(6), to: on(14), state: 'overdue' }], '5 of 5 days counted, overdue'],
    ['whole days where clocks went forward', [{ from: on(1), to: on(10, 23), state: 'done' }], '10 of 10 days counted, done'],
    ['nothing without a date', [], 'no date yet'],
  ])('counts %s', (_, spans, words) => {
    const one = planTimeline(hold(spans));
    expectReadable(one);
    expect(wordsOf(one)).toContain(words);
    expect(altTextOf(one)).toContain(`Held: ${words}`);
  }); // prettier-ignore

  it('takes the days as the plan counts them', () => {
    const data = hold([{ from: on(1), to: on(31), state: 'running' }]);
    const [lane] = data.lanes;
    expect(lane).toBeDefined();
    const counted = planTimeline({ ...data, lanes: data.lanes.map((each) => ({ ...each, counted: { days: 7, needed: 30 } })) }); // prettier-ignore
    expect(textsOf(counted)).toContain('7 of 30 days counted, running');
  });

  it.each<[string, TimelineData, string]>([
    ['the next one', step([window(3, 'done'), window(6, 'coming')]), '1 of 2 done, next 3 Dec, 08:00 to 20:00'],
    ['what is open', step([window(4, 'running')]), 'open now, until 1 Dec, 20:00'],
    ['what is overdue', step([window(2, 'overdue'), window(6, 'coming')]), '0 of 2 done, overdue since 29 Nov, 20:00'],
    ['that all is done', step([window(1, 'done'), window(2, 'done')]), '2 of 2 done'],
    ['the only one', step([window(2, 'done')]), 'done, planned 29 Nov'],
    [
      'what is late before what was put off',
      step([window(2, 'paused'), window(3, 'overdue')]),
      '0 of 2 done, overdue since 30 Nov, 20:00',
    ],
    [
      'what is open before what was put off',
      step([window(2, 'restarted'), window(4, 'running')]),
      '0 of 2 done, open now, until 1 Dec, 20:00',
    ],
    ['what is paused', step([window(2, 'done'), window(6, 'paused')]), '1 of 2 done, paused'],
  ])('says of a step %s', (_, data, words) => {
    const one = planTimeline(data);
    expectReadable(one);
    expect(textsOf(one)).toContain(words);
  });

  it('writes dates and today in the zone it is given', () => {
    const late = hold([{ from: on(1), to: on(31), state: 'running' }], { now: on(12, 23.5) });
    expect(textsOf(planTimeline(late))).toContain('today, 9 Dec');
    expect(textsOf(planTimeline({ ...late, zoneOffsetMinutes: 60 }))).toContain('today, 10 Dec');
    expect(wordsOf(planTimeline({ ...late, zoneOffsetMinutes: -60 }))).toContain('27 Nov to 27 Dec');
  });

  it('says when today is before the plan, and draws no line far outside of it', () => {
    const spans = [{ from: on(1), to: on(31), state: 'coming' as const }];
    expect(wordsOf(planTimeline(hold(spans, { now: on(-2) })))).toContain('begins in 3 days');
    for (const day of [-300, 900]) {
      const far = planTimeline(hold(spans, { now: on(day) }));
      expectReadable(far);
      expect(elementsOf(far, 'line', 'today')).toHaveLength(0);
      expect(textsOf(far).filter((text) => text.startsWith('today,'))).toEqual([]);
    }
    expect(elementsOf(planTimeline(hold(spans, { now: on(33) })), 'line', 'today')).toHaveLength(1);
  });

  it('says that a plan has no end yet', () => {
    const open = planTimeline({ ...OBSERVATION, ends: null });
    expectReadable(open);
    expect(textsOf(open)).toContain('From 28 Nov, no end yet; today is day 32');
    expect(wordsOf(open)).not.toContain('end, ');
  });

  it('counts hours in a day, and years in a decade', () => {
    expect(textsOf(planTimeline(ONE_DAY))).toEqual(expect.arrayContaining(['28 Nov', 'day 1', '06:00', '12:00', '18:00'])); // prettier-ignore
    const decade = planTimeline(hold([{ from: on(1), to: on(3650), state: 'running' }], { ends: null }));
    expectReadable(decade);
    expect(textsOf(decade).filter((text) => /^\d+ [A-Z][a-z]{2} 20\d\d$/.test(text)).length).toBeGreaterThan(2);
  });

  it('draws twelve lanes and names the others', () => {
    const many = planTimeline({ ...OBSERVATION, lanes: lanes(15) });
    expectReadable(many);
    expect(elementsOf(many, 'rect', 'bar coming')).toHaveLength(13); // twelve, and one in the key
    expect(textsOf(many)).toContain('and 3 more: Lane 13, Lane 14, Lane 15');
    expect(altTextOf(many)).toContain('And 3 more: Lane 13, Lane 14, Lane 15.');
    expect(altTextOf(many)).toContain('Lane 12: 7 days, from 9 Dec (coming 9 Dec to 16 Dec).');
    const again = lanes(12).map((lane) => ({ ...lane, spans: [{ from: on(1), to: on(21), state: 'restarted' as const }, { from: on(21), to: on(51), state: 'running' as const }] })); // prettier-ignore
    expect(altTextOf(planTimeline({ ...OBSERVATION, lanes: again }))).toContain('Lane 12: 11 of 30 days counted, restarted 18 Dec.'); // prettier-ignore
    expect(wordsOf(planTimeline({ ...OBSERVATION, lanes: lanes(12) }))).not.toContain('more');
  });

  it('leaves brackets out where windows stand close together', () => {
    const daily = Array.from({ length: 60 }, (_, i) => window(1 + i, i < 20 ? 'done' : 'coming'));
    const close = planTimeline({ ...step(daily), ends: null });
    expectReadable(close);
    expect(elementsOf(close, 'path', 'bracket')).toHaveLength(0);
    expect(placesOf(close, 'window coming')).toHaveLength(41); // forty, and one in the key
    expect(wordsOf(close)).not.toContain('earliest');
    expect(wordsOf(planTimeline(step(daily.filter((_, i) => i % 7 === 0))))).toContain('earliest, planned, latest');
  });

  it('lists what matters most of very many marks', () => {
    const marks = Array.from({ length: 200 }, (_, i) => ({ at: on(1 + i / 4), kind: i === 150 ? ('death' as const) : ('reading' as const), label: `number ${i}` })); // prettier-ignore
    const many = planTimeline({ ...OBSERVATION, marks });
    expectReadable(many);
    expect(wordsOf(many)).toContain('death: number 150');
    expect(textsOf(many)).toContain('and 192 more marks');
    expect(textsOf(many)).toEqual(expect.arrayContaining(['death', 'readings']));
  });

  it('says the same in words', () => {
    const said = altTextOf(chart);
    for (const part of [
      'Chart of a plan: Observation of the new wrasse.',
      '28 Nov 2026 to 17 Jan 2027; today is day 32, 29 Dec 2026.',
      '30 clear days: 11 of 30 days counted, restarted 18 Dec (not counted 28 Nov to 18 Dec; running 18 Dec to 17 Jan).',
      'Feeding watched: done, 28 Nov to 12 Dec.',
      'Move to the display: coming, 17 Jan to 20 Jan (planned 17 Jan, coming).',
      '17 Dec, day 20, sign: three white spots on the tail.',
    ])
      expect(said).toContain(part);
  });
});

describe('states and kinds without colour', () => {
  /** Shape, dash and filling, with every colour the same. */
  const shapeOf = (svg: string) => svg.replace(/#[0-9a-f]{6}/g, '#').replace(/class="[^"]*"/g, '');

  it('give every state of a bar a pattern or outline of its own, and a word', () => {
    const words = STATES.flatMap((state) => textsOf(planTimeline(hold([{ from: on(1), to: on(31), state }]))));
    const room = { left: 100, right: 300, top: 10, bottom: 50 };
    // Halfway, not begun, and over.
    for (const until of [200, 0, 400]) {
      const shapes = STATES.map((state) => shapeOf(bar(room, state, until, CHART_INKS.light)));
      expect(new Set(shapes).size).toBe(STATES.length);
    }
    expect(words).toEqual(expect.arrayContaining(['done', 'running', 'coming', 'overdue', 'paused', 'not counted'])); // prettier-ignore
  });

  it('give every state of a window and every kind of mark a symbol of its own', () => {
    const symbols = (svg: string, kind: string) => [...svg.matchAll(new RegExp(`<g class="${kind} [a-z]+"[^>]*>(.*?)</g>`, 'g'))].map(([, inside = '']) => shapeOf(inside)); // prettier-ignore
    const windows = planTimeline(step(STATES.map((state, i) => window(2 + i * 4, state))));
    expectReadable(windows);
    expect(new Set(symbols(windows.svg, 'window')).size).toBe(STATES.length);
    const kinds = (['sign', 'reading', 'moved', 'death'] as const).map((kind, i) => ({ at: on(3 + i), kind, label: '' })); // prettier-ignore
    const marked = planTimeline({ ...OBSERVATION, marks: kinds });
    expectReadable(marked);
    expect(new Set(symbols(marked.svg, 'mark')).size).toBe(4);
    expect(textsOf(marked)).toEqual(expect.arrayContaining(['sign', 'reading', 'moved', 'death', '2 Dec, day 5, moved'])); // prettier-ignore
  });

  it.each(THEMES)('have every word on the ground of the page: %s', (theme) => {
    const ink = CHART_INKS[theme];
    for (const data of Object.values(EXAMPLES)) {
      const chart = planTimeline(data, theme);
      const fills = new Set([...chart.svg.matchAll(/<text [^>]*fill="(#\w{6})"/g)].map(([, fill = '']) => fill));
      expect([...fills].filter((fill) => fill !== ink.words && fill !== ink.quiet)).toEqual([]);
      // Behind each line there is nothing but letters and the page.
      const { pixels, width } = rendered(chart.svg.replace(/<text[^>]*>[^<]*<\/text>/g, ''));
      const at = (x: number, y: number) => [0, 1, 2].map((part) => (pixels[(Math.round(y) * width + Math.round(x)) * 4 + part] ?? 0).toString(16).padStart(2, '0')).join(''); // prettier-ignore
      const lines = linesOf(chart).filter(({ text }) => !/^(28 Nov|reading|sign|moved|death)/.test(text));
      for (const { text, left, right, top, bottom } of lines.map(roomOf))
        for (const x of [left + 2, (left + right) / 2, right - 2])
          expect(`#${at(x, (top + bottom) / 2)}`, text).toBe(ink.page);
    }
  });
});

describe('what cannot be drawn', () => {
  const never = new Date(NaN);
  it.each<[string, Partial<TimelineData>]>([
    ['no lane', { lanes: [] }],
    ['an end before the beginning', { ends: on(0) }],
    ['a beginning that is none', { begins: never }],
    ['an end that is none', { ends: never }],
    ['a now that is none', { now: never }],
    ['a zone that is none', { zoneOffsetMinutes: NaN }],
    ['a date that is a slip', { begins: new Date('0026-11-01T00:00:00Z') }],
    ['a span that runs backwards', hold([{ from: on(9), to: on(1), state: 'done' }])],
    ['a span to nowhere', hold([{ from: on(9), to: never, state: 'done' }])],
    ['a window planned before it opens', step([{ ...window(4, 'coming'), earliest: on(5) }])],
    ['a window that closes before its time', step([{ ...window(4, 'coming'), latest: on(4, 9) }])],
    ['a window at no time', step([{ ...window(4, 'coming'), planned: never }])],
    ['a mark at no time', { marks: [{ at: never, kind: 'sign', label: '' }] }],
    ['days that are none', { lanes: [{ name: 'a', kind: 'hold', spans: [], counted: { days: NaN, needed: 3 } }] }],
    ['days below zero', { lanes: [{ name: 'a', kind: 'hold', spans: [], counted: { days: -1, needed: 3 } }] }],
    [
      'a slip in a lane that is not drawn',
      { lanes: [...lanes(14), { name: 'a', kind: 'hold', spans: [{ from: never, to: on(3), state: 'done' }] }] },
    ],
  ])('is refused: %s', (_, change) => {
    expect(() => planTimeline({ ...OBSERVATION, ...change })).toThrow(RangeError);
  });

  it('paints words of any signs', () => {
    const name = '</text><script>&\0\ud800 \u202e"漢字漢字漢字' + '\u{1F41F}'.repeat(20) + 'x'.repeat(60);
    const spans = [{ from: on(1), to: on(31), state: 'running' as const, label: name }];
    const chart = planTimeline({ ...hold(spans), title: name, lanes: [{ name, kind: 'hold', spans }], marks: [{ at: on(3), kind: 'sign', label: name }] }); // prettier-ignore
    expectReadable(chart);
    expect(chart.svg).not.toContain('<script');
    expectReadable(planTimeline({ ...hold(spans), title: '', lanes: [{ name: ' \n', kind: 'hold', spans: [] }] }));
  });

  it('stays readable whatever the plan', () => {
    const words = fc.string({ unit: 'binary', maxLength: 70 });
    const day = fc.oneof(fc.double({ min: 1, max: 60, noNaN: true }), fc.integer({ min: -500, max: 9000 }));
    const state = fc.constantFrom(...STATES);
    const span = fc.record({ from: day, length: fc.double({ min: 0, max: 40, noNaN: true }), state, label: words });
    const spanned = span.map(({ from, length, ...rest }) => ({ from: on(from), to: on(from + length), ...rest }));
    const opened = fc.record({ at: day, before: fc.integer({ min: 0, max: 50 }), after: fc.integer({ min: 0, max: 50 }), state }).map(({ at, before, after, state: how }) => ({ earliest: on(at, -before), planned: on(at), latest: on(at, after), state: how })); // prettier-ignore
    const lane = fc.record({ name: words, kind: fc.constantFrom('hold' as const, 'step' as const), spans: fc.array(spanned, { maxLength: 6 }), windows: fc.array(opened, { maxLength: 12 }) }); // prettier-ignore
    const mark = fc.record({ at: day.map((each) => on(each)), kind: fc.constantFrom('sign' as const, 'reading' as const, 'moved' as const, 'death' as const), label: words }); // prettier-ignore
    const data = fc.record({
      title: words,
      now: day.map((each) => on(each)),
      begins: fc.constant(on(1, 15)),
      ends: fc.option(fc.integer({ min: 2, max: 400 }).map((each) => on(each))),
      lanes: fc.array(lane, { minLength: 1, maxLength: 15 }),
      marks: fc.array(mark, { maxLength: 30 }),
      zoneOffsetMinutes: fc.integer({ min: -720, max: 840 }),
    });
    fc.assert(
      fc.property(data, (each) => {
        const chart = planTimeline(each, 'dark');
        expectReadable(chart, false);
        expect(chart.said.join(' ').length).toBeLessThanOrEqual(1000);
      }),
      { numRuns: 60 },
    );
  }, 30_000);
});

describe('the painted timelines', () => {
  let stage: PainterStage;
  let painter: Painter;
  beforeAll(async () => {
    stage = await painterStage();
    painter = stage.painter({ fontFiles: FONT_FILES });
  });
  afterAll(async () => {
    await painter.close();
    stage.remove();
  });

  it.each(Object.entries(EXAMPLES))('are PNG files that say what they show: %s', async (_, data) => {
    for (const theme of THEMES) {
      const { svg, width, alt } = drawnChart(planTimeline(data, theme));
      const png = await painter.paint(svg, width);
      expect([...png.subarray(1, 4)]).toEqual([...Buffer.from('PNG')]);
      expect(png.readUInt32BE(16)).toBe(900);
      expect(png.length).toBeLessThan(200_000);
      expect(alt).toMatch(/^Chart of a plan: /);
      expect(alt.length).toBeLessThanOrEqual(1000);
    }
    expect(planTimeline(data, 'dark').svg).not.toBe(planTimeline(data, 'light').svg);
  });
});
