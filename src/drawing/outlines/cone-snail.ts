// A cone snail as it crawls: the spire behind, the slit of the opening below, the siphon raised in front.
import { curve } from '../curve.ts';
import { INK } from '../ink.ts';
import { limb, type Pen, type Sketch } from '../pen.ts';
import { steps, type Point } from '../svg.ts';

export function drawConeSnail(pen: Pen): Sketch {
  const flesh = '#f0dcbc';
  // From the narrow front (left) over the back to the wide shoulder, the low spire, and along the flat side below.
  const shell =
    'M84 214C120 178 210 126 300 102Q322 98 330 112L346 132L358 150L374 166L360 186L350 208L334 232Q322 246 300 242C220 246 140 244 88 236Q76 226 84 214Z';
  const spire = pen.line('M316 100Q352 168 314 244M336 116Q362 168 338 228M350 138Q366 168 352 204', { stroke: pen.detail, 'stroke-width': 3 }); // prettier-ignore
  const lines = pen.line(steps(0.2, 0.8, 3).map((s) => curve([[96, 216 + 14 * s], [200, 158 + 78 * s], [306, 112 + 122 * s]])).join(''), { stroke: pen.detail, 'stroke-width': 1.4, 'stroke-dasharray': '7 9' }); // prettier-ignore
  // Blotches lie in rows round the last turn, each of them whole and none on the spire or in the slit.
  const mottled = pen.pattern === 'mottled';
  const blotches = ([[288, 124, 11], [252, 138, 10], [212, 156, 9], [170, 180, 8], [286, 154, 13], [244, 168, 11], [200, 184, 10], [152, 202, 7], [302, 184, 11], [262, 194, 13], [218, 206, 10], [178, 216, 7], [292, 214, 10], [248, 222, 8]] as const).map(([x, y, r]) => pen.oval(x, y, r * 1.25, r * 0.72, pen.second, { stroke: 'none', 'fill-opacity': 0.8, transform: `rotate(-24 ${x} ${y})` })).join(''); // prettier-ignore
  const slit = pen.shape('M92 230C160 238 236 236 312 228L314 240C236 250 156 248 90 239Z', '#4a3328', {
    'stroke-width': 2.4,
  });
  const foot = pen.shape(curve([[66, 262], [96, 244], [200, 240], [300, 240], [350, 262], [336, 278], [200, 282], [84, 280]], true), flesh); // prettier-ignore
  const siphon: Point[] = [
    [98, 222],
    [62, 206],
    [44, 170],
    [46, 122],
  ];
  const tube = limb(pen, curve(siphon), 20, flesh) + pen.oval(46, 116, 13, 7, '#54453a', { 'stroke-width': 3 }) + pen.line('M34 142h24M34 160h26', { stroke: '#8a5a36', 'stroke-width': 5 }); // prettier-ignore
  const snout = limb(pen, curve([[110, 262], [76, 256], [44, 262]]), 19, flesh) + pen.oval(35, 262, 4.5, 8, '#8a5f4a', { 'stroke-width': 2.4 }); // prettier-ignore
  const eyes = limb(pen, 'M84 240L50 226', 5, flesh) + pen.dot(50, 226, 5, INK);
  const floor = pen.line('M8 284H392', { stroke: '#8a8375', 'stroke-width': 2.4 });
  return {
    marks: floor + tube + snout + foot + eyes + pen.skin(shell, { plain: mottled }) + pen.inside(shell, (mottled ? blotches : '') + lines) + spire + slit,
    parts: { body: [220, 190], shell: [220, 176], surface: [240, 176], pattern: [240, 176], top: [366, 166], mouth: [200, 240], lid: [200, 240], lip: [240, 238], side: [180, 168], edge: [150, 182], base: [86, 224], skin: [250, 190], knobs: [338, 150], foot: [310, 270], feelers: [50, 226], eyes: [50, 226], trunk: [46, 130], head: [60, 256] },
    span: 290,
  }; // prettier-ignore
}
