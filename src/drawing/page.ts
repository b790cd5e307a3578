// Writing on a plate: lines of text, and the frame of the whole picture.
import { PAPERS, type Paper, type Theme } from './ink.ts';
import type { Weight } from './letters.ts';
import { escaped, round, tag } from './svg.ts';

/** A finished picture with what it says in words. */
export type Plate = {
  svg: string;
  width: number;
  height: number;
  /** The sentences of the text that stands in for the picture. */
  said: readonly string[];
};

export type Written = { size: number; weight?: Weight; fill: string; align?: 'start' | 'middle' | 'end' };

/** Lines of text from a first baseline downwards. */
export function writing(lines: readonly string[], x: number, y: number, how: Written): string {
  return lines
    .map((line, i) =>
      tag(
        'text',
        {
          x,
          y: y + i * lineHeight(how.size),
          'font-size': how.size,
          'font-weight': how.weight === 'semibold' ? 600 : 400,
          'text-anchor': how.align === 'start' ? undefined : how.align,
          fill: how.fill,
        },
        escaped(line),
      ),
    )
    .join('');
}

export const lineHeight = (size: number) => Math.round(size * 1.28);

/** The frame of a plate: the paper, then everything on it. */
export function framed(width: number, height: number, theme: Theme, marks: string): string {
  const paper = PAPERS[theme];
  const box = { xmlns: 'http://www.w3.org/2000/svg', viewBox: `0 0 ${width} ${round(height)}`, width, height };
  return tag('svg', { ...box, 'font-family': 'Inter' }, tag('rect', { width, height, fill: paper.page }) + marks);
}

/** A light card for a drawing. Cards stay light in the dark variant, so that every animal keeps its dark outline. */
export function card(x: number, y: number, width: number, height: number, paper: Paper): string {
  return tag('rect', { x, y, width, height, rx: 14, fill: paper.card, stroke: paper.rule, 'stroke-width': 2 });
}

/** What a plate says, in words, for people who do not see it: at most 1000 characters, cut at a word. */
export function altTextOf(plate: Plate): string {
  const whole = plate.said.join(' ');
  if (whole.length <= 1000) return whole;
  return `${whole.slice(0, 998).replace(/\s+\S*$/, '')} …`;
}
