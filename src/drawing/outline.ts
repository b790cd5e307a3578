// Every outline by its name. A subject names one and gives its proportions; the types keep the two together.
import type { Pen, Sketch } from './pen.ts';
import { drawBrittleStar, drawFeatherStar } from './outlines/brittle-star.ts';
import { drawPolyp } from './outlines/polyp.ts';
import { drawShell } from './outlines/shell.ts';
import { drawStar, drawThornyStar } from './outlines/star.ts';
import { drawWorm } from './outlines/worm.ts';

const OUTLINES = {
  worm: drawWorm,
  star: drawStar,
  'thorny-star': drawThornyStar,
  'brittle-star': drawBrittleStar,
  'feather-star': drawFeatherStar,
  polyp: drawPolyp,
  shell: drawShell,
};

export type OutlineName = keyof typeof OUTLINES;
type ShapeOf<Name extends OutlineName> = Parameters<(typeof OUTLINES)[Name]>[1];
export type Outline = { [Name in OutlineName]: { outline: Name } & ShapeOf<Name> }[OutlineName];

export const OUTLINE_NAMES = Object.keys(OUTLINES) as OutlineName[];

/** Draws an outline in its box with the colours of the pen. */
export function drawOutline(pen: Pen, shape: Outline): Sketch {
  // The type of `Outline` ties each name to its own shape, which TypeScript cannot follow through the look-up.
  const draw = OUTLINES[shape.outline] as (pen: Pen, shape: Outline) => Sketch;
  return draw(pen, shape);
}
