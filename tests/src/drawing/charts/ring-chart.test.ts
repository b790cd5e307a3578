import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { handOverChart, ringChart } from '../../../../src/drawing/charts/charts.ts';
import { MOST_ROWS } from '../../../../src/drawing/charts/hand-over-chart.ts';
import type { Theme } from '../../../../src/drawing/ink.ts';
import { altTextOf } from '../../../../src/drawing/page.ts';
import { cornersOf, elementsOf, expectReadable, textsOf } from './chart-checks.ts';

const THEMES: readonly Theme[] = ['light', 'dark'];
const FOUR = [
  { name: 'Nell', gives: 'green torch' },
  { name: 'Bo', gives: 'zoanthid' },
  { name: 'Uma', gives: 'toadstool' },
  { name: 'Olu', gives: 'xenia' },
];
const name = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 });
const piece = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 60 });

describe('a ring', () => {
  test.each([2, 3, 4])('of %d says who gives what to whom, in words on the picture and beside it', (count) => {
    const members = FOUR.slice(0, count);
    for (const theme of THEMES) {
      const chart = ringChart({ title: 'A ring', members }, theme);
      expectReadable(chart);
      expect(textsOf(chart)).toEqual(expect.arrayContaining(members.flatMap((each) => [each.name, each.gives])));
      const said = altTextOf(chart);
      members.forEach((each, at) =>
        expect(said).toContain(`${each.name} gives ${members[(at + 1) % count]?.name}: ${each.gives}.`),
      );
    }
  });

  test.each([2, 3, 4])('of %d has each arrow go from the giver to the taker', (count) => {
    const chart = ringChart({ title: 'A ring', members: FOUR.slice(0, count) });
    const circles = elementsOf(chart, 'circle', 'member').map(({ cx, cy }) => [Number(cx), Number(cy)] as const);
    const arrows = elementsOf(chart, 'path', 'gives').map(({ d = '' }) => cornersOf(d));
    expect(arrows).toHaveLength(count);
    const nearest = ([x, y]: readonly [number, number]) => {
      const away = circles.map(([cx, cy]) => Math.hypot(cx - x, cy - y));
      return away.indexOf(Math.min(...away));
    };
    arrows.forEach(([from, to], at) => {
      expect(from && nearest(from)).toBe(at);
      expect(to && nearest(to)).toBe((at + 1) % count);
    });
  });

  test('stays readable with any names and words', () => {
    const members = fc.array(fc.record({ name, gives: piece }), { minLength: 2, maxLength: 4 });
    fc.assert(fc.property(members, (list) => expectReadable(ringChart({ title: 'A ring of swaps', members: list }), false)), { numRuns: 150 }); // prettier-ignore
  });

  test('of one or of five is refused', () => {
    expect(() => ringChart({ title: 'A ring', members: FOUR.slice(0, 1) })).toThrow(RangeError);
    expect(() => ringChart({ title: 'A ring', members: [...FOUR, ...FOUR.slice(0, 1)] })).toThrow(RangeError);
  });
});

describe('a list of hand-overs', () => {
  const rows = FOUR.map((each, at) => ({ from: each.name, to: FOUR[(at + 1) % 4]?.name ?? '', piece: each.gives }));

  test('has a box to tick and an arrow for each, and says the same beside the picture', () => {
    for (const theme of THEMES) {
      const parts = [
        { heading: 'Promised', rows },
        { heading: 'Nothing here', rows: [] },
      ];
      const chart = handOverChart({ title: 'Saturday, the club room', parts }, theme);
      expectReadable(chart);
      expect(elementsOf(chart, 'rect', 'box')).toHaveLength(4);
      expect(elementsOf(chart, 'path', 'gives')).toHaveLength(4);
      expect(textsOf(chart)).not.toContain('Nothing here');
      for (const { from, to, piece: given } of rows)
        expect(altTextOf(chart)).toContain(`${from} gives ${to}: ${given}.`);
    }
  });

  test('says how many more there are than it shows', () => {
    const many = Array.from({ length: MOST_ROWS + 3 }, () => rows).flat().slice(0, MOST_ROWS + 3); // prettier-ignore
    const chart = handOverChart({ title: 'Saturday, the club room', parts: [{ heading: 'Promised', rows: many }] });
    expectReadable(chart, false);
    expect(elementsOf(chart, 'rect', 'box')).toHaveLength(MOST_ROWS);
    expect(textsOf(chart).join(' ')).toContain('and 3 more');
  });

  test('stays readable with any names and words', () => {
    const row = fc.record({ from: name, to: name, piece });
    const list = fc.array(row, { minLength: 1, maxLength: 6 });
    fc.assert(fc.property(list, (all) => expectReadable(handOverChart({ title: 'A swap meet of the club', parts: [{ heading: 'Promised', rows: all }] }), false)), { numRuns: 150 }); // prettier-ignore
  });

  test('of nothing is refused', () => expect(() => handOverChart({ title: 'A meet', parts: [] })).toThrow(RangeError));
});
