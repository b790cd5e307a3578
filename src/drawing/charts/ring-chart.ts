// A ring of members who swap: who gives what to whom, as circles and arrows with the words beside them.
import type { Theme } from '../ink.ts';
import { widthOf, wrapped } from '../letters.ts';
import { lineHeight, type Plate } from '../page.ts';
import { round, tag, type Point } from '../svg.ts';
import { CHART_WIDTH, chartSheet, SIDE, SMALL, TITLE, type ChartSheet, type Spot } from './chart-sheet.ts';
import { atMost, plainWords } from './figures.ts';

/** Members in the order of the ring; each gives their piece to the next, the last to the first. */
export type RingChart = { title: string; members: readonly { name: string; gives: string }[] };

const RADIUS = 88;
const NAME = 30;
const MIDDLE = CHART_WIDTH / 2;
/** Where the words of an arrow may stand: the first baseline, how wide, and how many lines. */
type Label = Spot & { width: number; grows: 'up' | 'down' | 'both' };
type Layout = { height: number; places: readonly Point[]; labels: readonly Label[] };

const LEFT = SIDE + RADIUS + 10;
const RIGHT = CHART_WIDTH - LEFT;
const LAYOUTS: Record<2 | 3 | 4, Layout> = {
  2: {
    height: 310,
    places: [[LEFT, 175], [RIGHT, 175]], // prettier-ignore
    labels: [
      { x: MIDDLE, y: 112, align: 'middle', width: 440, grows: 'up' },
      { x: MIDDLE, y: 262, align: 'middle', width: 440, grows: 'down' },
    ],
  },
  3: {
    height: 580,
    places: [[MIDDLE, 100], [RIGHT, 450], [LEFT, 450]], // prettier-ignore
    labels: [
      { x: MIDDLE + 190, y: 220, width: CHART_WIDTH - SIDE - (MIDDLE + 190), grows: 'both' },
      { x: MIDDLE, y: 494, align: 'middle', width: 430, grows: 'down' },
      { x: MIDDLE - 190, y: 220, align: 'end', width: MIDDLE - 190 - SIDE, grows: 'both' },
    ],
  },
  4: {
    height: 610,
    places: [[LEFT, 130], [RIGHT, 130], [RIGHT, 490], [LEFT, 490]], // prettier-ignore
    labels: [
      { x: MIDDLE, y: 108, align: 'middle', width: 440, grows: 'up' },
      { x: RIGHT - 28, y: 316, align: 'end', width: 290, grows: 'both' },
      { x: MIDDLE, y: 534, align: 'middle', width: 440, grows: 'down' },
      { x: LEFT + 28, y: 316, width: 290, grows: 'both' },
    ],
  },
};

const sizeOf = (count: number): 2 | 3 | 4 => {
  if (count === 2 || count === 3 || count === 4) return count;
  throw new RangeError(`a ring has two to four members, not ${count}`);
};

/** Draws a ring. @throws RangeError when it has fewer than two members or more than four. */
export function ringChart({ title, members }: RingChart, theme: Theme = 'light'): Plate {
  const { height, places, labels } = LAYOUTS[sizeOf(members.length)];
  const sheet = chartSheet(theme);
  const top = sheet.paragraph(atMost(plainWords(title), 120), 20 + TITLE, { size: TITLE, weight: 'semibold' }) - 14;
  members.forEach(({ gives }, at) => {
    const [from, to] = [places[at], places[(at + 1) % members.length]];
    const label = labels[at];
    if (!from || !to || !label) return;
    // Between two, one arrow goes above the other.
    const bow = members.length === 2 ? 34 * (at === 0 ? -1 : 1) : 0;
    sheet.draw(arrow(sheet, [from[0], from[1] + top + bow], [to[0], to[1] + top + bow], bow));
    writeLabel(sheet, plainWords(gives), { ...label, y: label.y + top });
  });
  members.forEach(({ name }, at) => {
    const place = places[at];
    if (place) member(sheet, plainWords(name), [place[0], place[1] + top]);
  });
  return sheet.plate(top + height, saidOf(members));
}

const saidOf = (members: RingChart['members']): string[] => [
  members.length === 2 ? 'A swap between two.' : `A ring of ${members.length === 3 ? 'three' : 'four'}.`,
  ...members.map(
    ({ name, gives }, at) =>
      `${plainWords(name)} gives ${plainWords(members[(at + 1) % members.length]?.name ?? '')}: ${plainWords(gives)}.`,
  ),
];

function member({ ink, draw, write }: ChartSheet, name: string, [x, y]: Point): void {
  draw(tag('circle', { class: 'member', cx: x, cy: y, r: RADIUS, fill: ink.band, stroke: ink.bandEdge, 'stroke-width': 5 })); // prettier-ignore
  const lines = fitted(name, RADIUS * 2 - 34, NAME, 'semibold', 2);
  const first = y + NAME * 0.35 - ((lines.length - 1) * lineHeight(NAME)) / 2;
  lines.forEach((line, at) =>
    write(line, { x, y: first + at * lineHeight(NAME), align: 'middle' }, { size: NAME, weight: 'semibold' }),
  );
}

/** Words in at most so many lines; what does not fit is cut, and the cut is seen. */
function fitted(words: string, room: number, size: number, weight: 'regular' | 'semibold', most: number): string[] {
  const lines = wrapped(words, room, size, weight);
  if (lines.length <= most) return lines;
  let last = lines[most - 1] ?? '';
  while (last !== '' && widthOf(`${last} …`, size, weight) > room) last = last.slice(0, -1);
  return [...lines.slice(0, most - 1), `${last.replace(/[\s-]+$/, '')} …`];
}

function writeLabel({ write }: ChartSheet, words: string, { x, y, align = 'start', width, grows }: Label): void {
  const lines = fitted(words, width, SMALL, 'regular', grows === 'both' ? 4 : 2);
  const more = (lines.length - 1) * lineHeight(SMALL);
  const first = grows === 'up' ? y - more : grows === 'down' ? y : y - more / 2;
  lines.forEach((line, at) => write(line, { x, y: first + at * lineHeight(SMALL), align }));
}

/** From one circle to another, with its head at the rim of the second. `bow`: how far off the middle line both ends lie. */
function arrow({ ink }: ChartSheet, [x1, y1]: Point, [x2, y2]: Point, bow: number): string {
  const length = Math.hypot(x2 - x1, y2 - y1);
  const [dx, dy] = [(x2 - x1) / length, (y2 - y1) / length];
  const rim = Math.sqrt(RADIUS ** 2 - bow ** 2) + 12;
  const [sx, sy] = [x1 + dx * rim, y1 + dy * rim];
  const [ex, ey] = [x2 - dx * rim, y2 - dy * rim];
  const at = (back: number, side: number) =>
    `${round(ex - dx * back - dy * side)} ${round(ey - dy * back + dx * side)}`;
  const neck = `${round(ex - dx * 20)} ${round(ey - dy * 20)}`;
  const line = tag('path', { class: 'gives', d: `M${round(sx)} ${round(sy)}L${neck}`, fill: 'none', stroke: ink.line, 'stroke-width': 7 }); // prettier-ignore
  return line + tag('path', { d: `M${round(ex)} ${round(ey)}L${at(30, 17)}L${at(30, -17)}z`, fill: ink.line });
}
