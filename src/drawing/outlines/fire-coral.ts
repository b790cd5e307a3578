// Fire coral: upright blades with pale rims, pin-prick pores instead of cups, and a fuzz as fine as hair.
import { curve } from '../curve.ts';
import { ROCK } from '../ink.ts';
import { type Pen, type Sketch } from '../pen.ts';
import { steps, strewn, type Point } from '../svg.ts';

/** The rim of every blade, from its left foot over the top to its right foot; the blades behind come first. */
const BLADES: readonly (readonly Point[])[] = [
  [[150, 262], [136, 170], [146, 104], [172, 70], [206, 88], [236, 62], [262, 96], [268, 170], [256, 262]],
  [[30, 276], [24, 200], [36, 146], [62, 128], [84, 150], [108, 120], [138, 146], [148, 206], [140, 276]],
  [[252, 276], [248, 202], [262, 154], [290, 136], [312, 158], [342, 126], [368, 150], [378, 210], [370, 276]],
  [[120, 292], [118, 236], [134, 204], [162, 216], [196, 184], [226, 212], [258, 204], [276, 242], [272, 292]],
]; // prettier-ignore

export function drawFireCoral(pen: Pen): Sketch {
  const rock = pen.shape('M6 318V276Q60 256 130 270Q230 256 300 268Q370 262 394 282V318Z', ROCK, { 'stroke-width': 2 });
  const blades = BLADES.map((line) => {
    const outline = curve(line, true);
    const xs = line.map(([x]) => x);
    const ys = line.map(([, y]) => y);
    const [left, top] = [Math.min(...xs), Math.min(...ys)];
    const pores = strewn(34, left, top + 24, Math.max(...xs) - left, Math.max(...ys) - top - 24).map(([x, y]) => pen.dot(x, y, 1.9, pen.detail)).join(''); // prettier-ignore
    const rim = pen.line(curve(line.slice(1, -1)), { stroke: '#fffaf0', 'stroke-width': 20 });
    return fuzz(pen, line) + pen.skin(outline) + pen.inside(outline, rim + pores) + pen.line(outline);
  });
  return {
    marks: rock + blades.join(''),
    parts: { body: [196, 250], surface: [196, 250], skin: [330, 220], edge: [206, 90], top: [206, 90], tentacles: [62, 116], crown: [62, 116], ground: [60, 304], base: [60, 304], side: [26, 200], pattern: [330, 220], thickness: [26, 200], hole: [196, 250] },
    span: 352,
  }; // prettier-ignore
}

/** Hairs that stand off the rim, three to every stretch of it. */
function fuzz(pen: Pen, line: readonly Point[]): string {
  const middle = line.reduce((sum, [x]) => sum + x, 0) / line.length;
  const hairs = line.slice(1, -2).flatMap(([x, y], i) => {
    const [nx, ny] = line[i + 2] ?? [x, y];
    return steps(0, 0.86, 7).map((s) => { const [hx, hy] = [x + (nx - x) * s, y + (ny - y) * s]; return `M${hx} ${hy}l${(hx - middle) * 0.14} -20`; }); // prettier-ignore
  });
  return pen.line(hairs.join(''), { 'stroke-width': 1.5 });
}
