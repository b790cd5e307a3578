// The time axis of a timeline: few dates, and under each the day of the plan.
import { widthOf } from '../letters.ts';
import { upTo } from '../svg.ts';
import { CHART_WIDTH, SIDE, SMALL, type ChartSheet } from './chart-sheet.ts';
import { dateInWords, DAY, dayInWords } from './dates.ts';
import { extent } from './figures.ts';
import { rule } from './marks.ts';
import { dayOf, midnight, type Timeline } from './timeline-data.ts';
import { clockInWords } from './timeline-words.ts';

export type TimelineAxis = {
  left: number;
  right: number;
  x: (local: number) => number;
  /** Where today is, unless that lies far outside the plan. */
  today: number | undefined;
  marks: { x: number; words: string; below: string }[];
};

const HOUR = DAY / 24;
const MOST_DATES = 6;
/** Days between two dates. */
const GAPS = [1, 2, 3, 7, 14, 28, 56, 91, 182];
/** Beyond this the year is written. */
const LONG = 300 * DAY;

/** From the first midnight to the last one round everything that is drawn. */
export function timelineAxis(timeline: Timeline): TimelineAxis {
  const { begins, ends = begins, now, lanes, marks } = timeline;
  const moments = [begins, ends, ...marks.map(({ at }) => at)];
  for (const { spans, windows } of lanes) {
    for (const { from, to } of spans) moments.push(from, to);
    for (const { earliest, latest } of windows) moments.push(earliest, latest);
  }
  const [first, last] = extent(moments);
  const reach = Math.max(DAY, (last - first) / 4);
  const shown = now >= first - reach && now <= last + reach;
  const from = midnight(shown ? Math.min(first, now) : first);
  const latest = shown ? Math.max(last, now) : last;
  const to = Math.max(from + DAY, midnight(latest) === latest ? latest : midnight(latest) + DAY);
  const [left, right] = [SIDE + 4, CHART_WIDTH - SIDE - 4];
  const x = (local: number) => left + ((local - from) / (to - from)) * (right - left);

  const days = (to - from) / DAY;
  const gap = days <= 2 ? days * 6 * HOUR : (GAPS.find((each) => days / each <= MOST_DATES) ?? Math.ceil(days / 5)) * DAY; // prettier-ignore
  // Dates are counted from the beginning of the plan, so that day 1 is one of them.
  const start = midnight(begins) - Math.floor((midnight(begins) - from) / gap) * gap;
  const ticks = upTo(Math.ceil((to - start) / gap)).map((count) => start + count * gap);
  return {
    left,
    right,
    x,
    today: shown ? x(now) : undefined,
    marks: ticks.map((local) => {
      const whole = midnight(local) === local;
      const day = dayOf(timeline, local);
      const words = whole ? (to - from > LONG ? dateInWords(local) : dayInWords(local)) : clockInWords(local);
      return { x: x(local), words, below: whole && day > 0 ? `day ${day}` : '' };
    }),
  };
}

/** Writes the axis below a line; returns where it ends. */
export function drawTimelineAxis(sheet: ChartSheet, axis: TimelineAxis, y: number): number {
  const { ink } = sheet;
  sheet.draw(rule([SIDE, y], [CHART_WIDTH - SIDE, y], ink.quiet, 3));
  for (const { x, words, below } of axis.marks) {
    const half = Math.max(widthOf(words, SMALL), widthOf(below, SMALL)) / 2;
    const centre = Math.min(Math.max(x, SIDE + half), CHART_WIDTH - SIDE - half);
    const room = { left: 0, right: CHART_WIDTH, top: y, bottom: y + 84 };
    if (!sheet.writeIfFree(words, [{ x: centre, y: y + 40, align: 'middle' }], room)) continue;
    if (below) sheet.writeIfFree(below, [{ x: centre, y: y + 73, align: 'middle' }], room, { fill: ink.quiet });
    sheet.draw(rule([x, y], [x, y + 12], ink.quiet, 3));
  }
  return y + 84;
}
