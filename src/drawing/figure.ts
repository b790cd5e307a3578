// One card of a plate: the animal, the badges that point at it, and the bar that tells its size.
import { BADGE, badge, placeBadges, pointer } from './callouts.ts';
import type { Paper } from './ink.ts';
import { card, writing } from './page.ts';
import { scaleFor, likeThing, shownMm } from './scale-bar.ts';
import { drawCritter, type Drawing, type Subject } from './subject.ts';
import { group, round, tag, type Point } from './svg.ts';
import { tellingPart, tellsSize } from './telling-parts.ts';

export type Figure = { marks: string; pointed: readonly boolean[] };
export type FigurePlace = { x: number; y: number; width: number; drawingHeight: number };

const EDGE = 34;
const DRAWING_EDGE = 16;
export const SCALE_HEIGHT = 104;

/** Draws an animal in a card; each feature that a still picture can show gets its number and a line. */
export function figure(
  subject: Subject,
  features: readonly string[],
  place: FigurePlace,
  paper: Paper,
  prefix: string,
): Figure {
  const { x, y, width, drawingHeight } = place;
  const drawing = drawCritter(subject, prefix);
  const scale = Math.min(
    (width - DRAWING_EDGE * 2) / drawing.width,
    (drawingHeight - DRAWING_EDGE * 2) / drawing.height,
  );
  const [left, top] = [x + (width - drawing.width * scale) / 2, y + (drawingHeight - drawing.height * scale) / 2];
  const anchors = features.map((feature) => {
    const found = tellingPart(feature, drawing.parts);
    return found ? ([left + found.at[0] * scale, top + found.at[1] * scale] as Point) : undefined;
  });
  const spread = apart(anchors);
  // A feature that tells a size points at the bar below.
  const sized = subject.sizeMm ? features.flatMap((feature, i) => (!anchors[i] && tellsSize(feature) ? [i] : [])) : [];
  const shown = spread.filter((anchor): anchor is Point => anchor !== undefined);
  const room = { x: x + EDGE, y: y + EDGE, width: width - EDGE * 2, height: drawingHeight - EDGE - BADGE - 6 };
  const places = placeBadges(shown, room);
  const badges = spread.map((anchor, i) => {
    const at = anchor && places[shown.indexOf(anchor)];
    return anchor && at ? { line: pointer(at, anchor, paper), disc: badge(at, i + 1, paper) } : { line: '', disc: '' };
  });
  const marks =
    card(x, y, width, drawingHeight + SCALE_HEIGHT, paper) +
    group(drawing.marks, { x: left, y: top, scale }) +
    badges.map(({ line }) => line).join('') +
    badges.map(({ disc }) => disc).join('') +
    scaleStrip(subject, drawing, scale, x, y + drawingHeight, width) +
    sized.map((i, order) => badge([order ? x + width - 28 : x + 28, y + drawingHeight + 80], i + 1, paper)).join('');
  return { marks, pointed: spread.map((anchor, i) => anchor !== undefined || sized.includes(i)) };
}

/** Two features may tell of the same part; their rings are set side by side then. */
function apart(anchors: readonly (Point | undefined)[]): (Point | undefined)[] {
  return anchors.map((anchor, i) => {
    if (!anchor) return undefined;
    const same = anchors
      .slice(0, i)
      .filter((other) => other && Math.hypot(other[0] - anchor[0], other[1] - anchor[1]) < 16).length;
    return same ? [anchor[0] + same * 22, anchor[1] - same * 12] : anchor;
  });
}

/** The bar with its length and the thing to compare, or the size in words where the drawing has no scale. */
export function scaleStrip(
  subject: Subject,
  drawing: Drawing,
  scale: number,
  x: number,
  y: number,
  width: number,
): string {
  if (!subject.sizeMm) return '';
  const words = { size: 26, fill: '#3c3934', align: 'middle' } as const;
  const rule = tag('line', { x1: x + 18, y1: y, x2: x + width - 18, y2: y, stroke: '#d3cbb9', 'stroke-width': 2 });
  if (drawing.span === undefined) {
    const [low, high] = subject.sizeMm;
    if (high > low * 60) return rule + writing(['Not to scale'], x + width / 2, y + 56, words);
    return (
      rule +
      writing(['Not to scale; real size', `near a ${likeThing(shownMm(subject.sizeMm))}`], x + width / 2, y + 40, words)
    );
  }
  const { barMm, barPx, thing } = scaleFor(subject.sizeMm, drawing.span * scale);
  const [barX, base] = [x + width * 0.27 - barPx / 2, y + 56];
  const bar = tag('path', { d: `M${round(barX)} ${base - 10}v14M${round(barX)} ${base - 3}h${round(barPx)}m0 -7v14`, fill: 'none', stroke: '#2c2a27', 'stroke-width': 4 }); // prettier-ignore
  const told = writing([`${barMm} mm`], x + width * 0.27, base + 34, words);
  if (!thing) return rule + bar + told;
  const thingX = x + width * 0.71 - thing.px / 2;
  return (
    rule +
    bar +
    told +
    group(thing.marks, { x: thingX, y: base }) +
    writing([thing.name], x + width * 0.71, base + 34, words)
  );
}
