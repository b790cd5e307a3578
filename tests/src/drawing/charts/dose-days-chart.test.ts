import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { doseDaysChart, type DoseDaysData } from '../../../../src/drawing/charts/charts.ts';
import { daysOf } from '../../../../src/drawing/charts/dose-days-words.ts';
import { altTextOf } from '../../../../src/drawing/page.ts';
import { DOSE_DAYS } from './chart-data.ts';
import { cornersOf, elementsOf, expectReadable, textsOf } from './chart-checks.ts';

const rise = (days: number, from: number, to: number) => Array.from({ length: days }, (_, i) => from + ((to - from) * (i + 1)) / days); // prettier-ignore
const one = (change: Partial<DoseDaysData['parameters'][number]> = {}): DoseDaysData => ({
  parameters: [{ name: 'Calcium', unit: 'mg/L', start: 380, target: 420, afterEachDay: [400, 420], capPerDay: 20, ...change }], // prettier-ignore
  doses: [{ day: 1, reagent: 'Calcium chloride dihydrate', amountInWords: '11 g' }],
});

describe('doseDaysChart', () => {
  it('says the days, the way, every step and the doses', () => {
    const chart = doseDaysChart(DOSE_DAYS);
    expectReadable(chart);
    expect(textsOf(chart).toSorted()).toEqual(
      [
        'Plan for 5 days, 28 Nov to 2 Dec',
        ...['Alkalinity', '6.6 to 8 dKH, at most 0.5 a day', 'target 8 (7.5 to 9)', '6.6', '6.95', '7.3', '7.65', '8'],
        ...['Calcium', '370 to 420 mg/L, at most 20 a day', 'target 420', '370', '380', '390', '400', '410', '420'],
        ...['now', 'day 1', '2', '3', '4', '5', '28 Nov', '29 Nov', '30 Nov', '1 Dec', '2 Dec'],
        ...['Sodium bicarbonate', '3.15 g a day on days 1 to 4'],
        ...['Calcium chloride dihydrate', '11 g a day on days 1 to 4; 10.8 g on day 5'],
      ].toSorted(),
    );
  });

  it('draws each level at its height and over its day', () => {
    const [, calcium] = elementsOf(doseDaysChart(DOSE_DAYS), 'path', 'steps');
    const corners = cornersOf(`M0 0${calcium?.d ?? ''}`);
    const heights = [...new Set((calcium?.d ?? '').match(/,(-?[\d.]+)/g))].map((text) => Number(text.slice(1)));
    expect(heights).toHaveLength(6);
    const gaps = heights.slice(1).map((height, i) => (heights[i] ?? 0) - height);
    for (const gap of gaps) expect(gap).toBeCloseTo(gaps[0] ?? 0, 0);
    expect(gaps[0]).toBeGreaterThan(10);
    expect(corners.length).toBeGreaterThan(6);
  });

  it('stands each dose under its day', () => {
    const chart = doseDaysChart(DOSE_DAYS);
    const blocks = elementsOf(chart, 'rect', 'block');
    expect(blocks).toHaveLength(9);
    const day = 860 / 6;
    blocks.slice(0, 4).forEach(({ x }, i) => expect(Number(x)).toBeCloseTo(20 + (i + 1) * day + 3, 0));
    expect(Number(blocks[8]?.x)).toBeCloseTo(20 + 5 * day + 3, 0);
  });

  it('writes dates in the zone it is given', () => {
    const late = { firstDay: new Date('2026-11-12T23:30:00Z') };
    expect(textsOf(doseDaysChart({ ...one(), dates: late }))).toContain('12 Nov');
    expect(textsOf(doseDaysChart({ ...one(), dates: { ...late, zoneOffsetMinutes: 60 } }))).toContain('13 Nov');
    expect(textsOf(doseDaysChart({ ...one(), dates: { ...late, zoneOffsetMinutes: -24 * 60 } }))).toContain('11 Nov');
  });

  it('sums up more than fourteen days', () => {
    const parameters = [{ name: 'Alkalinity', unit: 'dKH', start: 5, target: 12, afterEachDay: rise(40, 5, 12), capPerDay: 0.5 }]; // prettier-ignore
    const doses = rise(40, 0, 40).map((day) => ({ day: Math.round(day), reagent: 'Sodium bicarbonate', amountInWords: '3 g' })); // prettier-ignore
    const chart = doseDaysChart({ parameters, doses });
    expectReadable(chart);
    expect(elementsOf(chart, 'rect', 'block')).toHaveLength(1);
    expect(textsOf(chart)).toEqual(expect.arrayContaining(['now 5', '12', '3 g a day on days 1 to 40']));
    expect(textsOf(chart).filter((text) => /^\d+$/.test(text)).length).toBeLessThan(20);
  });

  it('adds up what goes in on the same day', () => {
    const data = one();
    const chart = doseDaysChart({ ...data, doses: [...data.doses, ...data.doses] });
    expect(textsOf(chart)).toContain('11 g and 11 g on day 1');
  });

  it('says the same in words', () => {
    const said = altTextOf(doseDaysChart(DOSE_DAYS));
    expect(said).toContain('Chart of a dose plan for 5 days, 28 Nov 2026 to 2 Dec 2026.');
    expect(said).toContain('Alkalinity: 6.6 to 8 dKH, at most 0.5 a day; after each day 6.95, 7.3, 7.65, 8');
    expect(said).toContain('Calcium chloride dihydrate: 11 g a day on days 1 to 4; 10.8 g on day 5.');
    expect(altTextOf(doseDaysChart(one({ start: 380.12345 })))).toContain('380 to 420');
  });

  it('writes the target like the step that reaches it', () => {
    const texts = textsOf(doseDaysChart(one({ start: 1240, target: 1285, afterEachDay: [1262.5, 1285] })));
    expect(texts).toEqual(expect.arrayContaining(['1,240 to 1,285 mg/L, at most 20 a day', 'target 1,285', '1,285']));
  });

  it('goes down as well as up, and stays level', () => {
    expectReadable(doseDaysChart(one({ start: 480, target: 420, afterEachDay: rise(12, 480, 420) })));
    expectReadable(doseDaysChart(one({ start: 420, afterEachDay: [420, 420, 420] })));
    expectReadable(doseDaysChart(one({ start: 0, target: 0, afterEachDay: [0] })));
  });

  it.each<[string, DoseDaysData]>([
    ['no parameter', { parameters: [], doses: [] }],
    ['no day', { ...one({ afterEachDay: [] }), doses: [] }],
    ['too many days', one({ afterEachDay: rise(401, 0, 420) })],
    ['a value that is none', one({ afterEachDay: [NaN, 420] })],
    ['a start beyond all bounds', one({ start: Infinity })],
    ['a cap that is none', one({ capPerDay: NaN })],
    ['a band upside down', one({ band: { low: 450, high: 400 } })],
    ['a dose after the last day', { ...one(), doses: [{ day: 3, reagent: 'x', amountInWords: '1 g' }] }],
    ['a dose on half a day', { ...one(), doses: [{ day: 1.5, reagent: 'x', amountInWords: '1 g' }] }],
    ['a date that is none', { ...one(), dates: { firstDay: new Date('never') } }],
  ])('refuses %s', (_, data) => {
    expect(() => doseDaysChart(data)).toThrow(RangeError);
  });

  it('paints names of any signs', () => {
    const name = '</text><script>&\0\ud800 \u202e"漢字漢字漢字' + '\u{1F41F}'.repeat(20) + 'x'.repeat(60);
    const chart = doseDaysChart({ ...one({ name, unit: '<b>\n' }), doses: [{ day: 1, reagent: name, amountInWords: name }] }); // prettier-ignore
    expectReadable(chart);
    expect(chart.svg).not.toMatch(/<script|<b>/);
  });

  it('stays readable whatever the plan', () => {
    const value = fc.double({ min: -1e7, max: 1e7, noNaN: true });
    const words = fc.string({ unit: 'binary', maxLength: 60 });
    const parameter = fc.record({ name: words, unit: fc.string({ maxLength: 12 }), start: value, target: value, afterEachDay: fc.array(value, { minLength: 1, maxLength: 30 }), capPerDay: value }); // prettier-ignore
    const doses = fc.array(fc.record({ day: fc.constant(1), reagent: words, amountInWords: words }), { maxLength: 10 });
    fc.assert(
      fc.property(fc.array(parameter, { minLength: 1, maxLength: 4 }), doses, fc.boolean(), (parameters, given, dark) => {
        const dates = dark ? { firstDay: new Date(0) } : undefined;
        expectReadable(doseDaysChart({ parameters, doses: given, ...(dates && { dates }) }, dark ? 'dark' : 'light'), false);
      }),
      { numRuns: 40 },
    ); // prettier-ignore
  }, 30_000);
});

describe('daysOf', () => {
  it.each([
    [[3], 'day 3'],
    [[1, 2], 'days 1 and 2'],
    [[1, 2, 3, 4, 6], 'days 1 to 4 and 6'],
    [[1, 3, 5, 7, 9], 'days 1, 3, 5, 7 and 9'],
    [[1, 3, 5, 7, 9, 11, 12], 'days 1, 3, 5, 7 and 3 more'],
  ])('%j → %s', (days, words) => {
    expect(daysOf(days)).toBe(words);
  });
});
