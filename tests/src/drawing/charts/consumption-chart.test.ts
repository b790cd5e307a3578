import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { consumptionChart, type ConsumptionData } from '../../../../src/drawing/charts/charts.ts';
import { altTextOf, type Plate } from '../../../../src/drawing/page.ts';
import { linesOf } from '../picture.ts';
import { at, CONSUMPTION } from './chart-data.ts';
import { elementsOf, expectReadable, textsOf } from './chart-checks.ts';

const LONG = 'Total alkalinity of the display and the frag tank in the hall';
const few = (change: Partial<ConsumptionData> = {}): ConsumptionData => ({
  name: 'Calcium',
  unit: 'mg/L',
  readings: [{ at: at(5), value: 420 }],
  kitError: 15,
  doses: [],
  changes: [],
  consumptionInWords: 'Two more readings are needed.',
  ...change,
});

/** Pixels of one unit, read from the numbers on the axis. */
function pixelsPerUnit(chart: Plate): number {
  const marks = linesOf(chart).filter(({ anchor, text }) => anchor === 'end' && /^[\d.]+$/.test(text));
  const [first, last] = [marks[0], marks.at(-1)];
  return ((first?.y ?? 0) - (last?.y ?? 0)) / (Number(last?.text) - Number(first?.text));
}

