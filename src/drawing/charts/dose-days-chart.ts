// Dose days: one row of steps for each parameter, and under them the doses on the same days.
import type { Theme } from '../ink.ts';
import { widthOf } from '../letters.ts';
import type { Plate } from '../page.ts';
import { tag, upTo } from '../svg.ts';
import { CHART_WIDTH, chartSheet, SIDE, SMALL, TITLE, type ChartSheet, type Room } from './chart-sheet.ts';
import { checkedDoseDays, stretches, type DoseDays, type DoseDaysData, type DosedParameter } from './dose-days-data.ts';
import { amountsOf, doseDaysInWords, lastingInWords, wayOf } from './dose-days-words.ts';
import { DAY, dayInWords } from './dates.ts';
import { airy, counted, extent, figuresFor } from './figures.ts';
import { dot, edge, ground, rule } from './marks.ts';
import { evenly } from './value-axis.ts';
import { drawSteps, labelBetween, labelEnds } from './step-line.ts';

/** How high one row of steps is, when there are one, two, three or more. */
const HEIGHTS = [300, 230, 200, 180];
/** Above this many days, blocks of days that follow each other are drawn as one. */
const MOST_BLOCKS = 14;
const MOST_REAGENTS = 8;
/** How many days may lie between two names below the steps. */
const EVERY = [1, 2, 3, 5, 7, 10, 14, 28, 50];

/** Draws a dose plan. @throws RangeError when there is nothing to draw, or a number, day or date cannot be drawn. */
export function doseDaysChart(data: DoseDaysData, theme: Theme = 'light'): Plate {
  const plan = checkedDoseDays(data);
  const sheet = chartSheet(theme);
  const { ink } = sheet;
  const when = lastingInWords(plan, dayInWords);
  const title = `Plan for ${counted(plan.count, 'day')}${when ? `, ${when}` : ''}`;
  let y = sheet.paragraph(title, 20 + TITLE, { size: TITLE, weight: 'semibold' }) + 6;
  // Column 0 is now; day 1 is the column after it.
  const columns = evenly([0, plan.count + 1], [SIDE, CHART_WIDTH - SIDE]);
  const height = HEIGHTS[Math.min(plan.parameters.length, HEIGHTS.length) - 1] ?? 180;
  for (const parameter of plan.parameters) {
    y = sheet.paragraph(parameter.name, y, { size: 30, weight: 'semibold' });
    y = sheet.paragraph(wayOf(parameter, writtenLike(parameter)), y, { fill: ink.quiet }) - 16;
    steps(sheet, parameter, { left: SIDE, right: CHART_WIDTH - SIDE, top: y, bottom: y + height }, columns, plan.count);
    y += height + 40;
  }
  y = dayNames(sheet, plan, y - 40, columns) + 50;
  const shown = plan.reagents.slice(0, MOST_REAGENTS);
  for (const reagent of shown) {
    y = sheet.paragraph(reagent.reagent, y, { size: 28, weight: 'semibold' });
    y = sheet.paragraph(amountsOf(reagent), y) - 16;
    blocks(sheet, reagent.days, plan.count, y, columns);
    y += 34 + 44;
  }
  const left = plan.reagents.length - shown.length;
  if (left > 0) y = sheet.paragraph(`and ${counted(left, 'more reagent')}`, y, { fill: ink.quiet });
  return sheet.plate(y - 22, doseDaysInWords(plan));
}

/** All values of one row are written alike, so that the target reads like the step that reaches it. */
function writtenLike({ target, start, afterEachDay }: DosedParameter): (value: number) => string {
  const [low, high] = extent([target, start, ...afterEachDay]);
  return figuresFor(high - low || Math.abs(high));
}

type Columns = (day: number) => number;

