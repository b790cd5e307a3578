// What grows as a sheet over rock: crusts of algae, colonies in tiny boxes, corals, sponges in holes; and sacs.
import { curve } from '../curve.ts';
import { ROCK } from '../ink.ts';
import { type Parts, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, upTo, type Point } from '../svg.ts';

export type CrustShape = {
  face: 'plain' | 'honeycomb' | 'chimneys' | 'flowers' | 'cups' | 'flakes' | 'knobs';
  /** A living coral beside it: it stops at the flesh, or creeps over it. */
  edge?: 'stops' | 'creeps';
};

const SHEET = curve([[22, 236], [46, 176], [112, 148], [196, 140], [284, 152], [350, 178], [378, 236], [330, 268], [200, 276], [70, 268]], true); // prettier-ignore

export function drawCrust(pen: Pen, shape: CrustShape): Sketch {
  const rock = pen.shape('M6 318V252Q20 170 110 134Q200 112 300 138Q384 172 394 252V318Z', ROCK, { 'stroke-width': 2 });
  const parts: Parts & { body: Point } = { body: [200, 210], surface: [160, 204], skin: [240, 204], edge: [30, 222], ground: [60, 300], hole: [200, 190], base: [60, 300], thickness: [36, 206], top: [200, 150], pattern: [240, 204], tentacles: [200, 150], strand: [200, 190], side: [30, 222] }; // prettier-ignore
  if (shape.face === 'chimneys') return { marks: rock + chimneys(pen, parts), parts, span: 320 };
  if (shape.face === 'knobs') return { marks: rock + blobs(pen, parts), parts, span: 84 };
  const sheet = SHEET;
  const coral = shape.edge ? pen.shape('M262 300Q258 200 300 132Q346 100 396 126V300Z', '#e2bd8f', { 'stroke-width': 2.6 }) + upTo(12).map((i) => pen.oval(316 + (i % 3) * 28, 150 + Math.floor(i / 3) * 36, 9, 6, '#b98a5c', { 'stroke-width': 1.6 })).join('') : ''; // prettier-ignore
  if (shape.edge) parts.ground = parts.edge = shape.edge === 'stops' ? [272, 222] : [366, 212];
  const body = pen.skin(sheet) + pen.inside(sheet, faceMarks(pen, shape.face)) + pen.line(sheet);
  const over = overMarks(pen, shape.face, parts);
  const creep = shape.edge === 'creeps' ? pen.shape(curve([[246, 172], [300, 158], [356, 146], [366, 160], [316, 182], [350, 192], [384, 204], [380, 222], [326, 222], [356, 240], [362, 258], [318, 260], [246, 262]], true), pen.fill) + pen.oval(252, 214, 26, 38, pen.fill, { stroke: 'none' }) : ''; // prettier-ignore
  return { marks: rock + (shape.edge === 'creeps' ? coral + body + creep : body + coral) + over, parts, span: 350 };
}

function faceMarks(pen: Pen, face: CrustShape['face']): string {
  const grid = (dx: number, dy: number, draw: (x: number, y: number, i: number) => string) =>
    steps(20, 380, Math.round(360 / dx)).flatMap((x, c) => steps(120, 280, Math.round(160 / dy)).map((y, r) => draw(x, y + (c % 2 ? dy / 2 : 0), c + r))).join(''); // prettier-ignore
  const light = { stroke: pen.detail, 'stroke-width': 1.8 };
  switch (face) {
    case 'honeycomb':
      return pen.line(grid(21, 24, (x, y) => `M${x - 7} ${y - 10}h14l7 10l-7 10h-14l-7 -10Z`), light) + grid(21, 24, (x, y) => pen.dot(x, y, 3.2, pen.detail)); // prettier-ignore
    case 'flowers':
      return grid(56, 52, (x, y) => upTo(7).map((i) => { const [px, py] = polar(x, y, 14, i * 51); return pen.oval(px, py, 7, 4.5, '#fff4d6', { 'stroke-width': 1.6, transform: `rotate(${i * 51} ${px} ${py})` }); }).join('') + pen.dot(x, y, 4.5)); // prettier-ignore
    case 'cups':
      return grid(58, 50, (x, y) => pen.oval(x, y, 22, 19, pen.second, { 'stroke-width': 3 }) + pen.line(upTo(10).map((i) => curve([polar(x, y, 8, i * 36), polar(x, y, 18, i * 36)])).join(''), { 'stroke-width': 2 }) + pen.dot(x, y, 5)); // prettier-ignore
    case 'flakes':
      return pen.line('M60 230Q120 200 190 226M150 180Q220 160 290 190M220 250Q280 226 350 240', {
        stroke: pen.detail,
        'stroke-width': 2,
      });
    case 'plain':
      // Round spots that have grown into one another, each with a pale growing rim.
      return ([[90, 220, 62], [190, 176, 54], [250, 244, 58], [320, 190, 50], [150, 262, 40]] as const).map(([x, y, r]) => pen.oval(x, y, r, r * 0.66, pen.fill, { stroke: '#fff3f4', 'stroke-width': 7 }) + pen.oval(x, y, r * 0.56, r * 0.36, 'none', { stroke: pen.detail, 'stroke-width': 1.6, 'stroke-dasharray': '10 8' })).join(''); // prettier-ignore
    case 'chimneys':
    case 'knobs':
      return '';
  }
}

