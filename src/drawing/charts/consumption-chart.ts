// What readings say about use: points with the error of the kit, the fitted line, doses and water changes below.
import type { Theme } from '../ink.ts';
import { widthOf } from '../letters.ts';
import type { Plate } from '../page.ts';
import { CHART_WIDTH, chartSheet, SIDE, SMALL, TITLE, type ChartSheet, type Room } from './chart-sheet.ts';
import { consumptionInWords, risesInWords } from './consumption-words.ts';
import { checkedCourse, type ConsumptionCourse, type ConsumptionData } from './consumption-data.ts';
import { airy, atMost, extent, inFigures, spanInWords } from './figures.ts';
import { changeMark, cross, dot, doseMark, edge, errorBar, ground, rule } from './marks.ts';
import { timeAxis, type TimeAxis } from './time-axis.ts';
import { valueAxis, type ValueAxis } from './value-axis.ts';

const PLOT = 440;
const LANE = 74;
/** With more readings than this, bars would cover each other; the error is then said in words alone. */
const MOST_BARS = 60;
const MOST_GUIDES = 12;
const MOST_LEFT_OUT = 6;
/** Above this many, marks of doses and water changes are strokes. */
const MOST_SHAPES = 30;

/** Draws the readings of one parameter. @throws RangeError when there is no reading, or a number or date is none. */
export function consumptionChart(data: ConsumptionData, theme: Theme = 'light'): Plate {
  const course = checkedCourse(data);
  const sheet = chartSheet(theme);
  const titled = sheet.paragraph(`${course.name}, ${course.unit}`, 20 + TITLE, { size: TITLE, weight: 'semibold' });
  const top = sheet.paragraph(course.inWords, titled + 2, { size: 28 }) + 4;
  const bottom = top + PLOT;
  const values = valueAxis(domainOf(course), top, bottom);
  const room: Room = { left: values.left, right: CHART_WIDTH - SIDE, top, bottom };
  const times = timeAxis(extent(course.moments), room.left + 22, room.right - 22);

  const lanes = lanesOf(course);
  const lanesBottom = bottom + lanes.length * LANE;
  const aim = targetRoom(course, values, room);
  if (aim) sheet.draw(ground(aim, sheet.ink));
  grid(sheet, values, times, room, lanesBottom);
  for (const y of [aim?.top, aim?.bottom]) if (y !== undefined && y > room.top && y < room.bottom) sheet.draw(edge(room, y, sheet.ink)); // prettier-ignore
  lanes.forEach((lane, i) => drawLane(sheet, lane, bottom + i * LANE, room, times));
  for (const { from, to, valueAtFrom, valueAtTo } of course.lines)
    sheet.draw(rule([times.x(from), values.y(valueAtFrom)], [times.x(to), values.y(valueAtTo)], sheet.ink.line, 6));
  const crossesNamed = readings(sheet, course, values, times, room);
  const targetNamed = targetLabel(sheet, course, values, room);

  let y = lanesBottom + 86;
  for (const note of notes(course, { targetNamed, crossesNamed }))
    y = sheet.paragraph(note, y, { fill: sheet.ink.quiet });
  return sheet.plate(y - 8, consumptionInWords(course));
}

/** Readings that count, with their error, set the height. What was left out may lie beyond the edge. */
function domainOf({ readings, kitError, lines, target }: ConsumptionCourse): [number, number] {
  const counted = readings.filter(({ isOutlier }) => !isOutlier);
  const ends = (counted.length ? counted : readings).flatMap(({ value }) => [value - kitError, value + kitError]);
  const fitted = lines.flatMap(({ valueAtFrom, valueAtTo }) => [valueAtFrom, valueAtTo]);
  const [low, high] = airy([...ends, ...fitted], 0.08);
  // A target far away would press the readings flat; it then lies beyond the edge and is said in words.
  const reach = (high - low) * 1.5;
  const near = target ? [target.low, target.high].filter((edge) => edge > low - reach && edge < high + reach) : [];
  return near.length ? airy([low, high, ...near], 0.04) : [low, high];
}

function grid(sheet: ChartSheet, values: ValueAxis, times: TimeAxis, room: Room, lanesBottom: number): void {
  const { ink } = sheet;
  for (const { value, words } of values.marks) {
    const y = values.y(value);
    sheet.draw(rule([room.left, y], [room.right, y], ink.rule));
    sheet.write(words, { x: room.left - 12, y: y + 9, align: 'end' }, { fill: ink.quiet });
  }
  sheet.draw(rule([room.left, lanesBottom], [room.right, lanesBottom], ink.quiet, 3));
  for (const { local, words } of times.marks) {
    const x = times.x(local);
    const half = widthOf(words, SMALL) / 2;
    const spot = { x: Math.min(Math.max(x, SIDE + half), CHART_WIDTH - SIDE - half), y: lanesBottom + 38 };
    const below = { left: 0, right: CHART_WIDTH, top: lanesBottom, bottom: lanesBottom + 50 };
    if (sheet.writeIfFree(words, [{ ...spot, align: 'middle' }], below))
      sheet.draw(rule([x, lanesBottom], [x, lanesBottom + 12], ink.quiet, 3));
  }
}

