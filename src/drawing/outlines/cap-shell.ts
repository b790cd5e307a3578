// Shells that are no coil: caps, keyhole caps, chitons, barnacles, and glossy ovals.
import { corners, curve } from '../curve.ts';
import { FILLS, INK, ROCK } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, strewn, upTo, type Point } from '../svg.ts';

export type CapShape = { kind: 'plain' | 'keyhole' | 'barnacle' };

/** A hat on the rock: closed, with a hole in its top, or of plates with a fan. */
export function drawCap(pen: Pen, shape: CapShape): Sketch {
  const floor = 262;
  const ground = pen.shape('M16 318V268Q120 254 200 262T384 266V318Z', ROCK, { 'stroke-width': 2 });
  const top = shape.kind === 'barnacle' ? 118 : shape.kind === 'keyhole' ? 166 : 92;
  const flat = shape.kind === 'plain' ? 0 : 34;
  const side = curve([[62, floor], [104, floor - 62], [200 - flat, top]]); // prettier-ignore
  const back = curve([[200 + flat, top], [298, floor - 66], [338, floor]]).replace('M', 'L'); // prettier-ignore
  const cap = `${side}${back}Q200 ${floor + 24} 62 ${floor}Z`;
  const ribs = steps(-120, 120, shape.kind === 'barnacle' ? 5 : 11).map((x) => curve([[200 + x * 0.14 * (flat ? 1.6 : 0.4), top + (flat ? 10 : 6)], [200 + x * 0.6, floor - 62], [200 + x, floor + 6]])); // prettier-ignore
  const parts: Parts & { body: Point } = { body: [150, 210], shell: [150, 210], top: [200, top + 4], edge: [70, floor], foot: [250, floor + 10], base: [280, floor + 4], surface: [150, 220], mouth: [200, top], ground: [60, 290], skin: [160, 210], side: [110, 196] }; // prettier-ignore
  const hole =
    shape.kind === 'keyhole' ? pen.oval(200, top, 38, 17, '#fdf8ee') + pen.oval(200, top + 1, 24, 10, '#332c27') : '';
  const skin = shape.kind === 'keyhole' ? pen.shape(curve([[40, floor - 6], [66, floor - 40], [96, floor - 30], [130, floor - 52], [164, floor - 34], [200, floor - 46], [238, floor - 34], [270, floor - 54], [304, floor - 30], [334, floor - 42], [360, floor - 4], [320, floor + 20], [200, floor + 28], [80, floor + 20]], true), '#8f8577', { 'stroke-width': 3 }) + [[90, 250], [150, 244], [214, 252], [276, 244], [320, 254]].map(([x, y]) => pen.dot(x ?? 0, y ?? 0, 5, '#4b443b')).join('') : ''; // prettier-ignore
  const door = shape.kind === 'barnacle' ? pen.oval(200, top, 36, 14, '#4b4038') + fan(pen, 200, top) : '';
  if (shape.kind === 'keyhole') {
    parts.hole = [200, top];
    parts.mantle = [150, floor - 20];
  }
  if (shape.kind === 'barnacle') parts.crown = [200, top - 50];
  const heavy = shape.kind === 'barnacle' ? 3.4 : 1.8;
  return {
    marks:
      ground +
      pen.skin(cap) +
      pen.line(ribs.join(''), { stroke: pen.detail, 'stroke-width': heavy }) +
      skin +
      hole +
      door,
    parts,
    span: 276,
  };
}

function fan(pen: Pen, x: number, y: number): string {
  return steps(-140, -40, 8)
    .map((angle) => {
      const tip = polar(x, y, 92, angle);
      const bend: Point = [x + (tip[0] - x) * 0.6 + 10, y + (tip[1] - y) * 0.6];
      const hairs = [0.45, 0.65, 0.85].map((s) => curve([[x + (tip[0] - x) * s, y + (tip[1] - y) * s], [x + (tip[0] - x) * s + 13, y + (tip[1] - y) * s - 8]])); // prettier-ignore
      return pen.line(curve([[x, y], bend, tip]) + hairs.join(''), { 'stroke-width': 2.6 });
    })
    .join('');
}

export type ChitonShape = { plates?: number };

/** Eight plates in one row inside a leathery rim, from above. */
export function drawChiton(pen: Pen, shape: ChitonShape): Sketch {
  const count = shape.plates ?? 8;
  const [x, y, rx, ry] = [200, 160, 160, 94];
  const rim = `M${x - rx} ${y}a${rx} ${ry} 0 1 0 ${rx * 2} 0a${rx} ${ry} 0 1 0 ${-rx * 2} 0Z`;
  const inner = steps(0.8, -0.8, count).map((s) => {
    const half = Math.sqrt(1 - s * s) * ry * 0.8;
    const px = x + s * rx * 0.84;
    const wide = (rx * 1.9) / count / 2;
    return pen.shape(corners([[px - wide, y], [px - wide * 0.5, y - half], [px + wide * 1.1, y - half * 0.9], [px + wide * 1.5, y], [px + wide * 1.1, y + half * 0.9], [px - wide * 0.5, y + half]]), pen.second, { 'stroke-width': 3 }); // prettier-ignore
  });
  const beads = upTo(40).map((i) => { const a = (i / 40) * Math.PI * 2; return pen.dot(x + Math.cos(a) * rx * 0.94, y + Math.sin(a) * ry * 0.93, 3, pen.detail); }); // prettier-ignore
  return {
    marks: pen.skin(rim, { plain: true }) + beads.join('') + inner.join(''),
    parts: {
      body: [x, y],
      plates: [x + 20, y - 30],
      back: [x + 20, y - 30],
      shell: [x + 20, y - 30],
      edge: [x - 60, y + ry * 0.9],
      side: [x - 60, y + ry * 0.9],
      bristles: [x - 60, y + ry * 0.9],
      skin: [x, y],
      foot: [x + 60, y + ry],
      top: [x, y],
    },
    span: rx * 2,
  };
}

