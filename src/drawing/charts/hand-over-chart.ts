// The list of a meet: who gives what to whom, row by row, with a box to tick.
import type { Theme } from '../ink.ts';
import { widthOf } from '../letters.ts';
import type { Plate } from '../page.ts';
import { round, tag } from '../svg.ts';
import { CHART_WIDTH, chartSheet, SIDE, SMALL, TITLE, type ChartSheet } from './chart-sheet.ts';
import { atMost, plainWords } from './figures.ts';
import { rule } from './marks.ts';

export type HandOverRow = { from: string; to: string; piece: string };
export type HandOverChart = {
  title: string;
  /** Each with what its rows have in common; one without rows is left out. */
  parts: readonly { heading: string; rows: readonly HandOverRow[] }[];
};

const NAME = 30;
const ROW = 98;
/** More rows than this would be too long for a phone; the words have them all. */
export const MOST_ROWS = 20;
const BOX = 38;
const TO = 420;

/** Draws a list of hand-overs. @throws RangeError when there is none. */
export function handOverChart({ title, parts }: HandOverChart, theme: Theme = 'light'): Plate {
  const filled = parts.filter(({ rows }) => rows.length > 0);
  if (filled.length === 0) throw new RangeError('a list of hand-overs has at least one');
  const sheet = chartSheet(theme);
  const said = [`${plainWords(title)}.`];
  let y = sheet.paragraph(atMost(plainWords(title), 120), 20 + TITLE, { size: TITLE, weight: 'semibold' });
  let left = MOST_ROWS;
  let more = 0;
  for (const { heading, rows } of filled) {
    const shown = rows.slice(0, left);
    left -= shown.length;
    more += rows.length - shown.length;
    if (shown.length === 0) continue;
    y = sheet.paragraph(plainWords(heading), y + 14, { fill: sheet.ink.quiet });
    said.push(`${plainWords(heading)}:`);
    for (const row of shown) {
      y = drawRow(sheet, row, y);
      said.push(`${plainWords(row.from)} gives ${plainWords(row.to)}: ${plainWords(row.piece)}.`);
    }
    y += 22;
  }
  if (more > 0) {
    y = sheet.paragraph(`and ${more} more, in words above`, y + 14, { fill: sheet.ink.quiet });
    said.push(`And ${more} more.`);
  }
  return sheet.plate(y, said);
}

/** One row; returns where the next begins. */
function drawRow(sheet: ChartSheet, { from, to, piece }: HandOverRow, y: number): number {
  const { ink } = sheet;
  const line = y + NAME;
  const right = CHART_WIDTH - SIDE;
  sheet.draw(rule([SIDE, y - 18], [right, y - 18], ink.rule));
  const name = { size: NAME, weight: 'semibold' as const };
  const giver = cut(plainWords(from), TO - 120 - SIDE, NAME, 'semibold');
  sheet.write(giver, { x: SIDE, y: line }, name);
  const start = SIDE + widthOf(giver, NAME, 'semibold') + 18;
  sheet.draw(
    rule([start, line - 10], [TO - 40, line - 10], ink.line, 5) +
      tag('path', { class: 'gives', d: `M${round(TO - 16)} ${round(line - 10)}l-26 -13v26z`, fill: ink.line }),
  );
  sheet.write(cut(plainWords(to), right - BOX - 20 - TO, NAME, 'semibold'), { x: TO, y: line }, name);
  const words = cut(plainWords(piece), right - BOX - 20 - SIDE, SMALL, 'regular');
  sheet.write(words, { x: SIDE, y: line + 36 }, { fill: ink.words });
  sheet.draw(tag('rect', { class: 'box', x: right - BOX, y: line - 16, width: BOX, height: BOX, rx: 6, fill: 'none', stroke: ink.quiet, 'stroke-width': 4 })); // prettier-ignore
  return y + ROW;
}

/** Words on one line; what does not fit is cut, and the cut is seen. */
function cut(words: string, room: number, size: number, weight: 'regular' | 'semibold'): string {
  if (widthOf(words, size, weight) <= room) return words;
  let kept = words;
  while (kept !== '' && widthOf(`${kept} …`, size, weight) > room) kept = kept.slice(0, -1);
  return `${kept.trimEnd()} …`;
}