/** Where the target lies within the plot. */
function targetRoom({ target }: ConsumptionCourse, values: ValueAxis, room: Room): Room | undefined {
  if (!target || target.high < values.domain[0] || target.low > values.domain[1]) return undefined;
  return {
    ...room,
    top: Math.max(room.top, values.y(target.high)),
    bottom: Math.min(room.bottom, values.y(target.low)),
  };
}

/** The target in words, on its band where that is free and below the chart where it is not. */
function targetLabel(sheet: ChartSheet, course: ConsumptionCourse, values: ValueAxis, room: Room): boolean {
  const lies = targetRoom(course, values, room);
  if (!lies || !course.target) return false;
  const spots = [lies.top + 30, lies.bottom - 12, lies.top - 12, lies.bottom + 32].flatMap((y) => [
    { x: room.right - 12, y, align: 'end' as const },
    { x: room.left + 12, y, align: 'start' as const },
    { x: (room.left + room.right) / 2, y, align: 'middle' as const },
  ]);
  return sheet.writeIfFree(`target ${spanInWords(course.target)}`, spots, room);
}

/** Draws the readings; tells whether every one that was left out is named. */
function readings(
  sheet: ChartSheet,
  course: ConsumptionCourse,
  values: ValueAxis,
  times: TimeAxis,
  room: Room,
): boolean {
  const { ink } = sheet;
  const many = course.readings.length > MOST_BARS;
  const radius = many ? 4 : 9;
  const inside = (y: number) => Math.min(room.bottom - 12, Math.max(room.top + 12, y));
  const left: { x: number; y: number; words: string }[] = [];
  const drawn = new Set<string>();
  let [bars, marks, crosses] = ['', '', ''];
  for (const { at, value, isOutlier } of course.readings) {
    const [x, exact] = [times.x(at), values.y(value)];
    // What was left out may lie beyond the edge; an arrow says so.
    const y = isOutlier ? inside(exact) : exact;
    const key = many ? `${Math.round(x / 3)} ${Math.round(y / 3)} ${isOutlier}` : `${at} ${value} ${isOutlier}`;
    if (drawn.has(key)) continue;
    drawn.add(key);
    const reach = isOutlier ? 13 : radius;
    sheet.keepFree({ left: x - reach, right: x + reach, top: y - reach, bottom: y + reach });
    if (isOutlier) {
      crosses += cross([x, y], ink);
      const beyond = y === exact ? '' : `${exact < y ? '↑' : '↓'} ${inFigures(value)}, `;
      left.push({ x, y, words: `${beyond}left out` });
      continue;
    }
    const [from, to] = [values.y(value + course.kitError), values.y(value - course.kitError)];
    if (!many && course.kitError > 0) bars += errorBar(x, from, to, 9, ink);
    marks += dot([x, y], radius, ink);
  }
  sheet.draw(bars + marks + crosses);
  if (!left.length) return true;
  if (left.length > MOST_LEFT_OUT || many) return false;
  const named = left.map(({ x, y, words }) => {
    const spots = [y + 9, y + 32, y - 12].flatMap((line) => [
      { x: x + 20, y: line, align: 'start' as const },
      { x: x - 20, y: line, align: 'end' as const },
    ]);
    return sheet.writeIfFree(words, spots, room, { fill: ink.quiet });
  });
  return named.every(Boolean);
}

type Lane = { title: string; at: readonly number[]; mark: typeof doseMark; dash: string; stroke: 'dose' | 'line' };

function lanesOf({ doses, changes, unit }: ConsumptionCourse): Lane[] {
  const lanes: Lane[] = [
    { title: `${doses.length === 1 ? 'Dose' : 'Doses'}, ${risesInWords(doses)} ${unit}`, at: doses.map(({ at }) => at), mark: doseMark, dash: '3 9', stroke: 'dose' }, // prettier-ignore
    { title: changes.length === 1 ? 'Water change' : 'Water changes', at: changes, mark: changeMark, dash: '20 6', stroke: 'line' }, // prettier-ignore
  ];
  return lanes.filter(({ at }) => at.length);
}

function drawLane(sheet: ChartSheet, lane: Lane, top: number, room: Room, times: TimeAxis): void {
  const { ink } = sheet;
  sheet.draw(rule([room.left, top], [room.right, top], ink.rule, 2));
  sheet.write(atMost(lane.title, 44), { x: room.left + 8, y: top + 32 }, { fill: ink.quiet });
  const places = [...new Set(lane.at.map((at) => Math.round(times.x(at) / 2) * 2))];
  for (const x of places) {
    if (places.length <= MOST_GUIDES) sheet.draw(rule([x, room.top], [x, room.bottom], ink[lane.stroke], 2, lane.dash));
    sheet.draw(lane.mark(x, top + LANE - 7, ink, places.length > MOST_SHAPES));
  }
}

/** What the picture cannot show by itself. */
function notes(course: ConsumptionCourse, named: { targetNamed: boolean; crossesNamed: boolean }): string[] {
  const { kitError, readings: all, target: aim, unit } = course;
  const kit = `± ${inFigures(kitError)} ${unit}`;
  return [
    kitError > 0 ? (all.length > MOST_BARS ? `Test kit: ${kit} for each point.` : `Bars: test kit, ${kit}.`) : '',
    aim && !named.targetNamed ? `Target: ${spanInWords(aim)} ${unit}.` : '',
    !named.crossesNamed ? 'Crosses: left out of the line.' : '',
  ].filter(Boolean);
}