function overMarks(pen: Pen, face: CrustShape['face'], parts: Parts): string {
  if (face === 'flakes') {
    parts.edge = [34, 170];
    // The papery edge stands off the rock, ragged, with its pale lower side in view.
    return pen.shape('M30 240L4 226L18 210L6 190L30 180L28 158L54 160L62 138L84 148L104 128L122 146Q70 166 46 200Q34 218 30 240Z', '#f3d3c6'); // prettier-ignore
  }
  if (face === 'cups') {
    parts.tentacles = [140, 120];
    return [80, 140, 200, 262, 318].map((x) => steps(-150, -30, 6).map((a) => pen.line(curve([[x, 150 + ((x - 200) / 162) ** 2 * 30], polar(x, 150 + ((x - 200) / 162) ** 2 * 30, 30, a)]), { 'stroke-width': 2.4 })).join('')).join(''); // prettier-ignore
  }
  return '';
}

function chimneys(pen: Pen, parts: Parts): string {
  parts.hole = parts.surface = parts.body = [130, 176];
  const spots = [[70, 236, 16], [130, 190, 22], [200, 240, 18], [212, 168, 20], [286, 200, 23], [340, 244, 16], [142, 262, 13], [270, 268, 13]] as const; // prettier-ignore
  const pits = upTo(22)
    .map((i) => pen.dot(40 + ((i * 71) % 320), 190 + ((i * 37) % 100), 4, '#8d8373'))
    .join('');
  return pits + spots.map(([x, y, r]) => pen.oval(x, y, r + 5, (r + 5) * 0.7, '#6f6557') + pen.skin(`M${x - r} ${y}V${y - r}Q${x} ${y - r * 1.7} ${x + r} ${y - r}V${y}Q${x} ${y + r * 0.8} ${x - r} ${y}Z`) + pen.oval(x, y - r * 1.1, r * 0.42, r * 0.24, '#53362d', { 'stroke-width': 2 })).join('') + pen.line('M60 296h5m16 6h5m120 -4h5m14 6h5m60 -6h5', { stroke: '#ffffff', 'stroke-width': 6 }); // prettier-ignore
}

function blobs(pen: Pen, parts: Parts): string {
  parts.edge = parts.body = parts.surface = [132, 190];
  return (
    [
      [132, 200, 42],
      [262, 176, 30],
      [300, 246, 36],
      [206, 252, 22],
      [62, 252, 20],
      [346, 196, 15],
    ] as const
  )
    .map(
      ([x, y, r]) =>
        pen.skin(
          curve(
            upTo(9).map((i) => polar(x, y, r * (i % 2 ? 1.08 : 0.9), i * 40)),
            true,
          ),
        ) +
        pen.oval(x - r * 0.2, y - r * 0.3, r * 0.3, r * 0.2, '#ffffff', { 'stroke-width': 1.4, 'fill-opacity': 0.7 }),
    ) // prettier-ignore
    .join('');
}

export type SacShape = { kind: 'squirt' | 'bristly' };

/** Sacs with two openings on top, or bristly barrels with one. */
export function drawSac(pen: Pen, shape: SacShape): Sketch {
  const rock = pen.shape('M10 318V276Q110 256 200 266T390 272V318Z', ROCK, { 'stroke-width': 2 });
  if (shape.kind === 'squirt') {
    const bag = curve([[130, 268], [108, 190], [128, 118], [138, 64], [190, 60], [200, 108], [238, 128], [268, 104], [302, 128], [288, 190], [274, 268], [200, 280]], true); // prettier-ignore
    return {
      marks: rock + pen.skin(bag) + pen.oval(165, 62, 28, 12, '#5b4a42') + pen.oval(287, 116, 21, 13, '#5b4a42', { transform: 'rotate(38 287 116)' }) + pen.line('M150 120Q146 190 164 240M240 160Q246 210 236 250', { stroke: pen.detail, 'stroke-width': 1.8 }),
      parts: { body: [200, 180], mouth: [165, 62], hole: [165, 62], surface: [220, 200], skin: [180, 200], base: [200, 270], ground: [60, 298], side: [110, 190], edge: [110, 190], top: [165, 62] },
      span: 220,
    }; // prettier-ignore
  }
  const barrel = (x: number, y: number, s: number) => {
    const half = 46 * s;
    const hairs = steps(0, 1, 11).flatMap((t) => [-1, 1].map((side) => { const w = half * Math.sqrt(1 - (2 * t - 1) ** 2 * 0.6); return `M${x + side * w} ${y - 130 * s * t}l${side * 15 * s} ${-7 * s}`; })).join(''); // prettier-ignore
    const crown = steps(-150, -30, 11)
      .map((a) => curve([polar(x, y - 128 * s, 12 * s, a), polar(x, y - 128 * s, 52 * s, a)]))
      .join('');
    return pen.line(hairs + crown, { 'stroke-width': 2 }) + pen.skin(`M${x - 22 * s} ${y}C${x - 66 * s} ${y - 40 * s} ${x - 56 * s} ${y - 110 * s} ${x - 20 * s} ${y - 130 * s}H${x + 20 * s}C${x + 56 * s} ${y - 110 * s} ${x + 66 * s} ${y - 40 * s} ${x + 22 * s} ${y}Z`) + pen.oval(x, y - 130 * s, 21 * s, 8 * s, '#5b4a42') + pen.line(steps(0.15, 0.85, 6).map((t) => `M${x - 22 * s} ${y - 120 * s * t}l6 -8m14 8l6 -8m14 8l6 -8`).join(''), { 'stroke-width': 1.6 }); // prettier-ignore
  };
  return {
    marks: rock + barrel(112, 266, 1) + barrel(230, 272, 1.25) + barrel(336, 270, 0.8),
    parts: { body: [230, 190], mouth: [230, 110], hole: [230, 110], surface: [262, 190], skin: [262, 190], base: [230, 268], ground: [60, 298], side: [172, 190], top: [230, 110], edge: [172, 190] },
    span: 170,
  }; // prettier-ignore
}
