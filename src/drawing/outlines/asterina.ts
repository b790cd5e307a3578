// Short-armed stars: a body that is nearly a pentagon, blunt arms, a furrow down every arm; some arms grow anew.
import { corners, curve } from '../curve.ts';
import type { Pen, Sketch } from '../pen.ts';
import { polar, steps, type Point } from '../svg.ts';

export type AsterinaShape = {
  /** The length of every arm as a share of the longest; four to seven. */
  arms: readonly number[];
  /** How far the sides between the arms lie from the middle, as a share of the longest arm. */
  waist: number;
  reach?: number;
};

const X = 200;
const FIRST = -90;

export function drawAsterina(pen: Pen, shape: AsterinaShape): Sketch {
  const reach = shape.reach ?? 136;
  const y = 166;
  const turn = 360 / shape.arms.length;
  const angle = (i: number) => FIRST + i * turn;
  const outline = curve(
    shape.arms.flatMap((arm, i): Point[] => {
      const next = shape.arms[(i + 1) % shape.arms.length] ?? arm;
      const far = arm * reach;
      const blunt = Math.min(9, turn * 0.13) / Math.max(arm, 0.6);
      const waist = Math.min(shape.waist, Math.min(arm, next) * 0.94) * reach;
      return [polar(X, y, far * 0.95, angle(i) - blunt), polar(X, y, far, angle(i)), polar(X, y, far * 0.95, angle(i) + blunt), polar(X, y, waist, angle(i) + turn / 2)]; // prettier-ignore
    }),
    true,
  );
  const furrows = shape.arms.map((arm, i) => {
    const end = polar(X, y, arm * reach * 0.88, angle(i));
    const rows = steps(0.3, 0.84, Math.max(2, Math.round(arm * 6))).map((r) => [-1, 1].map((side) => { const [px, py] = polar(X, y, arm * reach * r, angle(i)); const [ex, ey] = polar(px, py, 12 * (1.15 - r), angle(i) + side * 118); return corners([[px, py], [ex, ey]], false); }).join('')).join(''); // prettier-ignore
    return pen.line(curve([[X, y], end]), { stroke: pen.detail, 'stroke-width': 3.4 }) + pen.line(rows, { stroke: pen.detail, 'stroke-width': 2 }); // prettier-ignore
  });
  const grains = shape.arms.flatMap((arm, i) => [0.34, 0.46, 0.56].flatMap((r) => [-0.36, 0.36].map((lean) => pen.dot(...polar(X, y, Math.min(arm, 0.9) * reach * r, angle(i) + lean * turn), 2.6, pen.detail)))); // prettier-ignore
  const shortest = shape.arms.indexOf(Math.min(...shape.arms));
  const [longest] = shape.arms.flatMap((arm, i) => (arm === Math.max(...shape.arms) && i ? [i] : []));
  const at = polar(X, y, (shape.arms[longest ?? 0] ?? 1) * reach * 0.9, angle(longest ?? 0));
  return {
    marks: pen.skin(outline) + furrows.join('') + grains.join('') + pen.dot(X, y, 7, pen.fill, { stroke: pen.detail, 'stroke-width': 2.4 }), // prettier-ignore
    parts: { body: [X, y], skin: polar(X, y, reach * 0.4, angle(2) + turn / 2), disc: [X, y], arms: at, tips: polar(X, y, (shape.arms[shortest] ?? 1) * reach * 0.9, angle(shortest)), edge: polar(X, y, reach * shape.waist, angle(1) + turn / 2), pattern: polar(X, y, reach * 0.4, angle(2) + turn / 2), surface: polar(X, y, reach * 0.4, angle(2) + turn / 2) },
    span: reach * 1.9,
  }; // prettier-ignore
}
