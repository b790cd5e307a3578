// What happened during a plan: a row of symbols for each kind, and a list below the axis.
import { widthOf, wrapped } from '../letters.ts';
import { lineHeight } from '../page.ts';
import { CHART_WIDTH, SIDE, SMALL, type ChartSheet, type Spot } from './chart-sheet.ts';
import { counted } from './figures.ts';
import type { TimelineAxis } from './timeline-axis.ts';
import type { Timeline } from './timeline-data.ts';
import { markSymbol, SYMBOL } from './timeline-symbols.ts';
import { chosenMarks, kindInWords, KINDS, markInWords } from './timeline-words.ts';

const ROW = 44;
const MOST_LISTED = 8;

type Row = { words: string; draw: string; spot: Spot; bottom: number }; // prettier-ignore

/** The rows below the lanes, from a top edge on. Their word stands beside a symbol, or above the row if all is full. */
export function markRows(sheet: ChartSheet, { marks }: Timeline, axis: TimelineAxis, top: number): Row[] {
  let y = top;
  return KINDS.filter((kind) => marks.some((mark) => mark.kind === kind)).map((kind) => {
    const at = marks.filter((mark) => mark.kind === kind).map((mark) => axis.x(mark.at));
    const places = [...new Set(at.map((x) => Math.round(x / 3) * 3))];
    const words = kindInWords(kind, at.length);
    const width = widthOf(words, SMALL);
    const clear = (left: number) =>
      left >= SIDE &&
      left + width <= CHART_WIDTH - SIDE &&
      [...places, axis.today ?? -99].every((x) => x + SYMBOL + 4 < left || x - SYMBOL - 4 > left + width);
    const beside = [...places].reverse().flatMap((x) => [x + SYMBOL + 8, x - SYMBOL - 8 - width]).find(clear); // prettier-ignore
    if (beside === undefined) y += 34;
    const middle = y + ROW / 2;
    const draw = places.map((x) => markSymbol(x, middle, kind, sheet.ink)).join('');
    y += ROW;
    const spot = { x: beside ?? SIDE, y: beside === undefined ? middle - ROW / 2 - 8 : middle + 9, align: 'start' as const }; // prettier-ignore
    return { words, draw, spot, bottom: y };
  });
}

/** Writes the list from a first baseline on; returns the baseline after the last. */
export function listMarks(sheet: ChartSheet, timeline: Timeline, y: number): number {
  const { shown, left } = chosenMarks(timeline.marks, MOST_LISTED);
  const indent = SIDE + 40;
  let line = y;
  for (const mark of shown) {
    sheet.draw(markSymbol(SIDE + 14, line - 9, mark.kind, sheet.ink));
    for (const text of wrapped(markInWords(timeline, mark), CHART_WIDTH - SIDE - indent, SMALL)) {
      sheet.write(text, { x: indent, y: line });
      line += lineHeight(SMALL);
    }
    line += 6;
  }
  return left ? sheet.paragraph(`and ${counted(left, 'more mark')}`, line, { fill: sheet.ink.quiet }) + 6 : line;
}
