// A worm snail: a hard tube coiled once on the rock and then standing up, with a snail's head in its round mouth.
import { along, curve } from '../curve.ts';
import { INK, ROCK } from '../ink.ts';
import { limb, type Pen, type Sketch } from '../pen.ts';
import { upTo, type Point } from '../svg.ts';

const FLESH = '#e2b58e';
const WIDE = 44;

/** The tube, the head with its two horns, and a few slime threads that sag into the flow. */
export function drawVermetid(pen: Pen): Sketch {
  const [cx, cy] = [160, 246];
  const coil = upTo(22).map((i): Point => {
    const turn = ((420 - i * 20) * Math.PI) / 180;
    const reach = 20 + i * 2.6;
    return [cx + Math.cos(turn) * reach, cy + Math.sin(turn) * reach * 0.46];
  });
  const [ex, ey] = coil.at(-1) ?? [cx, cy];
  const line: Point[] = [...coil, [ex + 12, ey - 40], [ex + 4, ey - 84], [ex - 14, ey - 122], [ex - 16, ey - 146]];
  const places = along(line, 64);
  const wide = (t: number) => WIDE * (0.34 + 0.66 * t);
  // Piece by piece from the old end to the young one, so that a turn lies upon the turn before it.
  const tube = places.slice(1).map((p, i) => {
    const before = places[Math.max(0, i - 1)] ?? p;
    const from = places[i] ?? p;
    const piece = (a: { x: number; y: number }) => `M${a.x} ${a.y}L${p.x} ${p.y}`;
    return pen.line(piece(from), { 'stroke-width': wide(p.t) + 6, 'stroke-linecap': i > 60 ? 'butt' : 'round' }) + pen.line(piece(before), { stroke: '#f3ead9', 'stroke-width': wide(p.t), 'stroke-linecap': i > 60 ? 'butt' : 'round' }); // prettier-ignore
  });
  const growth = pen.line(places.slice(6, -3).filter((_, i) => i % 2 === 0).map((p) => { const half = wide(p.t) * 0.5; return `M${p.x + p.nx * half} ${p.y + p.ny * half}Q${p.x + p.ny * 6} ${p.y - p.nx * 6} ${p.x - p.nx * half} ${p.y - p.ny * half}`; }).join(''), { 'stroke-width': 1.7, stroke: '#8f7d66' }); // prettier-ignore
  const [x, y] = line.at(-1) ?? [200, 120];
  const mouth = pen.oval(x, y, WIDE / 2 + 5, 13, '#f3ead9') + pen.oval(x, y, WIDE / 2 - 1, 9, '#77506f', { 'stroke-width': 2.4 }); // prettier-ignore
  const paths: readonly (readonly Point[])[] = [[[x - 12, y - 4], [x - 62, y - 44], [x - 118, y - 20], [x - 150, y + 58], [x - 176, y + 70]], [[x - 10, y - 4], [x - 40, y - 22], [x - 72, y + 30], [x - 92, y + 96]], [[x + 14, y - 4], [x + 46, y - 34], [x + 74, y + 24], [x + 84, y + 112]], [[x + 12, y - 6], [x + 40, y - 60], [x + 88, y - 50], [x + 104, y + 20]]]; // prettier-ignore
  const threads = paths.map((points) => curve(points)).join('');
  const slime = pen.line(threads, { stroke: '#5f787c', 'stroke-width': 2.2 });
  const horns = [-1, 1].map((s) => limb(pen, curve([[x + s * 7, y - 20], [x + s * 13, y - 34], [x + s * 21, y - 44]]), 4.5, FLESH)).join(''); // prettier-ignore
  const head = horns + pen.shape(`M${x - 15} ${y + 3}C${x - 17} ${y - 34} ${x + 17} ${y - 34} ${x + 15} ${y + 3}Q${x} ${y + 9} ${x - 15} ${y + 3}Z`, FLESH, { 'stroke-width': 2.8 }) + [-1, 1].map((s) => pen.dot(x + s * 7, y - 14, 2.6, INK)).join(''); // prettier-ignore
  const rock = pen.shape('M10 318V268Q110 246 200 256T390 264V318Z', ROCK, { 'stroke-width': 2 });
  return {
    marks: rock + tube.join('') + growth + mouth + slime + head,
    parts: {
      body: [x, y + 60], tube: [ex + 10, ey - 50], shell: [ex + 10, ey - 50], side: [ex + 10, ey - 50], edge: [cx - 60, cy + 10], skin: [ex + 10, ey - 50], column: [ex + 10, ey - 50], base: [cx - 20, cy + 40], foot: [cx - 20, cy + 40], mat: [cx, cy + 40], ground: [60, 296],
      mouth: [x + 22, y], crown: [x + 13, y - 33], head: [x + 13, y - 33], feelers: [x + 20, y - 43], threads: [x - 136, y + 16], lid: [x, y - 16], hole: [x + 22, y],
    },
    span: 250,
  }; // prettier-ignore
}
