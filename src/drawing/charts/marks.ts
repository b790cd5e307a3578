// The marks of charts. Each kind has a shape of its own.
import { round, tag, type Point } from '../svg.ts';
import type { ChartInk } from './chart-ink.ts';
import type { Room } from './chart-sheet.ts';

/** A reading. One of very many is small and has no rim. */
export function dot([x, y]: Point, radius: number, ink: ChartInk): string {
  const rim = radius > 5 ? { stroke: ink.page, 'stroke-width': 2 } : {};
  return tag('circle', { cx: x, cy: y, r: radius, fill: ink.words, ...rim });
}

/** A reading that was left out: a cross. */
export function cross([x, y]: Point, ink: ChartInk): string {
  const d = `M${round(x - 9)} ${round(y - 9)}l18 18m0 -18l-18 18`;
  const stroked = (stroke: string, width: number) => tag('path', { d, fill: 'none', stroke, 'stroke-width': width, 'stroke-linecap': 'round' }); // prettier-ignore
  return tag('g', { class: 'left-out' }, stroked(ink.page, 9) + stroked(ink.quiet, 4));
}

/** How far off a reading may be. */
export function errorBar(x: number, from: number, to: number, cap: number, ink: ChartInk): string {
  const d = `M${round(x - cap)} ${round(from)}h${cap * 2}m${-cap} 0V${round(to)}m${-cap} 0h${cap * 2}`;
  return tag('path', { class: 'error', d, fill: 'none', stroke: ink.quiet, 'stroke-width': 2.5 });
}

/** A dose: a triangle that points up; a stroke where there are too many. */
export function doseMark(x: number, y: number, ink: ChartInk, many: boolean): string {
  if (many) return tag('rect', { class: 'dose', x: x - 1.5, y: y - 22, width: 3, height: 22, fill: ink.dose });
  return tag('path', { class: 'dose', d: `M${round(x - 11)} ${round(y)}h22l-11 -22z`, fill: ink.dose });
}

/** A water change: a hollow diamond; two short strokes, one over the other, where there are too many. */
export function changeMark(x: number, y: number, ink: ChartInk, many: boolean): string {
  if (many) return rule([x, y - 22], [x, y], ink.line, 3, '9 4');
  const d = `M${round(x)} ${round(y - 23)}l11.5 11.5l-11.5 11.5l-11.5 -11.5z`;
  return tag('path', { class: 'change', d, fill: ink.page, stroke: ink.line, 'stroke-width': 3.5 });
}

/** A straight line; `dash` as in SVG. */
export function rule([x1, y1]: Point, [x2, y2]: Point, stroke: string, width = 2, dash?: string): string {
  return tag('line', { x1, y1, x2, y2, stroke, 'stroke-width': width, 'stroke-dasharray': dash });
}

/** The ground of what is aimed at. */
export function ground({ left, right, top, bottom }: Room, ink: ChartInk): string {
  return tag('rect', { class: 'band', x: left, y: top, width: right - left, height: Math.max(0, bottom - top), fill: ink.band }); // prettier-ignore
}

/** An edge of what is aimed at. */
export function edge({ left, right }: Room, y: number, ink: ChartInk): string {
  return rule([left, y], [right, y], ink.bandEdge, 4, '14 9');
}

/** Slanting strokes over a room, cut off at its edges. */
export function hatching({ left, right, top, bottom }: Room, stroke: string): string {
  const height = bottom - top;
  let d = '';
  for (let x = left - height; x < right; x += 22) {
    const [from, to] = [Math.max(x, left), Math.min(x + height, right)];
    if (to > from) d += `M${round(from)} ${round(bottom - (from - x))}L${round(to)} ${round(bottom - (to - x))}`;
  }
  return tag('path', { class: 'hatching', d, fill: 'none', stroke, 'stroke-width': 2.5 });
}
