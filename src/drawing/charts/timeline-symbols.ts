// The shapes of a timeline. Every state and every kind of mark has one of its own, which no colour is needed to tell.
import { round, tag } from '../svg.ts';
import type { ChartInk } from './chart-ink.ts';
import type { Room } from './chart-sheet.ts';
import { rule } from './marks.ts';
import type { TimelineMarkKind, TimelineState } from './timeline-data.ts';

/** Half the width of a symbol. */
export const SYMBOL = 13;

/** A stretch of time. Of one that is running, what has passed by `until` is filled. */
export function bar(room: Room, state: TimelineState, until: number, ink: ChartInk): string {
  const { left, right, top, bottom } = room;
  const box = (more: Record<string, string | number>, to = right) => tag('rect', { class: `bar ${state}`, x: left, y: top, width: Math.max(0, to - left), height: bottom - top, rx: Math.min(6, (right - left) / 3), ...more }); // prettier-ignore
  const outlined = (stroke: string, width: number, dash?: string) => box({ fill: 'none', stroke, 'stroke-width': width, ...(dash && { 'stroke-dasharray': dash }) }); // prettier-ignore
  const ground = tag('rect', { x: left, y: top, width: right - left, height: bottom - top, fill: ink.page });
  switch (state) {
    case 'done':
      return box({ fill: ink.line });
    case 'running': {
      const passed = Math.min(Math.max(until, left), right);
      const fill = tag('rect', { class: 'passed', x: left, y: top, width: passed - left, height: bottom - top, rx: 6, fill: ink.line }); // prettier-ignore
      return ground + (passed > left ? fill : '') + outlined(ink.line, 5);
    }
    case 'coming':
      return ground + outlined(ink.line, 3, '10 7');
    case 'overdue':
      return ground + strokes(room, 16, 1, ink.dose) + strokes(room, 16, -1, ink.dose) + outlined(ink.dose, 5);
    case 'paused':
      return ground + strokes(room, 12, 0, ink.quiet) + outlined(ink.quiet, 3);
    case 'restarted':
      return ground + strokes(room, 16, 1, ink.quiet) + outlined(ink.quiet, 3);
  }
}

/** Parallel strokes, upright or leaning by 45°, cut off at the edges. */
function strokes({ left, right, top, bottom }: Room, apart: number, lean: -1 | 0 | 1, stroke: string): string {
  const reach = Math.abs(lean) * (bottom - top);
  let d = '';
  for (let x = left - reach + apart / 2; x < right; x += apart) {
    const [from, to] = [Math.max(x, left), Math.min(x + reach, right)];
    const at = (across: number) => round(lean < 0 ? left + right - across : across);
    if (to >= from)
      d += `M${at(from)} ${round(bottom - (from - x))}L${at(to)} ${round(lean ? bottom - (to - x) : top)}`;
  }
  return d ? tag('path', { d, fill: 'none', stroke, 'stroke-width': 2.5 }) : '';
}

/** The window of a step: a bracket from the earliest to the latest time, and a tick at the planned one. */
export function bracket([from, planned, to]: readonly [number, number, number], y: number, ink: ChartInk): string {
  const d = `M${round(from)} ${round(y - 14)}v14H${round(to)}v-14`;
  return (
    tag('path', { class: 'bracket', d, fill: 'none', stroke: ink.words, 'stroke-width': 3.5 }) +
    rule([planned, y - 16], [planned, y + 9], ink.words, 3.5)
  );
}

/** How the window of a step stands. */
export function windowSymbol(x: number, y: number, radius: number, state: TimelineState, ink: ChartInk): string {
  const path = (d: string, stroke: string, width: number) => tag('path', { d, fill: 'none', stroke, 'stroke-width': width, 'stroke-linecap': 'round', 'stroke-linejoin': 'round' }); // prettier-ignore
  const disc = (r: number, fill: string, stroke: string) => tag('circle', { r, fill, stroke, 'stroke-width': 4 });
  const shapes: Record<TimelineState, string> = {
    done: disc(11, ink.line, ink.line) + path('M-6 0l4 5l8 -9', ink.page, 4),
    running: disc(11, ink.page, ink.line) + tag('circle', { r: 5, fill: ink.line }),
    coming: disc(11, ink.page, ink.line),
    overdue: tag('path', { d: 'M0 -15L15 0L0 15L-15 0Z', fill: ink.dose }) + path('M0 -7v7m0 6v0.5', ink.page, 4),
    paused: path('M-6 -10v20M6 -10v20', ink.quiet, 6),
    restarted: disc(11, ink.page, ink.quiet) + path('M-7 7l14 -14', ink.quiet, 4),
  };
  return placed(x, y, radius / SYMBOL, `window ${state}`, shapes[state]);
}

/** Something that happened. */
export function markSymbol(x: number, y: number, kind: TimelineMarkKind, ink: ChartInk): string {
  const shapes: Record<TimelineMarkKind, string> = {
    sign: tag('path', { d: 'M0 -13L14 12H-14Z', fill: ink.dose }) + tag('path', { d: 'M0 -4v8m0 4v0.5', stroke: ink.page, 'stroke-width': 3.5, 'stroke-linecap': 'round' }), // prettier-ignore
    reading: tag('circle', { r: 9, fill: ink.words }),
    moved: tag('path', { d: 'M-12 0H11M2 -9L11 0L2 9', fill: 'none', stroke: ink.line, 'stroke-width': 5 }),
    death: tag('path', { d: 'M-10 -10L10 10M10 -10L-10 10', fill: 'none', stroke: ink.words, 'stroke-width': 6 }),
  };
  return placed(x, y, 1, `mark ${kind}`, shapes[kind]);
}

const placed = (x: number, y: number, scale: number, kind: string, shape: string) =>
  tag('g', { class: kind, transform: `translate(${round(x)} ${round(y)})${scale === 1 ? '' : ` scale(${Math.round(scale * 100)}e-2)`}` }, shape); // prettier-ignore
