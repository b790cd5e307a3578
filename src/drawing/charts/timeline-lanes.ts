// The lanes of a timeline: a name with how it stands, and under it bars and brackets.
import { widthOf, wrapped, type Weight } from '../letters.ts';
import { lineHeight } from '../page.ts';
import { tag } from '../svg.ts';
import { CHART_WIDTH, SIDE, SMALL, type ChartSheet, type Room, type Spot } from './chart-sheet.ts';
import { dayInWords } from './dates.ts';
import { atMost } from './figures.ts';
import type { TimelineAxis } from './timeline-axis.ts';
import type { Lane, Stretch, Timeline } from './timeline-data.ts';
import { bar, bracket, SYMBOL, windowSymbol } from './timeline-symbols.ts';
import { laneInWords, STATE_WORDS, WINDOW_WORDS } from './timeline-words.ts';

const NAME = { size: 28, weight: 'semibold' as Weight };
const BAR = 42;
const WINDOWS = 62;
const SYMBOLS = 34;
const GAP = 30;
const LEAST_BRACKETED = 10;

type Text = { text: string; spot: Spot; name: boolean };
type PlacedLane = { lane: Lane; texts: Text[]; bars: Room | undefined; windows: Room | undefined };
/** `until` is where now is, also where that lies outside of the picture. */
export type PlacedLanes = { lanes: PlacedLane[]; until: number; bottom: number };

/** Where every lane stands. Names and words share a line if that goes for all lanes. */
export function placedLanes({ lanes, now }: Timeline, axis: TimelineAxis, top: number): PlacedLanes {
  const width = CHART_WIDTH - SIDE * 2;
  const all = lanes.map((lane) => ({ lane, words: laneInWords(lane, now) }));
  const shared = all.every(({ lane, words }) => widthOf(lane.name, NAME.size, NAME.weight) + 34 + widthOf(words, SMALL) <= width && Math.max(lane.name.length, words.length) <= 44); // prettier-ignore
  let y = top;
  const placed = all.map(({ lane, words }): PlacedLane => {
    const texts: Text[] = [];
    y += 26;
    for (const text of wrapped(atMost(lane.name, 120), width, NAME.size, NAME.weight)) {
      texts.push({ text, spot: { x: SIDE, y }, name: true });
      y += lineHeight(NAME.size);
    }
    if (shared)
      texts.push({ text: words, spot: { x: CHART_WIDTH - SIDE, y: y - lineHeight(NAME.size), align: 'end' }, name: false }); // prettier-ignore
    else
      for (const text of wrapped(words, width, SMALL)) {
        texts.push({ text, spot: { x: SIDE, y }, name: false });
        y += lineHeight(SMALL);
      }
    y -= 20;
    const room = (height: number): Room => ({ left: axis.left, right: axis.right, top: y, bottom: (y += height) });
    const bars = lane.spans.length ? room(BAR) : undefined;
    if (bars && lane.windows.length) y += 8;
    const bracketed = radiusFor(lane.windows.map(({ planned }) => axis.x(planned))) >= LEAST_BRACKETED;
    const windows = lane.windows.length ? room(bracketed ? WINDOWS : SYMBOLS) : undefined;
    y += GAP;
    return { lane, texts, bars, windows };
  });
  return { lanes: placed, until: axis.x(now), bottom: y - GAP + 22 };
}

/** The bars of all lanes. Today's line goes over them. */
export function drawBars(sheet: ChartSheet, { lanes, until }: PlacedLanes, axis: TimelineAxis): void {
  for (const { lane, bars } of lanes) {
    if (!bars) continue;
    for (const { from, to, state } of lane.spans) sheet.draw(bar(barRoom(axis, bars, from, to), state, until, sheet.ink)); // prettier-ignore
  }
}

/** The windows of all lanes. They go over today's line. Tells whether there are brackets among them. */
export function drawWindows(sheet: ChartSheet, { lanes }: PlacedLanes, axis: TimelineAxis): boolean {
  const drawn = lanes.map(({ lane, windows }) => windows && drawLaneWindows(sheet, lane, windows, axis));
  return drawn.some(Boolean);
}

/** A bar with a little air beside its neighbours, and wide enough to be seen. */
function barRoom(axis: TimelineAxis, room: Room, from: number, to: number): Room {
  const [left, right] = [axis.x(from) + 2.5, axis.x(to) - 2.5];
  if (right - left >= 8) return { ...room, left, right };
  const middle = Math.min(Math.max((left + right) / 2, room.left + 4), room.right - 4);
  return { ...room, left: middle - 4, right: middle + 4 };
}

/** Where windows stand close together there are symbols alone; brackets would run into each other. */
function drawLaneWindows(sheet: ChartSheet, { windows }: Lane, room: Room, axis: TimelineAxis): boolean {
  const radius = radiusFor(windows.map(({ planned }) => axis.x(planned)));
  const bracketed = radius >= LEAST_BRACKETED;
  for (const { earliest, planned, latest, state } of windows) {
    const [x, from, to] = [axis.x(planned), axis.x(earliest), axis.x(latest)];
    if (bracketed) sheet.draw(bracket([Math.min(from, x - 6), x, Math.max(to, x + 6)], room.bottom - 10, sheet.ink));
    sheet.draw(windowSymbol(x, room.top + 16, radius, state, sheet.ink));
    sheet.keepFree({ left: x - radius - 1, right: x + radius + 1, top: room.top, bottom: room.top + 32 });
  }
  return bracketed;
}