export type GlossyShape = {
  view?: 'back' | 'slit';
  /** Skin drawn over the shell from both sides. */
  mantle?: 'none' | 'half' | 'tufts' | 'blotches' | 'spots';
  hump?: boolean;
  slim?: boolean;
  mantleFill?: string;
};

/** An egg that shines like china, with the skin that creeps up over it. */
export function drawGlossy(pen: Pen, shape: GlossyShape): Sketch {
  const [x, y] = [196, 160];
  const [rx, ry] = shape.slim ? [158, 52] : [134, 88];
  const egg = curve([[x - rx, y], [x - rx * 0.62, y - ry * 0.78], [x, y - ry], [x + rx * 0.72, y - ry * 0.7], [x + rx, y], [x + rx * 0.72, y + ry * 0.7], [x, y + ry], [x - rx * 0.62, y + ry * 0.78]], true); // prettier-ignore
  const shine = pen.line(curve([[x - rx * 0.5, y - ry * 0.5], [x - rx * 0.1, y - ry * 0.68], [x + rx * 0.3, y - ry * 0.6]]), { stroke: '#ffffff', 'stroke-width': 9 }); // prettier-ignore
  const hump = shape.hump ? pen.line(curve([[x + 6, y - ry], [x + 26, y], [x + 6, y + ry]]) + curve([[x + 30, y - ry * 0.95], [x + 50, y], [x + 30, y + ry * 0.95]]), { 'stroke-width': 2.5 }) : ''; // prettier-ignore
  const fill = shape.mantleFill ?? pen.second;
  const kind = shape.mantle ?? 'none';
  const cover = kind === 'none' ? '' : pen.inside(egg, pen.shape(`M${x - rx} ${y + ry + 9}V${y - ry * 0.1}Q${x - rx * 0.4} ${y + ry * 0.4} ${x} ${y + (kind === 'half' || kind === 'tufts' ? ry * 0.22 : -ry * 0.8)}Q${x + rx * 0.5} ${y + ry * 0.3} ${x + rx} ${y - ry * 0.1}V${y + ry + 9}Z`, fill, { 'stroke-width': 3 }) + mantleMarks(pen, kind, x, y, rx, ry)); // prettier-ignore
  const tufts = kind === 'tufts' ? upTo(8).map((i) => limb(pen, `M${x - rx * 0.7 + i * rx * 0.2} ${y + ry * 0.36}l-4 -16m4 16l6 -17`, 2, fill)).join('') : ''; // prettier-ignore
  const slit = shape.view === 'slit' ? pen.line(curve([[x - rx * 0.86, y + 8], [x, y + 18], [x + rx * 0.86, y + 4]]), { 'stroke-width': 15 }) + pen.line(steps(-0.7, 0.7, 15).map((s) => `M${x + s * rx} ${y + 4}v9m0 6v9`).join(''), { stroke: '#ffffff', 'stroke-width': 3 }) : ''; // prettier-ignore
  const foot = pen.shape(curve([[x - rx - 34, y + ry * 0.84], [x, y + ry * 0.72], [x + rx + 20, y + ry * 0.9], [x, y + ry * 1.2]], true), fill); // prettier-ignore
  const feelers = [-10, 12].map((dy) => limb(pen, `M${x - rx - 18} ${y + ry * 0.8}l-18 ${-28 + dy}`, 3, fill)).join('');
  return {
    marks: feelers + foot + pen.skin(egg) + hump + shine + pen.inside(egg, slit) + cover + tufts + pen.line(egg, { 'stroke-width': 3.5 }),
    parts: { body: [x, y], shell: [x + rx * 0.3, y - ry * 0.5], mouth: [x, y + 14], mantle: [x - rx * 0.3, y + ry * 0.5], pattern: [x - rx * 0.35, y + ry * 0.45], spots: [x - rx * 0.35, y + ry * 0.45], skin: [x - rx * 0.3, y + ry * 0.5], foot: [x + rx, y + ry * 0.9], top: [x + rx * 0.96, y], edge: [x - rx, y], side: [x - rx * 0.7, y - ry * 0.72], surface: [x + rx * 0.3, y - ry * 0.5], lip: [x, y + 14], feelers: [x - rx - 30, y + ry * 0.6], eyes: [x - rx - 18, y + ry * 0.8], },
    span: rx * 2,
  }; // prettier-ignore
}

function mantleMarks(pen: Pen, kind: string, x: number, y: number, rx: number, ry: number): string {
  if (kind === 'blotches') return strewn(15, x - rx * 0.85, y - ry * 0.7, rx * 1.7, ry * 1.6).map(([px, py]) => pen.oval(px, py, 20, 14, FILLS.orange, { 'stroke-width': 4 })).join(''); // prettier-ignore
  if (kind === 'spots') return strewn(20, x - rx * 0.85, y - ry * 0.4, rx * 1.7, ry * 1.3).map(([px, py]) => pen.dot(px, py, 7, '#ffffff', { stroke: INK, 'stroke-width': 1.6 })).join(''); // prettier-ignore
  return '';
}
