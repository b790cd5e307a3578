// A time axis with few dates, written below the line.
import { scaleUtc } from 'd3-scale';
import { upTo } from '../svg.ts';
import { DAY, dateFormat } from './dates.ts';

export type TimeAxis = { x: (local: number) => number; marks: { local: number; words: string }[] };

const MOST_DATES = 5;
/** Days between dates; with wider gaps the axis counts in months or years. */
const GAPS = [1, 2, 4, 7, 14, 28];

/** From the first to the last moment, at least four days wide. */
export function timeAxis(moments: readonly [number, number], left: number, right: number): TimeAxis {
  const missing = Math.max(0, 4 * DAY - (moments[1] - moments[0]));
  const [from, to] = [moments[0] - missing / 2, moments[1] + missing / 2];
  const scale = scaleUtc().domain([from, to]).range([left, right]);
  const gap = GAPS.find((days) => (to - from) / (days * DAY) <= MOST_DATES);
  const ticks = gap ? everyDays(from, to, gap) : scale.ticks(MOST_DATES).map((tick) => tick.getTime());
  const words = dateFormat((ticks[1] ?? DAY) - (ticks[0] ?? 0));
  return { x: (local) => scale(local), marks: ticks.map((local) => ({ local, words: words(local) })) };
}

/** Midnights, evenly spaced from the first one on. */
function everyDays(from: number, to: number, gap: number): number[] {
  const first = Math.ceil(from / DAY) * DAY;
  return upTo(Math.floor((to - first) / (gap * DAY)) + 1).map((count) => first + count * gap * DAY);
}
