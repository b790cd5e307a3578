// The plate of one animal: a large drawing with up to three parts called out in words.
import { pointer } from './callouts.ts';
import { SCALE_HEIGHT, scaleStrip } from './figure.ts';
import { PAPERS, type Theme } from './ink.ts';
import { widthOf, wrapped } from './letters.ts';
import { card, framed, lineHeight, writing, type Plate } from './page.ts';
import { PLATE_WIDTH, type Named } from './pair-plate.ts';
import { sizeInWords } from './scale-bar.ts';
import { drawCritter } from './subject.ts';
import { group, tag, type Point } from './svg.ts';
import { tellingPart } from './telling-parts.ts';

/** A part to point at, by the word for it (such as "claw tips"), and what is said about it. */
export type Callout = { feature: string; words: string };

const SIDE = 18;
const WIDTH = PLATE_WIDTH - SIDE * 2;
const DRAWING = { width: 600, height: 480 };
const HEIGHT = 640;
const SIZE = 26;
const LABEL = 290;

/** Draws one animal. Callouts whose part cannot be drawn are said below the picture instead. */
export function critterPlate(subject: Named & { callouts?: readonly Callout[] }, theme: Theme = 'light'): Plate {
  const paper = PAPERS[theme];
  const callouts = (subject.callouts ?? []).slice(0, 3);
  const drawing = drawCritter(subject.subject, 'c');
  const name = wrapped(subject.name, WIDTH, 38, 'semibold');
  const sizeY = 24 + name.length * lineHeight(38) + 22;
  const size = subject.subject.sizeMm ? [sizeInWords(subject.subject.sizeMm)] : [];
  const top = sizeY + (size.length ? 20 : -16);
  const scale = DRAWING.width / drawing.width;
  const [left, drawingTop] = [(PLATE_WIDTH - DRAWING.width) / 2, top + (HEIGHT - DRAWING.height) / 2];

  const anchored = callouts.map((callout) => {
    const found = tellingPart(callout.feature, drawing.parts);
    return found ? { callout, at: [left + found.at[0] * scale, drawingTop + found.at[1] * scale] as Point } : undefined;
  });
  const shown = anchored.filter((one) => one !== undefined);
  const labels = labelled(shown, top);
  const lines = labels.map(({ at, end }) => pointer(end, at, paper)).join('');
  const boxes = labels.map(({ x, y, width, height, text }) =>
    tag('rect', { x, y, width, height, rx: 10, fill: '#fffdf8', stroke: paper.mark, 'stroke-width': 2.5 }) +
    writing(text, x + 14, y + 34, { size: SIZE, fill: '#23221f' })); // prettier-ignore

  const below = callouts.filter((_, i) => !anchored[i]).flatMap(({ feature, words }) => wrapped(`${feature}: ${words}`, WIDTH - 8, SIZE)); // prettier-ignore
  const cardBottom = top + HEIGHT + SCALE_HEIGHT;
  const height = cardBottom + (below.length ? below.length * lineHeight(SIZE) + 28 : 0) + 18;
  const marks =
    writing(name, PLATE_WIDTH / 2, 18 + 38, { size: 38, weight: 'semibold', fill: paper.words, align: 'middle' }) +
    writing(size, PLATE_WIDTH / 2, sizeY, { size: SIZE, fill: paper.quiet, align: 'middle' }) +
    card(SIDE, top, WIDTH, HEIGHT + SCALE_HEIGHT, paper) +
    group(drawing.marks, { x: left, y: drawingTop, scale }) +
    lines +
    boxes.join('') +
    scaleStrip(subject.subject, drawing, scale, SIDE, top + HEIGHT, WIDTH) +
    writing(below, SIDE + 4, cardBottom + 40, { size: SIZE, fill: paper.words });
  const said = [
    `Drawing of ${subject.name}.`,
    ...callouts.map(({ feature, words }) => `${feature}: ${words}.`),
    ...(size.length ? [`Size ${size[0]}.`] : []),
  ];
  return { svg: framed(PLATE_WIDTH, height, theme, marks), width: PLATE_WIDTH, height, said };
}

type Label = { at: Point; end: Point; x: number; y: number; width: number; height: number; text: string[] };

/** Boxes of words near the corners of the card, the nearest free corner for each part. */
function labelled(shown: readonly { callout: Callout; at: Point }[], top: number): Label[] {
  const sizes = shown.map(({ callout }) => {
    const text = wrapped(callout.words, LABEL - 28, SIZE).slice(0, 5);
    return { text, width: Math.max(...text.map((line) => widthOf(line, SIZE))) + 28, height: text.length * lineHeight(SIZE) + 22 };
  }); // prettier-ignore
  const corners: readonly (readonly [number, number])[] = [[0, 0], [1, 0], [0, 1], [1, 1]]; // prettier-ignore
  const spot = (corner: readonly [number, number], size: { width: number; height: number }): Point => [
    corner[0] ? PLATE_WIDTH - SIDE - 16 - size.width : SIDE + 16,
    corner[1] ? top + HEIGHT - 16 - size.height : top + 16,
  ];
  const ends = (corner: readonly [number, number], at: Point, size: { width: number; height: number }): Point => {
    const [x, y] = spot(corner, size);
    return [Math.min(x + size.width - 16, Math.max(x + 16, at[0])), corner[1] ? y : y + size.height];
  };
  // The ends of the lines stand in for badges; the cheapest corners without crossing lines are kept.
  let best: { cost: number; order: number[] } = { cost: Infinity, order: [] };
  const tryOrder = (order: number[], cost: number): void => {
    if (cost >= best.cost) return;
    const next = shown[order.length];
    const size = sizes[order.length];
    if (!next || !size) {
      best = { cost, order };
      return;
    }
    corners.forEach((corner, i) => {
      if (order.includes(i)) return;
      const end = ends(corner, next.at, size);
      tryOrder([...order, i], cost + Math.hypot(end[0] - next.at[0], end[1] - next.at[1]));
    });
  };
  tryOrder([], 0);
  return shown.flatMap(({ at }, i) => {
    const corner = corners[best.order[i] ?? i];
    const size = sizes[i];
    if (!corner || !size) return [];
    const [x, y] = spot(corner, size);
    return [{ at, end: ends(corner, at, size), x, y, ...size }];
  });
}
