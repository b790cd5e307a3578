// A plan over time: what is held and what is to be done, lane below lane, with today's line through all of them.
import type { Theme } from '../ink.ts';
import { widthOf } from '../letters.ts';
import type { Plate } from '../page.ts';
import { tag } from '../svg.ts';
import { CHART_WIDTH, chartSheet, SIDE, SMALL, TITLE, type ChartSheet } from './chart-sheet.ts';
import { dayInWords } from './dates.ts';
import { atMost } from './figures.ts';
import { rule } from './marks.ts';
import { drawTimelineAxis, timelineAxis, type TimelineAxis } from './timeline-axis.ts';
import { checkedTimeline, type Timeline, type TimelineData } from './timeline-data.ts';
import { timelineKey } from './timeline-key.ts';
import { drawBars, drawWindows, nameLanes, onPage, placedLanes } from './timeline-lanes.ts';
import { listMarks, markRows } from './timeline-marks.ts';
import { moreInWords, timelineInWords, whenInWords } from './timeline-words.ts';

/** Draws a plan. @throws RangeError when there is no lane, a date or number is none, or something ends before it begins. */
export function planTimeline(data: TimelineData, theme: Theme = 'light'): Plate {
  const timeline = checkedTimeline(data);
  const sheet = chartSheet(theme);
  const axis = timelineAxis(timeline);
  let y = sheet.paragraph(atMost(timeline.title, 120), 20 + TITLE, { size: TITLE, weight: 'semibold' });
  y = sheet.paragraph(whenInWords(timeline), y + 2, { fill: sheet.ink.quiet });
  const top = nameDays(sheet, timeline, axis, y + 12);

  const placed = placedLanes(timeline, axis, top + 14);
  const rows = markRows(sheet, timeline, axis, placed.bottom);
  const bottom = (rows.at(-1)?.bottom ?? placed.bottom) + 4;
  dayGrid(sheet, timeline, axis, top, bottom);
  drawBars(sheet, placed, axis);
  if (rows.length) sheet.draw(rule([SIDE, placed.bottom], [CHART_WIDTH - SIDE, placed.bottom], sheet.ink.rule));
  todayLine(sheet, axis, top, bottom);
  const bracketed = drawWindows(sheet, placed, axis);
  for (const { draw } of rows) sheet.draw(draw);
  for (const { words, spot } of rows) onPage(sheet, words, spot, false);
  nameLanes(sheet, placed, axis);

  y = drawTimelineAxis(sheet, axis, bottom) + 44;
  y = listMarks(sheet, timeline, y);
  y = timelineKey(sheet, timeline, bracketed, y + (timeline.marks.length ? 12 : 0));
  if (timeline.more.length) y = sheet.paragraph(atMost(moreInWords(timeline.more), 200), y, { fill: sheet.ink.quiet });
  return sheet.plate(y - 12, timelineInWords(timeline));
}

/** The names of the lines of today and of the end, above the lanes; returns the baseline. */
function nameDays(sheet: ChartSheet, { ends, now }: Timeline, axis: TimelineAxis, y: number): number {
  const row = { left: SIDE, right: CHART_WIDTH - SIDE, top: y - 40, bottom: y + 10 };
  const at = (x: number, words: string) => {
    const half = widthOf(words, SMALL, 'semibold') / 2;
    return [{ x: Math.min(Math.max(x, SIDE + half), CHART_WIDTH - SIDE - half), y, align: 'middle' as const }];
  };
  const today = `today, ${dayInWords(now)}`;
  if (axis.today !== undefined) sheet.writeIfFree(today, at(axis.today, today), row, { weight: 'semibold' });
  if (ends === undefined) return y;
  const end = `end, ${dayInWords(ends)}`;
  sheet.writeIfFree(end, at(axis.x(ends), end), row, { fill: sheet.ink.quiet });
  return y;
}

/** What lies under everything else: the dates of the axis, and the end. */
function dayGrid(sheet: ChartSheet, { ends }: Timeline, axis: TimelineAxis, top: number, bottom: number): void {
  const { ink } = sheet;
  for (const { x } of axis.marks) sheet.draw(rule([x, top + 14], [x, bottom], ink.rule));
  if (ends !== undefined) sheet.draw(rule([axis.x(ends), top + 10], [axis.x(ends), bottom], ink.quiet, 3, '4 8'));
}

/** A rim keeps the line apart from the bars that it crosses. */
function todayLine({ ink, draw, keepFree }: ChartSheet, { today }: TimelineAxis, top: number, bottom: number): void {
  if (today === undefined) return;
  draw(rule([today, top + 10], [today, bottom], ink.page, 11));
  draw(tag('line', { class: 'today', x1: today, y1: top + 10, x2: today, y2: bottom, stroke: ink.words, 'stroke-width': 5 })); // prettier-ignore
  keepFree({ left: today - 6, right: today + 6, top: top + 10, bottom });
}