/** Symbols become smaller where they stand close together. */
function radiusFor(places: readonly number[]): number {
  const gaps = places.slice(1).map((x, i) => x - (places[i] ?? x)).filter((gap) => gap > 1); // prettier-ignore
  return Math.min(SYMBOL, Math.max(5, Math.min(Infinity, ...gaps) / 2 - 1));
}

/** Writes names, and words on bars and beside brackets where they have room. */
export function nameLanes(sheet: ChartSheet, { lanes, until }: PlacedLanes, axis: TimelineAxis): void {
  for (const { lane, texts, bars, windows } of lanes) {
    for (const { text, spot, name } of texts) onPage(sheet, text, spot, name);
    if (bars) nameBars(sheet, lane, bars, axis, until);
    if (windows) nameWindows(sheet, lane, windows, axis);
  }
}

function nameBars(sheet: ChartSheet, { spans }: Lane, bars: Room, axis: TimelineAxis, until: number): void {
  const rooms = spans.map(({ from, to }) => barRoom(axis, bars, from, to));
  spans.forEach((span, i) => {
    const room = rooms[i] ?? bars;
    const before = Math.max(SIDE, ...rooms.slice(0, i).map(({ right }) => right + 8));
    const after = Math.min(CHART_WIDTH - SIDE, ...rooms.slice(i + 1).map(({ left }) => left - 8));
    nameBar(sheet, span, room, until, { ...bars, left: before, right: after });
  });
}

/** Words on a bar, of one that is running where it is still empty; or beside it, between its neighbours. */
function nameBar(sheet: ChartSheet, { state, label }: Stretch, room: Room, until: number, between: Room): void {
  const y = (room.top + room.bottom) / 2 + 7;
  const inside: Room = { ...room, left: room.left + 10, right: room.right - 10 };
  const passed = Math.min(Math.max(until, room.left), room.right);
  const [middle, empty, full] = [(room.left + room.right) / 2, (passed + room.right) / 2, (room.left + passed) / 2];
  const on: Spot[] = [
    ...(state === 'running' ? [empty, full] : [middle, empty, full]).map((x) => ({ x, y, align: 'middle' as const })),
    { x: inside.right - 2, y, align: 'end' },
    { x: inside.left + 2, y, align: 'start' },
  ];
  const beside: Spot[] = [{ x: room.right + 10, y, align: 'start' }, { x: room.left - 10, y, align: 'end' }]; // prettier-ignore
  const word = STATE_WORDS[state];
  const ways: [string, Spot[], Room][] = [
    [label && `${label}, ${word}`, on, inside],
    [label, on, inside],
    [label && `${label}, ${word}`, beside, between],
    [label, beside, between],
    [word, on, inside],
    [word, beside, between],
  ];
  ways.some(([words, spots, within]) => words && words.length <= 44 && sheet.writeIfFree(words, spots, within));
}

/** Dates beside the brackets, all on the same side and with how each stands if there is room for that. */
function nameWindows(sheet: ChartSheet, { windows }: Lane, room: Room, axis: TimelineAxis): void {
  const within: Room = { ...room, left: SIDE, right: CHART_WIDTH - SIDE };
  const written = (long: boolean, sides: readonly (1 | -1)[]) =>
    windows.map(({ planned, state }) => {
      const words = dayInWords(planned) + (long ? `, ${WINDOW_WORDS[state]}` : '');
      const spots = sides.map((side): Spot => ({ x: axis.x(planned) + side * 20, y: room.top + 25, align: side > 0 ? 'start' : 'end' })); // prettier-ignore
      return { words, spots, box: sheet.freeSpot(words, spots, within)?.box };
    });
  const ways = [true, false].flatMap((long) => [written(long, [1]), written(long, [-1])]);
  const apart = ways.find((way) => way.every(({ box }, i) => box && (way[i - 1]?.box?.right ?? 0) + 12 <= box.left));
  for (const { words, spots } of apart ?? written(false, [1, -1])) sheet.writeIfFree(words, spots, within);
}

/** Words on a ground of their own, so that no line runs through them. */
export function onPage(sheet: ChartSheet, text: string, spot: Spot, name: boolean): void {
  const how = name ? NAME : { size: SMALL, weight: 'regular' as Weight };
  const width = widthOf(text, how.size, how.weight);
  const x = spot.align === 'end' ? spot.x - width : spot.x;
  sheet.draw(tag('rect', { x: x - 6, y: spot.y - how.size * 0.9, width: width + 12, height: how.size * 1.25, fill: sheet.ink.page })); // prettier-ignore
  sheet.write(text, spot, { ...how, fill: name ? sheet.ink.words : sheet.ink.quiet });
}
