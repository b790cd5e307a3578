import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lightRampChart, type LightRamp } from '../../../../src/drawing/charts/charts.ts';
import { altTextOf } from '../../../../src/drawing/page.ts';
import { linesOf } from '../picture.ts';
import { RAMP } from './chart-data.ts';
import { elementsOf, expectReadable, textsOf } from './chart-checks.ts';

const weeks = (pars: readonly number[], length = 7) => pars.map((par, i) => ({ fromDay: i * length + 1, toDay: (i + 1) * length, par })); // prettier-ignore

describe('lightRampChart', () => {
  const chart = lightRampChart(RAMP);

  it('says the weeks, the percent and the light of each step, and both lines', () => {
    expectReadable(chart);
    expect(textsOf(chart).toSorted()).toEqual(
      [
        ...['Light: 140 to 350 µmol/m²/s', '42 days; percent of the target of 350'],
        ...['0', '100', '200', '300', '400', '500', '600', 'week', '1', '2', '3', '4', '5', '6'],
        ...['40 %', '54 %', '69 %', '83 %', '94 %', '100 %', '140', '190', '240', '290', '330', '350'],
        ...['350: enough for high-light stony corals', 'from 525: experienced keepers only'],
      ].toSorted(),
    );
  });

  it('draws the steps, the dashed line and the hatching to one scale', () => {
    const y = (value: number) => (linesOf(chart).find(({ text, anchor }) => anchor === 'end' && text === String(value))?.y ?? 0) - 9; // prettier-ignore
    const unit = (y(0) - y(600)) / 600;
    const heights = [...new Set(elementsOf(chart, 'path', 'steps')[0]?.d?.match(/,(-?[\d.]+)/g))].map((text) => Number(text.slice(1))); // prettier-ignore
    expect(heights).toHaveLength(6);
    RAMP.steps.forEach(({ par }, i) => expect(heights[i]).toBeCloseTo(y(0) - par * unit, 0));
    const dashed = elementsOf(chart, 'line').filter((line) => line['stroke-dasharray']);
    expect(dashed).toHaveLength(1);
    expect(Number(dashed[0]?.y1)).toBeCloseTo(y(0) - 350 * unit, 0);
    const lowest = Math.max(...(elementsOf(chart, 'path', 'hatching')[0]?.d?.match(/ [\d.]+/g) ?? []).map(Number));
    expect(lowest).toBeCloseTo(y(0) - 525 * unit, 0);
  });

  it('says the same in words', () => {
    const said = altTextOf(chart);
    expect(said).toContain('from 140 to 350 µmol/m²/s, target 350, in 6 steps: 140 (40 %) on days 1 to 7; 190 (54 %)');
    expect(said).toContain('A dashed line at 350: enough for high-light stony corals.');
    expect(said).toContain('Hatched from 525 up: experienced keepers only.');
  });

  it('says nothing of strong light where the ramp stays far below it', () => {
    const low = lightRampChart({ ...RAMP, steps: weeks([60, 80, 100], 3), target: 100 });
    expectReadable(low);
    expect(elementsOf(low, 'path', 'hatching')).toHaveLength(0);
    expect(altTextOf(low)).not.toContain('experienced');
    expect(textsOf(low)).toEqual(expect.arrayContaining(['day', '1', '4', '7', '350: enough for high-light stony corals'])); // prettier-ignore
  });

  it('shows the way back, one step, no light, and a ramp into the hatching', () => {
    for (const pars of [[500, 450, 400, 350], [350], [0], [350, 400, 450, 500, 550, 600]]) {
      const one = lightRampChart({ ...RAMP, steps: weeks(pars), target: pars.at(-1) || 350 });
      expectReadable(one);
      const words = `${textsOf(one).join(' ')} `;
      expect(words).toContain('enough for high-light stony corals');
    }
  });

  it('keeps many steps readable, and says them in words', () => {
    const pars = Array.from({ length: 2000 }, (_, i) => 100 + i / 4);
    const many = lightRampChart({ ...RAMP, steps: weeks(pars, 1), target: 600 });
    expectReadable(many);
    expect(altTextOf(many)).toContain('steps between left out here');
  });

  it.each<[string, Partial<LightRamp>]>([
    ['no step', { steps: [] }],
    ['light that is none', { steps: weeks([100, NaN]) }],
    ['light below zero', { steps: weeks([-1]) }],
    ['days that overlap', { steps: [{ fromDay: 1, toDay: 7, par: 1 }, { fromDay: 7, toDay: 9, par: 2 }] }],
    ['a step that ends before it begins', { steps: [{ fromDay: 7, toDay: 1, par: 1 }] }],
    ['a day that is none', { steps: [{ fromDay: NaN, toDay: 7, par: 1 }] }],
    ['no target', { target: 0 }],
    ['an endless target', { target: Infinity }],
    ['no light that is enough', { enough: NaN }],
  ])('refuses %s', (_, change) => {
    expect(() => lightRampChart({ ...RAMP, ...change })).toThrow(RangeError);
  }); // prettier-ignore

  it('stays readable whatever the steps', () => {
    const pars = fc.array(fc.double({ min: 0, max: 3000, noNaN: true }), { minLength: 1, maxLength: 30 });
    const above = fc.double({ min: 1, max: 3000, noNaN: true });
    fc.assert(
      fc.property(pars, fc.integer({ min: 1, max: 10 }), above, above, above, (each, length, target, enough, cautionFrom) =>
        expectReadable(lightRampChart({ steps: weeks(each, length), target, enough, cautionFrom }), false)),
      { numRuns: 150 },
    ); // prettier-ignore
  }, 30_000);
});
