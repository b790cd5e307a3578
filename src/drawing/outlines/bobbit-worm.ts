// A bobbit worm in wait: only the wide head stands out of a hole in the sand, with its jaws open like scissors.
import { along, curve, tapered } from '../curve.ts';
import { SAND } from '../ink.ts';
import { limb, type Pen, type Sketch } from '../pen.ts';
import { steps, upTo, type Point } from '../svg.ts';

const BODY: readonly Point[] = [[208, 282], [212, 232], [194, 186], [198, 130]]; // prettier-ignore

export function drawBobbitWorm(pen: Pen): Sketch {
  const half = (t: number) => 62 - 10 * t;
  const places = along(BODY, 12);
  const rings = pen.line(places.slice(1, -1).map((p) => curve([[p.x + p.nx * half(p.t), p.y + p.ny * half(p.t)], [p.x, p.y - 9], [p.x - p.nx * half(p.t), p.y - p.ny * half(p.t)]])).join(''), { stroke: pen.detail, 'stroke-width': 2.8 }); // prettier-ignore
  const feet = places.slice(1, -1).flatMap((p) => [1, -1].map((s) => pen.line(curve([[p.x + p.nx * half(p.t) * s, p.y + p.ny * half(p.t) * s], [p.x + p.nx * (half(p.t) + 15) * s, p.y + p.ny * (half(p.t) + 15) * s - 5]]), { 'stroke-width': 5 }))).join(''); // prettier-ignore
  const jaw = (s: number) => pen.shape(curve([[198 + s * 24, 132], [198 + s * 70, 104], [198 + s * 98, 58], [198 + s * 82, 16], [198 + s * 54, 10], [198 + s * 74, 50], [198 + s * 48, 86], [198 + s * 8, 110]], true), '#efe2c4', { 'stroke-width': 4 }) + pen.line(steps(0, 1, 4).map((t) => `M${198 + s * (70 - 14 * t)} ${44 + 34 * t}l${-s * 13} -5`).join(''), { 'stroke-width': 4 }); // prettier-ignore
  const feelers = [[-1, 78, 60], [-1, 48, 10], [0, 0, -6], [1, 48, 10], [1, 78, 60]].map(([s, out, top], i) => { const line: Point[] = [[198 + (i - 2) * 15, 140], [198 + (s ?? 0) * (out ?? 0) * 0.6, 118 + (top ?? 0) * 0.4], [198 + (s ?? 0) * ((out ?? 0) + 54), 104 + (top ?? 0)]]; const [, , tip] = line; const end: Point = i === 2 ? [198, 44] : (tip ?? [198, 40]); return limb(pen, curve([line[0] ?? end, line[1] ?? end, end]), 7, pen.second); }); // prettier-ignore
  const sand = pen.shape('M6 318V276Q90 262 140 268Q146 296 206 298Q268 296 276 266Q330 262 394 274V318Z', SAND, {
    'stroke-width': 2,
  });
  const grains = upTo(26)
    .map((i) => pen.dot(16 + i * 15, 302 + ((i * 7) % 12), 1.8, '#a58d5f'))
    .join('');
  return {
    marks: pen.oval(208, 272, 92, 26, '#6f6455') + feet + jaw(-1) + jaw(1) + pen.skin(tapered(BODY, half)) + rings + feelers.join('') + sand + grains,
    parts: { body: [200, 190], jaws: [124, 30], head: [198, 136], mouth: [198, 100], feelers: [90, 150], hole: [128, 280], ground: [60, 298], side: [258, 200], edge: [258, 200], skin: [212, 216], pattern: [212, 216], base: [208, 286], eyes: [198, 136], tentacles: [90, 150], surface: [212, 216], bristles: [270, 216] },
    span: 124,
  }; // prettier-ignore
}
