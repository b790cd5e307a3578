// A jelly: a bell that swims mouth down, or a disc that lies on its back.
import { curve } from '../curve.ts';
import { INK } from '../ink.ts';
import { limb, type Pen, type Sketch } from '../pen.ts';
import { steps, type Point } from '../svg.ts';

export type JellyShape = { kind: 'bell' | 'upside-down' };

/** A jelly: a bell that swims mouth down, or a disc that lies on its back with frilly arms up. */
export function drawJelly(pen: Pen, shape: JellyShape): Sketch {
  if (shape.kind === 'bell') {
    const bell =
      'M112 168C104 78 160 40 202 40C246 40 300 78 290 168Q268 184 246 168Q224 184 201 168Q178 184 156 168Q134 184 112 168Z';
    const threads = steps(120, 284, 9).map((x, i) => curve([[x, 172], [x + (i % 2 ? 12 : -12), 214], [x + (i % 2 ? -4 : 6), 250], [x + (i % 2 ? 8 : -8), 292]])); // prettier-ignore
    return {
      marks: pen.line(threads.join(''), { 'stroke-width': 2.6 }) + pen.skin(bell) + pen.line('M201 84V132M174 104q27 22 54 0M150 160Q146 100 176 66M254 160Q258 100 228 66', { 'stroke-width': 2.4 }) + pen.line('M186 132q15 40 0 60m30 -60q-15 40 0 60', { 'stroke-width': 4 }),
      parts: { body: [201, 110], edge: [112, 160], tentacles: [130, 240], arms: [190, 186], mouth: [200, 150], skin: [236, 84], side: [110, 140], threads: [130, 240], crown: [130, 240] },
      span: 180,
    }; // prettier-ignore
  }
  const disc = 'M40 232Q52 276 200 280Q348 276 360 232Q348 206 200 204Q52 206 40 232Z';
  const frill = (x: number, lean: number, tall: number) => {
    const tip: Point = [x + lean, 226 - tall];
    const blobs = steps(0.3, 1, 6).flatMap((s) => [-1, 1].map((side): Point => [x + lean * s + side * (26 - 8 * s), 226 - tall * s + (side > 0 ? 5 : 0)])); // prettier-ignore
    const twigs = blobs.map((at) => limb(pen, curve([[x + lean * 0.8 * (1 - (at[1] - 226 + tall) / tall), at[1] + 12], at]), 4, pen.second)); // prettier-ignore
    const ends = blobs.map(([bx, by]) => pen.dot(bx, by, 8, '#e8f2e4', { stroke: INK, 'stroke-width': 2 }));
    return limb(pen, curve([[x, 230], tip]), 15, pen.second) + twigs.join('') + ends.join('') + pen.dot(tip[0], tip[1], 10, '#e8f2e4', { stroke: INK, 'stroke-width': 2 }); // prettier-ignore
  };
  const arms = ([[100, -34, 92], [300, 34, 92], [146, -20, 124], [254, 20, 124], [200, 0, 136]] as const).map(([x, lean, tall]) => frill(x, lean, tall)).join(''); // prettier-ignore
  return {
    marks: pen.shape('M10 318V276Q200 262 390 276V318Z', '#e6d6b4', { stroke: 'none' }) + pen.skin(disc) + pen.line(steps(70, 330, 12).map((x) => `M${x} 268l${(x - 200) * 0.04} -16`).join(''), { 'stroke-width': 2.4 }) + arms,
    parts: { body: [200, 240], edge: [44, 234], arms: [146, 110], tentacles: [146, 110], skin: [320, 240], side: [60, 250], ground: [60, 298], mouth: [200, 110], crown: [200, 96] },
    span: 320,
  }; // prettier-ignore
}
