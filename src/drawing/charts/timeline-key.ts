// What the shapes of a timeline mean: only those that are in the picture.
import { widthOf } from '../letters.ts';
import { CHART_WIDTH, SIDE, SMALL, type ChartSheet } from './chart-sheet.ts';
import type { Timeline, TimelineState } from './timeline-data.ts';
import { bar, bracket, SYMBOL, windowSymbol } from './timeline-symbols.ts';
import { STATE_WORDS, WINDOW_WORDS } from './timeline-words.ts';

type Entry = { width: number; words: string; draw: (x: number, y: number) => string };

const LINE = 46;
const ORDER: readonly TimelineState[] = ['done', 'running', 'coming', 'paused', 'restarted', 'overdue'];

/** Writes the key from a first baseline on; returns the baseline after the last. */
export function timelineKey(sheet: ChartSheet, { lanes }: Timeline, bracketed: boolean, y: number): number {
  const { ink } = sheet;
  const used = (states: readonly TimelineState[]) => ORDER.filter((state) => states.includes(state));
  const bars = used(lanes.flatMap(({ spans }) => spans.map(({ state }) => state)));
  const windows = used(lanes.flatMap((lane) => lane.windows.map(({ state }) => state)));
  const entries: Entry[] = [
    ...bars.map((state) => ({ width: 56, words: STATE_WORDS[state], draw: (x: number, line: number) => bar({ left: x, right: x + 56, top: line - 25, bottom: line + 5 }, state, x + 28, ink) })), // prettier-ignore
    ...windows.map((state) => ({ width: 28, words: WINDOW_WORDS[state], draw: (x: number, line: number) => windowSymbol(x + 14, line - 9, SYMBOL, state, ink) })), // prettier-ignore
    ...(bracketed ? [{ width: 56, words: 'earliest, planned, latest', draw: (x: number, line: number) => bracket([x, x + 28, x + 56], line - 4, ink) }] : []), // prettier-ignore
  ];
  let [x, line] = [SIDE, y];
  for (const [i, { width, words, draw }] of entries.entries()) {
    const whole = width + 12 + widthOf(words, SMALL);
    // What brackets mean stands on a line of its own.
    if (x > SIDE && (i === bars.length || x + whole > CHART_WIDTH - SIDE)) [x, line] = [SIDE, line + LINE];
    sheet.draw(draw(x, line));
    sheet.write(words, { x: x + width + 12, y: line }, { fill: ink.quiet });
    x += whole + 34;
  }
  return entries.length ? line + LINE : y;
}
