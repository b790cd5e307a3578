// A line of steps with words at its levels, evenly thinned out where they are narrow.
import { curveStepAfter, line as pathOf } from 'd3-shape';
import { widthOf } from '../letters.ts';
import { tag, upTo, type Point } from '../svg.ts';
import { SMALL, touch, type ChartSheet, type Room, type Spot } from './chart-sheet.ts';

export type Level = { left: number; right: number; y: number; words: string };
export type Side = 'above' | 'below';
/** Levels with the side that their words stand on. */
export type Labelled = { levels: readonly Level[]; side: Side };

const THINNINGS = [1, 2, 3, 4, 5, 7, 10, 14, 20, 30, 50, 100];

/** Draws the line and keeps words off it. */
export function drawSteps(sheet: ChartSheet, levels: readonly Level[]): void {
  const corners = levels.flatMap(({ left, right, y }): Point[] => [[left, y], [right, y]]); // prettier-ignore
  const path = pathOf<Point>(([x]) => x, ([, y]) => y).curve(curveStepAfter); // prettier-ignore
  const d = path(corners) ?? '';
  const look = { fill: 'none', stroke: sheet.ink.line, 'stroke-width': 7, 'stroke-linejoin': 'round' };
  sheet.draw(tag('path', { class: 'steps', d, ...look }));
  for (const { left, right, y } of levels) {
    const inset = Math.min(8, (right - left) / 3);
    sheet.keepFree({ left: left + inset, right: right - inset, top: y - 8, bottom: y + 8 });
  }
}

/** Words at the first and the last level. */
export function labelEnds(sheet: ChartSheet, { levels, side }: Labelled, room: Room): void {
  const other: Side = side === 'above' ? 'below' : 'above';
  for (const index of new Set([levels.length - 1, 0])) {
    const near = spotsAt(levels, index, room, side, 0);
    const beyond = side === 'above' ? spotsAt(levels, index, room, other, 0) : [];
    const lifted = [14, 28, 42].flatMap((lift) => spotsAt(levels, index, room, side, lift));
    sheet.writeIfFree(levels[index]?.words ?? '', [...near, ...beyond, ...lifted], room, styleOf(sheet, side));
  }
}

/** Words at the levels between: at all of them, or at every second, third …, counted back from the last. */
export function labelBetween(sheet: ChartSheet, sets: readonly Labelled[], room: Room): void {
  const count = sets[0]?.levels.length ?? 0;
  for (const every of THINNINGS) {
    const indices = upTo(count).filter((index) => index > 0 && index < count - 1 && (count - 1 - index) % every === 0);
    const found = indices.map((index) => allFree(sheet, sets, index, room));
    // The level beside the first one may stay without words.
    if (!found.slice(1).every(Boolean) || (found.length === 1 && !found[0])) continue;
    const chosen = found.flatMap((words) => words ?? []);
    if (chosen.some(({ box }, i) => chosen.slice(i + 1).some((other) => touch(box, other.box)))) continue;
    for (const { words, spot, side } of chosen) sheet.writeIfFree(words, [spot], room, styleOf(sheet, side));
    return;
  }
}

/** The places of all words of one level, if every one of them has a place. */
function allFree(sheet: ChartSheet, sets: readonly Labelled[], index: number, room: Room) {
  const found = sets.flatMap(({ levels, side }) => {
    const words = levels[index]?.words ?? '';
    const free = sheet.freeSpot(words, spotsAt(levels, index, room, side, 0), room, styleOf(sheet, side));
    return free ? [{ ...free, words, side }] : [];
  });
  return found.length === sets.length ? found : undefined;
}

const styleOf = ({ ink }: ChartSheet, side: Side) =>
  side === 'above' ? ({ weight: 'semibold', fill: ink.words } as const) : ({ fill: ink.quiet } as const);

/** Words wider than their level reach out to where the line is lower, or, below it, to where it is higher. */
function spotsAt(levels: readonly Level[], index: number, room: Room, side: Side, lift: number): Spot[] {
  const level = levels[index];
  if (!level) return [];
  const { left, right, y, words } = level;
  const width = widthOf(words, SMALL, 'semibold');
  const before = levels[index - 1]?.y ?? y;
  const after = levels[index + 1]?.y ?? y;
  // On the screen a higher level has a smaller y.
  const rising = before > y || after < y;
  const leftwards = side === 'above' ? rising : !rising;
  const middle = width + 8 <= right - left;
  const x = middle ? (left + right) / 2 - width / 2 : leftwards ? right - 4 - width : left + 4;
  const inside = Math.min(Math.max(x, room.left + 6), room.right - 2 - width);
  return [{ x: inside + width / 2, y: side === 'above' ? y - 17 - lift : y + 36 + lift, align: 'middle' }];
}
