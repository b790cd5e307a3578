// Short oval worms: furry like a caterpillar, or armoured with two rows of scales.
import { curve } from '../curve.ts';
import { FILLS, INK } from '../ink.ts';
import type { Pen, Sketch } from '../pen.ts';
import { steps, type Point } from '../svg.ts';

export type OvalWormShape = { coat: 'fur' | 'scales'; marks?: boolean };

export function drawOvalWorm(pen: Pen, shape: OvalWormShape): Sketch {
  const [x, y, rx, ry] = [200, 164, 142, shape.coat === 'fur' ? 44 : 48];
  const half = (s: number) => ry * Math.sqrt(Math.max(0, 1 - s * s)) * (1 - 0.08 * s);
  const rows = steps(-0.94, 0.94, shape.coat === 'fur' ? 38 : 20);
  const long = shape.coat === 'fur' ? 44 : 17;
  const hairs = rows.flatMap((s) => [-1, 1].flatMap((side) => [0, 9, 18].map((lean) => curve([[x + s * rx, y + side * (half(s) - 8)], [x + s * rx + s * 20 + lean, y + side * (half(s) + long * (1 - lean / 40))]])))).join(''); // prettier-ignore
  const body = curve([...steps(-1, 1, 16).map((s): Point => [x + s * rx, y - half(s)]), ...steps(0.88, -0.88, 14).map((s): Point => [x + s * rx, y + half(s)])], true); // prettier-ignore
  const coat = shape.coat === 'fur' ? pen.line(hairs, { 'stroke-width': 3.6 }) + pen.line(hairs, { stroke: '#f7e6a8', 'stroke-width': 1.8 }) : pen.line(hairs, { 'stroke-width': 2.2 }); // prettier-ignore
  const rings = pen.line(steps(-0.85, 0.85, 15).map((s) => curve([[x + s * rx, y - half(s)], [x + s * rx + 5, y], [x + s * rx, y + half(s)]])).join(''), { 'stroke-width': 1.6, stroke: pen.detail }); // prettier-ignore
  const marks = shape.marks ? steps(-0.8, 0.75, 9).map((s) => pen.oval(x + s * rx, y, 7, 11, FILLS.purple, { 'stroke-width': 1.6 })).join('') : ''; // prettier-ignore
  const scales = steps(0.82, -0.86, 10).flatMap((s) => [-1, 1].map((side) => pen.oval(x + s * rx, y + side * half(s) * 0.46, 19, Math.max(8, half(s) * 0.54), pen.fill, { 'stroke-width': 2.4 }) + pen.dot(x + s * rx - 3, y + side * half(s) * 0.46, 5, pen.second, { stroke: INK, 'stroke-width': 1 }))).join(''); // prettier-ignore
  const head = pen.line(`M${x - rx + 4} ${y - 8}l-20 -12m20 22l-20 12`, { 'stroke-width': 3 });
  const side: Point = [x - 40, y - half(-0.28) - long * 0.6];
  return {
    marks: coat + head + pen.skin(body) + (shape.coat === 'fur' ? rings + marks : scales),
    parts: {
      body: [x, y],
      head: [x - rx, y],
      side,
      bristles: side,
      edge: [x + rx, y],
      skin: [x + 40, y - 16],
      back: [x + 30, y - 20],
      plates: [x + 30, y - 20],
      pattern: [x + 20, y],
    },
    span: rx * 2,
  };
}
