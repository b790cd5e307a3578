// Stars with arms of their own length each: even, uneven, stubby where they grow anew, webbed, or round like fingers.
import { curve } from '../curve.ts';
import { FILLS, INK } from '../ink.ts';
import type { Parts, Pen, Sketch } from '../pen.ts';
import { polar, steps, upTo, type Point } from '../svg.ts';

export type StarShape = {
  /** The length of every arm, from the middle, as a share of the longest. */
  arms: readonly number[];
  /** How wide an arm is at its base and near its tip, as a share of the longest arm. */
  width?: readonly [number, number];
  /** How far the skin between the arms reaches, as a share of the longest arm. */
  web?: number;
  cover?: 'none' | 'dots' | 'points' | 'thorns' | 'tiles' | 'net' | 'knobs';
  /** A comb of spines along the sides of the arms. */
  comb?: boolean;
  /** Where the middle stands; a comet's arm needs room on one side. */
  middle?: Point;
  radius?: number;
};

const FIRST = -90;

export function drawStar(pen: Pen, shape: StarShape): Sketch {
  const [x, y] = shape.middle ?? [200, 166];
  const reach = shape.radius ?? 140;
  const [base, tip] = (shape.width ?? [0.34, 0.1]).map((share) => share * reach) as [number, number];
  const web = (shape.web ?? 0.34) * reach;
  const turn = 360 / shape.arms.length;
  const outline = curve(
    shape.arms.flatMap((arm, i) => {
      const next = shape.arms[(i + 1) % shape.arms.length] ?? arm;
      const valley = Math.min(web, Math.min(arm, next) * reach * 0.72);
      return armPoints(x, y, arm * reach, base, tip, web, valley, FIRST + i * turn, turn);
    }),
    true,
  );
  const tips = shape.arms.map((arm, i) => polar(x, y, arm * reach * 0.8, FIRST + i * turn));
  const longest = shape.arms.indexOf(Math.max(...shape.arms));
  const sides = tips[longest] ?? [x, y];
  const parts: Parts & { body: Point } = {
    body: [x, y], skin: [x, y], disc: [x, y], arms: sides, pattern: polar(x, y, reach * 0.4, FIRST + turn), spots: polar(x, y, reach * 0.3, FIRST),
    edge: polar(x, y, web, FIRST + turn * 1.5), tips: tips[1] ?? sides,
  }; // prettier-ignore
  if (shape.cover && shape.cover !== 'none') parts.knobs = parts.spines = polar(x, y, reach * 0.45, FIRST + turn);
  if (shape.comb) parts.spines = parts.edge = polar(x, y, reach * 0.6, FIRST + turn + 14);
  const thorns = shape.cover === 'thorns' ? thornMarks(pen, shape, x, y, reach) : '';
  const comb = shape.comb ? combMarks(pen, shape, x, y, reach, base, tip) : '';
  return { marks: comb + thorns + pen.skin(outline) + cover(pen, shape, x, y, reach), parts, span: reach * 1.9 };
}

function armPoints(
  x: number,
  y: number,
  length: number,
  base: number,
  tip: number,
  web: number,
  valley: number,
  angle: number,
  turn: number,
): Point[] {
  const beside = (radius: number, half: number): [Point, Point] => {
    const spread = (Math.atan2(half, radius) * 180) / Math.PI;
    const far = Math.hypot(radius, half);
    return [polar(x, y, far, angle - spread), polar(x, y, far, angle + spread)];
  };
  const inner = Math.min(web, length * 0.7);
  const [a, d] = beside(inner + (length - inner) * 0.35, base * 0.42 + tip * 0.2);
  const [b, c] = beside(length - tip * 0.5, tip * 0.8);
  return [a, b, polar(x, y, length, angle), c, d, polar(x, y, valley * 0.92, angle + turn / 2)];
}

