// Brittle stars, with a round disc and arms like snakes, and feather stars, with arms like plumes.
import { along, curve, tapered } from '../curve.ts';
import { limb, type Pen, type Sketch } from '../pen.ts';
import { polar, upTo, type Point } from '../svg.ts';

export type BrittleShape = {
  /** The length of every arm as a share of the longest. */
  arms?: readonly number[];
  disc?: number;
  thickness?: number;
  spines?: 'none' | 'short' | 'long';
  banded?: boolean;
  dots?: boolean;
  /** Stands on its arm tips like a tent, seen from the side, and waits. */
  tent?: boolean;
};

const MIDDLE: Point = [200, 164];

export function drawBrittleStar(pen: Pen, shape: BrittleShape): Sketch {
  const [x, y]: Point = shape.tent ? [200, 92] : MIDDLE;
  const arms = shape.arms ?? [1, 1, 1, 1, 1];
  const disc = shape.disc ?? 34;
  const thick = shape.thickness ?? 9;
  const spine = { none: 0, short: 7, long: 10 }[shape.spines ?? 'short'];
  const tent: Point[][] = [[[166, 92], [96, 122], [40, 214], [16, 286]], [[176, 104], [120, 156], [88, 232], [76, 302]], [[200, 108], [204, 180], [190, 240], [196, 306]], [[224, 104], [280, 156], [312, 232], [324, 302]], [[234, 92], [304, 122], [360, 214], [384, 286]]]; // prettier-ignore
  const lines = shape.tent
    ? tent
    : arms.map((length, i) => snake(x, y, disc * 0.7, 150 * length, -90 + (i * 360) / arms.length, i % 2 ? 1 : -1));
  const marks = lines.map((line) => {
    const places = along(line, 22).slice(3);
    const half = (t: number) => Math.max(2, thick * (1 - 0.75 * t));
    const hairs = places.flatMap((p) => [1, -1].map((s) => curve([[p.x + p.nx * half(p.t) * s, p.y + p.ny * half(p.t) * s], [p.x + p.nx * (half(p.t) + spine) * s - p.ny * -3, p.y + p.ny * (half(p.t) + spine) * s + p.nx * -3]]))); // prettier-ignore
    const bands = shape.banded
      ? places.filter((_, i) => i % 3 === 0).map((p) => pen.line(curve([[p.x + p.nx * half(p.t), p.y + p.ny * half(p.t)], [p.x - p.nx * half(p.t), p.y - p.ny * half(p.t)]]), { stroke: pen.second, 'stroke-width': 7, 'stroke-linecap': 'butt' })).join('') // prettier-ignore
      : '';
    const joints = pen.line(places.map((p) => curve([[p.x + p.nx * half(p.t), p.y + p.ny * half(p.t)], [p.x - p.nx * half(p.t), p.y - p.ny * half(p.t)]])).join(''), { stroke: pen.detail, 'stroke-width': 1.4 }); // prettier-ignore
    const body = tapered(line, half);
    return (
      (spine ? pen.line(hairs.join(''), { 'stroke-width': 1.8 }) : '') +
      pen.skin(body, { plain: true }) +
      (bands ? pen.inside(body, bands) : '') +
      joints
    );
  });
  const dots = shape.dots ? upTo(9).map((i) => { const [a, b] = polar(x, y, (i % 3) * disc * (shape.tent ? 0.22 : 0.3) + 4, i * 83); return pen.dot(a, b, 3, '#20301c'); }).join('') : ''; // prettier-ignore
  const high = shape.tent ? disc * 0.66 : disc;
  const circle = `M${x - disc} ${y}a${disc} ${high} 0 1 0 ${disc * 2} 0a${disc} ${high} 0 1 0 ${-disc * 2} 0Z`;
  const end = lines[shape.tent ? 4 : 1]?.[2] ?? MIDDLE;
  return {
    marks: marks.join('') + pen.skin(circle, { plain: true }) + dots,
    parts: {
      body: [x, y],
      disc: [x, y],
      arms: end,
      spines: end,
      skin: end,
      pattern: end,
      threads: end,
      spots: [x, y],
      surface: end,
      edge: end,
    },
    span: 300,
  };
}

function snake(x: number, y: number, start: number, length: number, angle: number, bend: 1 | -1): Point[] {
  return [0, 0.34, 0.68, 1].map((share, i) => polar(x, y, start + (length - start) * share, angle + bend * ([0, 16, -4, 12][i] ?? 0))); // prettier-ignore
}

export type FeatherStarShape = { arms?: number };

export function drawFeatherStar(pen: Pen, shape: FeatherStarShape): Sketch {
  const count = shape.arms ?? 12;
  const [x, y]: Point = [200, 236];
  const lines = upTo(count).map((i): Point[] => {
    const angle = -172 + (i * 164) / (count - 1);
    const reach = 165 - Math.abs(angle + 90) * 0.25;
    return [[x, y], polar(x, y, reach * 0.5, angle), polar(x, y, reach, angle + (angle < -90 ? 9 : -9))];
  });
  const arms = lines.map((line) => {
    const hairs = along(line, 20).slice(3).flatMap((p) => [1, -1].map((s) => curve([[p.x, p.y], [p.x + p.nx * 13 * s * (1.2 - p.t) + p.ny * 7, p.y + p.ny * 13 * s * (1.2 - p.t) - p.nx * -7 * -1]]))); // prettier-ignore
    return pen.line(hairs.join(''), { 'stroke-width': 2 }) + limb(pen, curve(line), 4);
  });
  const hooks = upTo(6).map((i) => limb(pen, curve([[x + (i - 2.5) * 5, y + 8], [x + (i - 2.5) * 15, y + 30], [x + (i - 2.5) * 14 + 5, y + 50]]), 3)); // prettier-ignore
  return {
    marks: arms.join('') + hooks.join('') + pen.oval(x, y + 4, 19, 13),
    parts: {
      body: [x, y],
      arms: lines[3]?.[2] ?? [x, y],
      foot: [x, y + 40],
      base: [x, y + 40],
      disc: [x, y],
      crown: lines[3]?.[2] ?? [x, y],
    },
    span: 320,
  };
}
