// A sheet of small drawings for a question: up to nine answers, each with its number and label.
import { badge } from './callouts.ts';
import { PAPERS, type Theme } from './ink.ts';
import { wrapped } from './letters.ts';
import { card, framed, lineHeight, writing, type Plate } from './page.ts';
import { drawCritter, type Subject } from './subject.ts';
import { group } from './svg.ts';

/** One answer: the words on its button, and what to draw. */
export type Option = { label: string; subject: Subject };

const CELL = 200;
const GAP = 20;
const SIDE = 20;
const LABEL = 26;
const COLUMNS = 3;

/** Draws up to nine answers in rows of three, numbered from 1 in their order. */
export function optionSheet(question: string, options: readonly Option[], theme: Theme = 'light'): Plate {
  const paper = PAPERS[theme];
  const shown = options.slice(0, 9);
  const width = SIDE * 2 + COLUMNS * CELL + (COLUMNS - 1) * GAP;
  const title = wrapped(question, width - SIDE * 2, 28, 'semibold');
  let y = 22 + title.length * lineHeight(28) + 14;
  let marks = writing(title, SIDE, 22 + 28, { size: 28, weight: 'semibold', fill: paper.words });
  for (let row = 0; row * COLUMNS < shown.length; row++) {
    const cells = shown.slice(row * COLUMNS, row * COLUMNS + COLUMNS);
    const labels = cells.map(({ label }) => wrapped(label, CELL + 6, LABEL));
    marks += cells.map(({ subject }, column) => cell(subject, SIDE + column * (CELL + GAP), y, row * COLUMNS + column)).join(''); // prettier-ignore
    marks += labels.map((lines, column) => writing(lines, SIDE + column * (CELL + GAP) + CELL / 2, y + CELL + 34, { size: LABEL, fill: paper.words, align: 'middle' })).join(''); // prettier-ignore
    y += CELL + 34 + Math.max(...labels.map((lines) => lines.length)) * lineHeight(LABEL) + 4;
  }
  const said = [question, ...shown.map(({ label }, i) => `${i + 1}: ${label}.`)];
  return { svg: framed(width, y + 6, theme, marks), width, height: y + 6, said };

  function cell(subject: Subject, x: number, top: number, index: number): string {
    const drawing = drawCritter(subject, `o${index}x`);
    const scale = (CELL - 12) / drawing.width;
    const lower = top + (CELL - drawing.height * scale) / 2 + 8;
    return card(x, top, CELL, CELL, paper) + group(drawing.marks, { x: x + 6, y: lower, scale }) + badge([x + 26, top + 26], index + 1, paper); // prettier-ignore
  }
}
