// Where the numbered badges of a drawing stand, so that their lines are short and do not cross.
import { tag, type Point } from './svg.ts';
import type { Paper } from './ink.ts';

export type Room = { x: number; y: number; width: number; height: number };

/** Half the width of a badge. */
export const BADGE = 21;
const GAP = 56;

/** The places round a room where a badge may stand. */
export function slotsRound({ x, y, width, height }: Room): Point[] {
  const across = Math.floor(width / GAP);
  const down = Math.floor(height / GAP);
  const slots: Point[] = [];
  for (let i = 0; i <= across; i++) for (const edge of [y, y + height]) slots.push([x + (width * i) / across, edge]);
  for (let i = 1; i < down; i++) for (const edge of [x, x + width]) slots.push([edge, y + (height * i) / down]);
  return slots;
}

const distance = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(ax - bx, ay - by);
const side = ([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point) => (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
const crosses = (a: Point, b: Point, c: Point, d: Point) => side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0; // prettier-ignore

/** How far a point lies from the piece of line between two others. */
function awayFrom(point: Point, from: Point, to: Point): number {
  const length = distance(from, to) || 1;
  const share = ((point[0] - from[0]) * (to[0] - from[0]) + (point[1] - from[1]) * (to[1] - from[1])) / length ** 2;
  const held = Math.min(1, Math.max(0, share));
  return distance(point, [from[0] + (to[0] - from[0]) * held, from[1] + (to[1] - from[1]) * held]);
}

/** One place for each anchor, chosen together; there are at most three, so every choice can be tried. */
export function placeBadges(anchors: readonly Point[], room: Room): Point[] {
  const slots = slotsRound(room);
  let best: { cost: number; places: Point[] } = { cost: Infinity, places: [] };
  const middle: Point = [room.x + room.width / 2, room.y + room.height / 2];
  const extend = (places: Point[], cost: number): void => {
    if (cost >= best.cost) return;
    const anchor = anchors[places.length];
    if (!anchor) {
      best = { cost, places };
      return;
    }
    for (const slot of slots) {
      if (places.includes(slot)) continue;
      let more = distance(anchor, slot);
      // The badge must not hide what it points at.
      if (more < BADGE + 24) more += 500;
      // A badge on the far side of the animal would draw its line right across it.
      if (distance(slot, middle) < distance(anchor, middle)) more += 200;
      places.forEach((place, i) => {
        const other = anchors[i] ?? place;
        if (crosses(anchor, slot, other, place)) more += 900;
        if (distance(slot, place) < GAP * 0.9) more += 400;
        if (awayFrom(slot, other, place) < BADGE + 6 || awayFrom(place, anchor, slot) < BADGE + 6) more += 600;
      });
      extend([...places, slot], cost + more);
    }
  };
  extend([], 0);
  return best.places;
}

/** A line from a badge to its part, which ends in a ring that leaves the part in view. */
export function pointer(from: Point, to: Point, paper: Paper): string {
  const length = distance(from, to) || 1;
  const end: Point = [to[0] + ((from[0] - to[0]) / length) * 11, to[1] + ((from[1] - to[1]) / length) * 11];
  const path = { x1: from[0], y1: from[1], x2: end[0], y2: end[1], 'stroke-linecap': 'round' };
  const ring = { cx: to[0], cy: to[1], r: 11, fill: 'none' };
  return (
    tag('line', { ...path, stroke: paper.card, 'stroke-width': 7 }) +
    tag('line', { ...path, stroke: paper.mark, 'stroke-width': 3 }) +
    tag('circle', { ...ring, stroke: paper.mark, 'stroke-width': 3 })
  );
}

/** A number in a disc; hollow when no still picture can show the feature. */
export function badge([x, y]: Point, number: number, paper: Paper, hollow = false): string {
  const disc = {
    cx: x,
    cy: y,
    r: BADGE,
    fill: hollow ? paper.page : paper.mark,
    stroke: hollow ? paper.quiet : '#ffffff',
    'stroke-width': 2.5,
  };
  const words = {
    x,
    y: y + 9.5,
    'font-size': 27,
    'font-weight': 600,
    'text-anchor': 'middle',
    fill: hollow ? paper.quiet : '#ffffff',
  };
  return tag('circle', disc) + tag('text', words, String(number));
}