function cover(pen: Pen, shape: StarShape, x: number, y: number, reach: number): string {
  const turn = 360 / shape.arms.length;
  const spots = shape.arms.flatMap((arm, i) =>
    steps(0.16, arm * 0.84, Math.max(2, Math.round(arm * 6))).map((r) => polar(x, y, r * reach, FIRST + i * turn)),
  );
  const ink = { stroke: INK, 'stroke-width': 2 };
  switch (shape.cover ?? 'none') {
    case 'none':
    case 'thorns':
      return '';
    case 'dots':
      return spots.map(([px, py]) => pen.dot(px, py, 2.6, pen.detail)).join('');
    case 'points':
      return spots.map(([px, py]) => pen.shape(curve([[px - 13, py + 9], [px, py - 20], [px + 13, py + 9]], true), pen.second, ink)).join(''); // prettier-ignore
    case 'knobs':
      return [...spots, ...shape.arms.flatMap((arm, i) => [-20, 20].map((lean) => polar(x, y, arm * reach * 0.5, FIRST + i * turn + lean)))]
        .map(([px, py]) => pen.dot(px, py, 7, pen.second, ink)).join(''); // prettier-ignore
    case 'tiles':
      return spots.map(([px, py]) => pen.dot(px, py, 8, '#fbe7cf', ink)).join('') +
        shape.arms.flatMap((arm, i) => [-14, 14].map((lean) => polar(x, y, arm * reach * 0.45, FIRST + i * turn + lean))).map(([px, py]) => pen.dot(px, py, 5.5, '#fbe7cf', ink)).join(''); // prettier-ignore
    case 'net':
      return (
        pen.line(curve(upTo(shape.arms.length).map((i) => polar(x, y, reach * 0.36, FIRST + i * turn)), true), { stroke: FILLS.red, 'stroke-width': 4 }) +
        shape.arms.map((arm, i) => pen.line(curve([[x, y], polar(x, y, arm * reach * 0.85, FIRST + i * turn)]), { stroke: FILLS.red, 'stroke-width': 4 })).join('') +
        spots.map(([px, py]) => pen.dot(px, py, 9, FILLS.red, ink)).join('')
      ); // prettier-ignore
  }
}

function thornMarks(pen: Pen, shape: StarShape, x: number, y: number, reach: number): string {
  const turn = 360 / shape.arms.length;
  const d = shape.arms
    .flatMap((arm, i) =>
      steps(0.5, arm, 5).flatMap((r) =>
        [-1, 1].map((side) => {
          const angle = FIRST + i * turn;
          const [ax, ay] = polar(x, y, r * reach, angle);
          const [bx, by] = polar(ax, ay, 22, angle + side * 52);
          return curve([[ax, ay], [bx, by]]); // prettier-ignore
        }),
      ),
    )
    .join('');
  return pen.line(d, { 'stroke-width': 4 });
}

/** Thorns that stand on the upper side, drawn over the skin. */
export function drawThornyStar(pen: Pen, shape: StarShape): Sketch {
  const sketch = drawStar(pen, { ...shape, cover: 'thorns' });
  const [x, y] = sketch.parts.body;
  const reach = shape.radius ?? 140;
  const turn = 360 / shape.arms.length;
  const over = shape.arms.flatMap((arm, i) =>
    [0.2, 0.42, arm * 0.7].map((r, j) => {
      const [px, py] = polar(x, y, r * reach, FIRST + i * turn + (j === 0 ? turn / 2 : 0));
      return pen.shape(`M${px - 4} ${py + 4}L${px + 3} ${py - 16}L${px + 5} ${py + 5}Z`, FILLS.red, {
        'stroke-width': 2,
      });
    }),
  );
  return { ...sketch, marks: sketch.marks + over.join('') };
}

function combMarks(pen: Pen, shape: StarShape, x: number, y: number, reach: number, base: number, tip: number): string {
  const turn = 360 / shape.arms.length;
  const d = shape.arms
    .flatMap((arm, i) =>
      steps(0.34, arm * 0.95, 9).flatMap((r, j) =>
        [-1, 1].map((side) => {
          const angle = FIRST + i * turn;
          const half = base * 0.5 + (tip * 0.5 - base * 0.5) * (j / 8);
          const [ax, ay] = polar(...polar(x, y, r * reach, angle), half * 0.6, angle + side * 90);
          const [bx, by] = polar(ax, ay, 15, angle + side * 65);
          return curve([[ax, ay], [bx, by]]); // prettier-ignore
        }),
      ),
    )
    .join('');
  return pen.line(d, { 'stroke-width': 2.2 });
}
