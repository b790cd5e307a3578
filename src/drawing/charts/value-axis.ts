// A value axis with a few round numbers on the left.
import { scaleLinear } from 'd3-scale';
import { widthOf } from '../letters.ts';
import { SIDE, SMALL } from './chart-sheet.ts';
import { inFigures } from './figures.ts';

export type ValueAxis = {
  /** Where the plot begins, to the right of the numbers. */
  left: number;
  y: (value: number) => number;
  marks: { value: number; words: string }[];
  domain: readonly [number, number];
};

/** From the lowest value at the bottom to the highest at the top; the plot begins at `least` or to the right of it. */
export function valueAxis(domain: readonly [number, number], top: number, bottom: number, least = 0): ValueAxis {
  const count = 5;
  const scale = scaleLinear().domain(domain).range([bottom, top]);
  const format = scale.tickFormat(count);
  const words = (value: number) => (Math.abs(value) >= 1e6 ? inFigures(value) : format(value));
  const marks = scale.ticks(count).map((value) => ({ value, words: words(value) }));
  const widest = Math.max(0, ...marks.map((mark) => widthOf(mark.words, SMALL)));
  return { left: Math.max(least, SIDE + widest + 14), y: (value) => scale(value), marks, domain };
}

/** Where values lie when they are spread evenly from one place to another. */
export function evenly(domain: readonly [number, number], range: readonly [number, number]): (value: number) => number {
  const scale = scaleLinear().domain(domain).range(range);
  return (value) => scale(value);
}