describe('consumptionChart', () => {
  const chart = consumptionChart(CONSUMPTION);

  it('says what it shows, and no more', () => {
    expectReadable(chart);
    expect(textsOf(chart).toSorted()).toEqual(
      [
        ...['Alkalinity, dKH', 'Uses about 0.3 dKH a day; likely between', '0.22 and 0.38.', 'target 7.5 to 9'],
        ...['6', '7', '8', '9', '2 Nov', '6 Nov', '10 Nov', '14 Nov', '18 Nov'],
        ...['Dose, +1.4 dKH', 'Water change', '↑ 9.6, left out', 'Bars: test kit, ± 0.3 dKH.'],
      ].toSorted(),
    );
  });

  it('has a point for each reading, a cross for what was left out, and a mark for each event', () => {
    expect(elementsOf(chart, 'circle')).toHaveLength(9);
    expect(elementsOf(chart, 'g', 'left-out')).toHaveLength(1);
    expect(elementsOf(chart, 'path', 'dose')).toHaveLength(1);
    expect(elementsOf(chart, 'path', 'change')).toHaveLength(1);
  });

  it('draws values, errors, lines and target to one scale', () => {
    const unit = pixelsPerUnit(chart);
    expect(unit).toBeGreaterThan(50);
    const [first, second] = elementsOf(chart, 'circle').map(({ cy }) => Number(cy));
    expect((second ?? 0) - (first ?? 0)).toBeCloseTo(0.5 * unit, 0);
    const [bar] = elementsOf(chart, 'path', 'error');
    const [, from, to] = /M[\d.]+ ([\d.]+)h18m-9 0V([\d.]+)/.exec(bar?.d ?? '') ?? [];
    expect(Number(to) - Number(from)).toBeCloseTo(0.6 * unit, 0);
    const lines = elementsOf(chart, 'line').filter((line) => line['stroke-width'] === '6');
    expect(lines).toHaveLength(3);
    expect(Number(lines[0]?.y2) - Number(lines[0]?.y1)).toBeCloseTo((8.62 - 6.68) * unit, 0);
    const [band] = elementsOf(chart, 'rect', 'band');
    expect(Number(band?.height)).toBeCloseTo(1.5 * unit, 0);
  });

  it('puts events and the ends of lines at their time', () => {
    const [, x] = /^M([\d.]+)/.exec(elementsOf(chart, 'path', 'dose')[0]?.d ?? '') ?? [];
    const [line] = elementsOf(chart, 'line').filter((each) => each['stroke-width'] === '6');
    expect(Math.abs(Number(x) + 11 - Number(line?.x2))).toBeLessThan(2);
  });

  it('needs no colour: every kind has its own shape or dash', () => {
    const dashes = new Set(elementsOf(chart, 'line').map((line) => line['stroke-dasharray']).filter(Boolean)); // prettier-ignore
    expect(dashes.size).toBe(3);
  });

  it('says the same in words', () => {
    const said = altTextOf(chart);
    for (const part of [
      'Chart of Alkalinity in dKH: 10 readings from 1 Nov 2026 to 19 Nov 2026.',
      'First 8.6, last 6.6, lowest 6.2, highest 8.6.',
      'The test kit may be off by 0.3 either way.',
      'Uses about 0.3 dKH a day; likely between 0.22 and 0.38.',
      'Target 7.5 to 9.',
      '1 dose of +1.4: 7 Nov.',
      '1 water change: 15 Nov.',
      'Left out of the line: 9.6 on 11 Nov 2026.',
    ])
      expect(said).toContain(part);
  });

  it('writes dates in the zone it is given', () => {
    const late = few({ readings: [{ at: new Date('2026-11-12T23:30:00Z'), value: 1 }] });
    expect(altTextOf(consumptionChart(late))).toContain('on 12 Nov 2026');
    expect(altTextOf(consumptionChart({ ...late, zoneOffsetMinutes: 330 }))).toContain('on 13 Nov 2026');
    expect(altTextOf(consumptionChart({ ...late, zoneOffsetMinutes: -1430 }))).toContain('on 11 Nov 2026');
  });

  it('counts in months and years where days would crowd', () => {
    const over = (years: number) => textsOf(consumptionChart(few({ readings: [{ at: at(1), value: 8 }, { at: new Date(Date.UTC(2026 + years, 10, 1)), value: 9 }] }))); // prettier-ignore
    expect(over(1).filter((text) => /^[A-Z][a-z]{2} 20\d\d$/.test(text)).length).toBeGreaterThan(2);
    expect(over(20).filter((text) => /^20\d\d$/.test(text)).length).toBeGreaterThan(2);
  });

  it('draws one reading, equal ones, and all left out', () => {
    expectReadable(consumptionChart(few()));
    expectReadable(
      consumptionChart(few({ kitError: 0, readings: [1, 2, 3].map((day) => ({ at: at(day), value: 0 })) })),
    );
    expectReadable(consumptionChart(few({ readings: [{ at: at(1), value: 5, isOutlier: true }] })));
    expectReadable(consumptionChart(few({ readings: [{ at: at(1), value: 5 }, { at: at(1), value: 5 }] }))); // prettier-ignore
  });

  it('leaves a target out of the plot that is far away, and says it', () => {
    const far = consumptionChart(few({ target: { low: 1000, high: 2000 }, readings: [{ at: at(1), value: 400 }, { at: at(4), value: 410 }] })); // prettier-ignore
    expectReadable(far);
    expect(elementsOf(far, 'rect', 'band')).toHaveLength(0);
    expect(textsOf(far)).toContain('Target: 1,000 to 2,000 mg/L.');
  });

  it('keeps 2,000 readings and events readable', () => {
    const walk = Array.from({ length: 2000 }, (_, i) => ({ at: new Date(Date.UTC(2024, 0, 1) + i * 9 * 3600e3), value: 8 + Math.sin(i / 60) + ((i * 7919) % 100) / 160, isOutlier: i % 400 === 399 })); // prettier-ignore
    const events = walk.map((reading) => ({ at: reading.at, rise: 0.4 }));
    const many = consumptionChart(few({ name: LONG, readings: walk, doses: events, changes: events }));
    expectReadable(many);
    expect(many.svg.length).toBeLessThan(400_000);
    expect(elementsOf(many, 'circle').length).toBeGreaterThan(500);
    expect(textsOf(many)).toContain('Total alkalinity of the display and the frag');
  });

  it.each<[string, Partial<ConsumptionData>]>([
    ['no reading', { readings: [] }],
    ['a value that is none', { readings: [{ at: at(1), value: NaN }] }],
    ['a value beyond all bounds', { readings: [{ at: at(1), value: 1e300 }] }],
    ['a date that is none', { readings: [{ at: new Date('never'), value: 1 }] }],
    ['a date that is a slip', { readings: [{ at: new Date('0026-11-01T00:00:00Z'), value: 1 }] }],
    ['an error below zero', { kitError: -1 }],
    ['a dose that is none', { doses: [{ at: at(1), rise: NaN }] }],
    ['a change at no time', { changes: [{ at: new Date(NaN) }] }],
    ['a line that runs backwards', { line: { from: at(9), to: at(1), valueAtFrom: 1, valueAtTo: 1 } }],
    ['a line to nowhere', { line: [{ from: at(1), to: at(9), valueAtFrom: 1, valueAtTo: -Infinity }] }],
    ['a target upside down', { target: { low: 9, high: 7 } }],
    ['a zone that is none', { zoneOffsetMinutes: NaN }],
  ])('refuses %s', (_, change) => {
    expect(() => consumptionChart(few(change))).toThrow(RangeError);
  });

  it('stays readable whatever was read', () => {
    const value = fc.oneof(fc.double({ min: -1e12, max: 1e12, noNaN: true }), fc.double({ min: 0, max: 20, noNaN: true })); // prettier-ignore
    const when = fc.date({ min: new Date('1950-01-01'), max: new Date('2150-01-01'), noInvalidDate: true });
    const words = fc.string({ unit: 'binary', maxLength: 60 });
    const data = fc.record({
      name: words,
      unit: fc.string({ maxLength: 12 }),
      readings: fc.array(fc.record({ at: when, value, isOutlier: fc.boolean() }), { minLength: 1, maxLength: 80 }),
      kitError: fc.double({ min: 0, max: 50, noNaN: true }),
      doses: fc.array(fc.record({ at: when, rise: value }), { maxLength: 40 }),
      changes: fc.array(fc.record({ at: when }), { maxLength: 5 }),
      target: fc.tuple(value, value).map(([a, b]) => ({ low: Math.min(a, b), high: Math.max(a, b) })),
      consumptionInWords: fc.string({ unit: 'binary', maxLength: 200 }),
    });
    fc.assert(
      fc.property(data, (each) => expectReadable(consumptionChart(each, 'dark'), false)),
      { numRuns: 40 },
    );
  }, 30_000);
});