/** The course of one parameter, step by step, with what it is to reach. */
function steps(sheet: ChartSheet, parameter: DosedParameter, room: Room, columns: Columns, count: number): void {
  const { ink } = sheet;
  const { start, target, band: span, afterEachDay } = parameter;
  const [low, high] = airy([target, start, ...afterEachDay], 0);
  // Words stand above the highest line, and some below the lowest.
  const padding = 50;
  const y = evenly([low, high], [room.bottom - padding, room.top + padding]); // prettier-ignore
  const inside = (value: number) => Math.min(room.bottom, Math.max(room.top, y(value)));

  if (span) sheet.draw(ground({ ...room, top: inside(span.high), bottom: inside(span.low) }, ink));
  const every = Math.ceil((count + 1) / (MOST_BLOCKS + 1));
  for (const day of upTo(count + 2)) if (day % every === 0) sheet.draw(rule([columns(day), room.top], [columns(day), room.bottom], ink.rule)); // prettier-ignore
  sheet.draw(rule([room.left, room.bottom], [room.right, room.bottom], ink.quiet, 3));
  for (const value of span ? [span.low, span.high] : []) if (inside(value) === y(value)) sheet.draw(rule([room.left, y(value)], [room.right, y(value)], ink.bandEdge, 2)); // prettier-ignore
  sheet.draw(edge(room, y(target), ink));

  const written = writtenLike(parameter);
  const narrow = count > MOST_BLOCKS;
  const levels = [start, ...afterEachDay].map((value, day) => ({
    left: columns(day),
    right: columns(day + 1),
    y: y(value),
    words: (day === 0 && narrow ? 'now ' : '') + written(value),
  }));
  drawSteps(sheet, levels);
  sheet.draw(dot([columns(0) + 8, y(start)], 9, ink));
  labelEnds(sheet, { levels, side: 'above' }, room);
  const aim = `target ${written(target)}${span ? ` (${written(span.low)} to ${written(span.high)})` : ''}`;
  const aims = [y(target) - 14, y(target) + 36].flatMap((line) => [
    { x: room.left + 10, y: line, align: 'start' as const },
    { x: (room.left + room.right) / 2, y: line, align: 'middle' as const },
    { x: room.right - 10, y: line, align: 'end' as const },
  ]);
  sheet.writeIfFree(aim, aims, room);
  labelBetween(sheet, [{ levels, side: 'above' }], room);
}

/** "now", then the days by number and, where they are known, the dates below. */
function dayNames(sheet: ChartSheet, { count, firstDay }: DoseDays, top: number, columns: Columns): number {
  const { ink } = sheet;
  const write = (words: string, day: number, line: number) => {
    const row: Room = { left: SIDE - 12, right: CHART_WIDTH - 8, top: top + line - 26, bottom: top + line + 12 };
    const half = widthOf(words, SMALL) / 2;
    const middle = (columns(day) + columns(day + 1)) / 2;
    const x = Math.min(Math.max(middle, row.left + half), row.right - half);
    sheet.writeIfFree(words, [{ x, y: top + line, align: 'middle' }], row, { fill: ink.quiet });
  };
  const date = (day: number) => (firstDay === undefined ? '' : dayInWords(firstDay + (day - 1) * DAY));
  const each = columns(1) - columns(0);
  const apart = (room: number) => EVERY.find((every) => every * each >= room) ?? 100;
  const dates = apart(104);
  const numbers = each > 40 ? 1 : dates;
  if (count <= MOST_BLOCKS) write('now', 0, 36);
  for (const day of upTo(count + 1).slice(1)) {
    if ((day - 1) % numbers === 0) write(day === 1 && each > 75 ? 'day 1' : String(day), day, 36);
    if (firstDay !== undefined && (day - 1) % dates === 0) write(date(day), day, 70);
  }
  return top + (firstDay === undefined ? 36 : 70);
}

/** A block on each day of a dose. */
function blocks(sheet: ChartSheet, days: readonly number[], count: number, top: number, columns: Columns): void {
  const { ink } = sheet;
  const each = count > MOST_BLOCKS ? stretches(days) : days.map((day) => ({ from: day, to: day }));
  sheet.draw(rule([SIDE, top + 34], [CHART_WIDTH - SIDE, top + 34], ink.rule, 2));
  for (const { from, to } of each) {
    const [left, right] = [columns(from) + 3, columns(to + 1) - 3];
    const width = Math.max(4, right - left);
    sheet.draw(tag('rect', { class: 'block', x: left, y: top + 4, width, height: 28, rx: 6, fill: ink.dose }));
  }
}
