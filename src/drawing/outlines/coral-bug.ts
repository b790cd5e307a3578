// A mite of a copepod on the skin of a coral, between polyps that are far larger than itself.
import { curve } from '../curve.ts';
import { INK } from '../ink.ts';
import { limb, type Pen, type Sketch } from '../pen.ts';
import { chance, polar, steps, upTo, type Point } from '../svg.ts';

export type CoralBugShape = {
  /** A spot on the back in another colour. */
  spot?: string;
};

const SKIN = '#e2c79c';
const CUP = '#c9a06c';
const FRAME = 'M2 2H398V318H2Z';
const POLYPS: readonly (readonly [number, number, number])[] = [[66, 74, 56], [214, 44, 50], [350, 92, 54], [56, 244, 54], [206, 282, 52], [350, 252, 56]]; // prettier-ignore

/** The bug from above, head to the left. */
export function drawCoralBug(pen: Pen, shape: CoralBugShape): Sketch {
  const next = chance(17);
  const grain = upTo(130).map(() => pen.dot(next() * 400, next() * 320, 1.5, '#b08d5c')).join(''); // prettier-ignore
  const polyps = POLYPS.map(([x, y, r], i) => polyp(pen, x, y, r, i * 13)).join('');
  const [x, y] = [200, 164];
  const back = [[-52, 8], [-44, 24], [-24, 34], [0, 33], [20, 25], [34, 16], [46, 9], [54, 6]] as const; // prettier-ignore
  const body = curve([...back.map(([dx, dy]): Point => [x + dx, y - dy]), ...[...back].reverse().map(([dx, dy]): Point => [x + dx, y + dy])], true); // prettier-ignore
  const seams = ([[-18, 34], [4, 32], [20, 25], [34, 16], [45, 9]] as const).map(([dx, half]) => `M${x + dx} ${y - half}q6 ${half} 0 ${half * 2}`).join(''); // prettier-ignore
  const legs = steps(-30, 22, 5).flatMap((dx) => [-1, 1].map((s) => limb(pen, `M${x + dx} ${y + s * 24}l${4 + dx * 0.1} ${s * 15}`, 2))).join(''); // prettier-ignore
  const feelers = [-1, 1].map((s) => limb(pen, curve([[x - 48, y + s * 12], [x - 62, y + s * 18], [x - 70, y + s * 30]]), 2.2)).join(''); // prettier-ignore
  const tail = pen.line(`M${x + 52} ${y - 4}l20 -7M${x + 52} ${y + 4}l20 7`, { 'stroke-width': 3 });
  const eye = pen.dot(x - 41, y, 4.6, '#8e1f1a', { stroke: INK, 'stroke-width': 1.4 });
  const spot = shape.spot ? pen.oval(x - 4, y, 13, 11, shape.spot, { 'stroke-width': 2 }) : '';
  const ground = pen.shape(FRAME, SKIN, { stroke: 'none' }) + grain + polyps;
  return {
    marks: pen.inside(FRAME, ground) + legs + feelers + tail + pen.skin(body, { width: 3 }) + pen.inside(body, pen.line(seams, { stroke: pen.detail, 'stroke-width': 1.8 })) + spot + eye,
    parts: {
      body: [x + 22, y], head: [x - 46, y], eyes: [x - 41, y], feelers: [x - 66, y - 24], legs: [x + 4, y + 38], tail: [x + 66, y - 8], rear: [x + 60, y], side: [x, y - 33], edge: [x, y - 33], back: [x + 20, y - 10], skin: [x + 24, y + 12], shell: [x + 20, y - 10],
      pattern: shape.spot ? [x - 4, y] : [x + 24, y + 12], spots: [x - 4, y], surface: [x + 24, y + 12], top: [x, y], claws: [x - 40, y - 30], ground: [128, 116],
    },
    span: 112,
  }; // prettier-ignore
}

/** A cup with its polyp drawn in: twelve short tentacles round a mouth. */
function polyp(pen: Pen, x: number, y: number, r: number, turn: number): string {
  const tentacles = upTo(12).map((i) => limb(pen, curve([polar(x, y, r * 0.3, turn + i * 30), polar(x, y, r * (i % 2 ? 0.62 : 0.72), turn + i * 30)]), 7, '#f2e2bd')).join(''); // prettier-ignore
  return pen.oval(x, y, r, r * 0.94, SKIN, { 'stroke-width': 2.4 }) + pen.oval(x, y, r * 0.84, r * 0.79, CUP, { 'stroke-width': 2.4 }) + tentacles + pen.oval(x, y, r * 0.28, r * 0.26, '#e9d3a4', { 'stroke-width': 2 }) + pen.line(`M${x - r * 0.12} ${y}h${r * 0.24}`, { 'stroke-width': 3 }); // prettier-ignore
}
