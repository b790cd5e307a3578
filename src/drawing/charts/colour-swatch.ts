// One colour beside those that make it stand out, two by two, so that each pair touches.
import type { Theme } from '../ink.ts';
import type { Plate } from '../page.ts';
import { tag } from '../svg.ts';
import { CHART_WIDTH, chartSheet, SIDE, SMALL, TITLE } from './chart-sheet.ts';
import { plainWords } from './figures.ts';

export type Swatch = {
  asked: { name: string; hex: string };
  /** One to four; `why` is a word or two. */
  beside: readonly { name: string; hex: string; why: string }[];
};

const GAP = 28;
const CELL = (CHART_WIDTH - SIDE * 2 - GAP) / 2;
const HEIGHT = 170;
const ROW = HEIGHT + 108;
const MOST = 4;

/** Draws the pairs. @throws RangeError when there is none, more than four, or a colour is no hex. */
export function colourSwatch({ asked, beside }: Swatch, theme: Theme = 'light'): Plate {
  if (beside.length < 1 || beside.length > MOST) throw new RangeError(`one to four colours, got ${beside.length}`);
  for (const { name, hex } of [asked, ...beside]) if (!/^#[0-9a-f]{6}$/i.test(hex)) throw new RangeError(`${name} is no colour: ${hex}`); // prettier-ignore
  const sheet = chartSheet(theme);
  const { ink } = sheet;
  const name = plainWords(asked.name);
  const top = sheet.paragraph(`Beside ${name}`, 52, { size: TITLE, weight: 'semibold' });
  beside.forEach((one, at) => {
    const x = SIDE + (at % 2) * (CELL + GAP);
    const y = top - 14 + Math.floor(at / 2) * ROW;
    const half = CELL / 2;
    // Squares that touch: a frame keeps white on white and black on black to be seen.
    sheet.draw(tag('rect', { x, y, width: half, height: HEIGHT, fill: asked.hex, class: 'asked' }));
    sheet.draw(tag('rect', { x: x + half, y, width: half, height: HEIGHT, fill: one.hex, class: 'beside' }));
    sheet.draw(tag('rect', { x, y, width: CELL, height: HEIGHT, fill: 'none', stroke: ink.quiet, 'stroke-width': 2 }));
    sheet.write(plainWords(one.name), { x: x + CELL, y: y + HEIGHT + 34, align: 'end' }, { weight: 'semibold' });
    sheet.write(plainWords(one.why), { x: x + CELL, y: y + HEIGHT + 66, align: 'end' }, { fill: ink.quiet });
    if (at === 0) sheet.write(name, { x, y: y + HEIGHT + 34 }, { size: SMALL, fill: ink.quiet });
  });
  const rows = Math.ceil(beside.length / 2);
  const list = beside.map((one) => `${plainWords(one.name)} (${plainWords(one.why)})`).join(', ');
  return sheet.plate(top - 14 + rows * ROW - 12, [
    `Squares of ${name}, each touching one of a colour that makes it stand out: ${list}.`,
    'Painted colours; under blue light, and in photos, corals look different.',
  ]);
}
