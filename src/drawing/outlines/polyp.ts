// Single polyps: anemones and mushrooms, seen from the side and a little from above.
import { curve } from '../curve.ts';
import { INK, ROCK, SAND } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, upTo, type Point } from '../svg.ts';

export type PolypShape = {
  tentacles: 'pointed' | 'mixed' | 'stubby' | 'bulbs' | 'balls' | 'fingers' | 'beads' | 'carpet' | 'bumps' | 'twigs' | 'two-rings';
  column?: 'trumpet' | 'short' | 'hidden' | 'tube' | 'warty' | 'none';
  /** Half the width of the disc in pixels. */
  disc?: number;
  /** Length of the tentacles in pixels. */
  length?: number;
  count?: number;
  /** A wavy edge like a skirt. */
  skirt?: boolean;
  /** A pattern of rays on the disc. */
  rays?: boolean;
  tipFill?: string;
  columnFill?: string;
  ground?: 'rock' | 'sand' | 'crevice';
}; // prettier-ignore

const X = 200;

export function drawPolyp(pen: Pen, shape: PolypShape): Sketch {
  const disc = shape.disc ?? 46;
  const flat = disc * 0.34;
  const column = shape.column ?? 'short';
  const y = { trumpet: 128, tube: 132, short: 176, warty: 150, hidden: 224, none: 214 }[column];
  const length = shape.length ?? 70;
  const floor = column === 'trumpet' ? 300 : shape.tentacles === 'twigs' ? 290 : 266;
  const parts: Parts & { body: Point } = {
    body: [X, y], disc: [X - disc * 0.3, y], column: [X, (y + floor) / 2 + 6], base: [X + 24, Math.min(floor, 286)], foot: [X - 24, Math.min(floor, 286)], ground: [90, 288],
    tentacles: polar(X, y, disc + length * 0.5, 205), tips: polar(X, y, disc + length * 0.94, 222), surface: [X + disc * 0.4, y], crown: polar(X, y, disc + length * 0.5, 205),
    tube: [X, (y + floor) / 2 + 20], pattern: [X + disc * 0.4, y], threads: polar(X, y, disc + length * 0.5, 205), edge: [X + disc, y],
  }; // prettier-ignore
  const rim = discPath(X, y, disc, flat, shape.skirt === true);
  const back = tentacleRing(pen, shape, y, disc, flat, length, 'back');
  const front = tentacleRing(pen, shape, y, disc, flat, length, 'front');
  const face = shape.rays ? rays(pen, y, disc, flat) : '';
  const over = surface(pen, shape, y, disc, flat);
  const mouth = pen.oval(X, y + 1, Math.max(5, disc * 0.1), Math.max(3, flat * 0.14), '#5c4a40', { 'stroke-width': 2 });
  if (shape.tentacles === 'carpet' || shape.tentacles === 'bumps')
    parts.tentacles = parts.tips = [X - disc * 0.55, y - flat * 0.2];
  if (shape.tentacles === 'beads') parts.tentacles = [X - disc * 0.98, y];
  if (shape.tentacles === 'twigs') parts.tentacles = parts.tips = [X - 72, y - 86];
  return {
    marks:
      ground(pen, shape) +
      columnMarks(pen, shape, column, y, disc, floor) +
      back +
      (column === 'trumpet' ? pen.shape(rim, pen.fill, { 'fill-opacity': 0.7 }) : pen.skin(rim)) +
      face +
      over +
      mouth +
      front +
      sill(pen, shape),
    parts,
    span:
      shape.tentacles === 'carpet' || shape.tentacles === 'bumps' || shape.tentacles === 'beads'
        ? disc * 2
        : (disc + length) * 1.7,
  };
}

function discPath(x: number, y: number, rx: number, ry: number, skirt: boolean): string {
  if (!skirt) return `M${x - rx} ${y}a${rx} ${ry} 0 1 0 ${rx * 2} 0a${rx} ${ry} 0 1 0 ${-rx * 2} 0Z`;
  const points = upTo(28).map((i): Point => {
    const wave = i % 2 ? 1.06 : 0.9;
    const angle = (i / 28) * 2 * Math.PI;
    return [x + Math.cos(angle) * rx * wave, y + Math.sin(angle) * ry * (i % 2 ? 1.25 : 0.85)];
  });
  return curve(points, true);
}

function columnMarks(
  pen: Pen,
  shape: PolypShape,
  kind: NonNullable<PolypShape['column']>,
  y: number,
  disc: number,
  floor: number,
): string {
  const fill = shape.columnFill ?? pen.fill;
  if (kind === 'none' || kind === 'hidden') return '';
  if (kind === 'tube') {
    const grains = upTo(36).map((i) =>
      pen.dot(X - 24 + ((i * 23) % 49), y + 46 + ((i * 37) % (floor - y - 46)), 2.6, '#8d7a58'),
    );
    return pen.shape(`M${X - 30} ${y + 34}Q${X - 26} 230 ${X - 34} ${floor + 12}H${X + 34}Q${X + 28} 220 ${X + 30} ${y + 34}Z`, '#d8c49a') + grains.join('') + pen.shape(`M${X - 20} ${y}V${y + 34}H${X + 20}V${y}Z`, fill); // prettier-ignore
  }
  const [top, waist, foot] = kind === 'trumpet' ? [disc * 0.96, 17, 22] : [disc * 0.9, disc * 0.62, disc * 0.92];
  const d = `M${X - top} ${y}C${X - top * 0.7} ${y + 34} ${X - waist} ${y + 40} ${X - waist} ${(y + floor) / 2}Q${X - waist} ${floor - 12} ${X - foot} ${floor}H${X + foot}Q${X + waist} ${floor - 12} ${X + waist} ${(y + floor) / 2}C${X + waist} ${y + 40} ${X + top * 0.7} ${y + 34} ${X + top} ${y}Z`;
  const stripes = kind === 'trumpet' ? [-0.5, 0, 0.5].map((s) => curve([[X + s * top, y + 10], [X + s * waist, (y + floor) / 2], [X + s * foot, floor - 4]])).join('') : ''; // prettier-ignore
  const warts = kind === 'warty' ? [-0.5, 0, 0.5].flatMap((s) => steps(y + 40, floor - 14, 4).map((wy) => pen.dot(X + s * waist, wy, 4.5, '#ffffff', { stroke: INK, 'stroke-width': 1.6 }))) : []; // prettier-ignore
  // A see-through body shows the gullet that hangs in it, and the dark of the hole behind its foot.
  const clear = kind === 'trumpet';
  const gullet = clear ? pen.shape(`M${X - 9} ${y + 4}Q${X - 8} ${y + 56} ${X - 5} ${y + 78}H${X + 5}Q${X + 8} ${y + 56} ${X + 9} ${y + 4}Z`, '#8f7350', { 'fill-opacity': 0.55, 'stroke-width': 1.6 }) : ''; // prettier-ignore
  return (
    pen.shape(d, fill, clear ? { 'fill-opacity': 0.42 } : {}) +
    gullet +
    (stripes ? pen.line(stripes, { 'stroke-width': 1.4, stroke: pen.detail, opacity: 0.6 }) : '') +
    warts.join('')
  );
}

function tentacleRing(
  pen: Pen,
  shape: PolypShape,
  y: number,
  disc: number,
  flat: number,
  length: number,
  side: 'back' | 'front',
): string {
  const kind = shape.tentacles;
  if (kind === 'carpet' || kind === 'bumps') return '';
  if (kind === 'twigs') return side === 'back' ? '' : twigs(pen, y, disc);
  const count =
    shape.count ??
    { pointed: 15, mixed: 17, stubby: 17, bulbs: 13, balls: 13, fingers: 15, beads: 24, 'two-rings': 17 }[kind];
  const angles = upTo(count).map((i) => (i + 0.5) * (360 / count) + 90);
  const wanted = angles.filter((angle) =>
    Math.sin((angle * Math.PI) / 180) < 0.15 ? side === 'back' : side === 'front',
  );
  const rooms = wanted.map((angle, i) => {
    const [sx, sy] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
    const root: Point = [X + sx * disc * 0.9, y + sy * flat * 0.9];
    const own = length * (kind === 'mixed' && i % 2 ? 0.55 : 1) * (sy > 0.15 ? 0.72 : 1);
    const tip: Point = [root[0] + sx * own * 0.95, root[1] + sy * own * 0.5 - own * (sy > 0.15 ? 0.1 : 0.62)];
    const bend: Point = [root[0] + sx * own * 0.6, root[1] + sy * own * 0.3 - own * (sy > 0.15 ? 0.22 : 0.3)];
    return tentacle(pen, shape, root, bend, tip);
  });
  const inner =
    kind === 'two-rings' && side === 'front'
      ? steps(-0.7, 0.7, 9).map((s) => limb(pen, curve([[X + s * disc * 0.5, y], [X + s * disc * 0.7, y - 24]]), 3, '#ffffff')).join('') // prettier-ignore
      : '';
  return rooms.join('') + inner;
}

function tentacle(pen: Pen, shape: PolypShape, root: Point, bend: Point, tip: Point): string {
  const tipFill = shape.tipFill ?? pen.second;
  const d = curve([root, bend, tip]);
  const [dx, dy] = [tip[0] - bend[0], tip[1] - bend[1]];
  const size = Math.hypot(dx, dy) || 1;
  switch (shape.tentacles) {
    case 'pointed':
    case 'mixed':
    case 'two-rings': {
      const [nx, ny] = [(-dy / size) * 5.5, (dx / size) * 5.5];
      const left = curve([[root[0] + nx, root[1] + ny], [bend[0] + nx * 0.7, bend[1] + ny * 0.7], tip]);
      const right = curve([tip, [bend[0] - nx * 0.7, bend[1] - ny * 0.7], [root[0] - nx, root[1] - ny]]).replace('M', 'L');
      const point = shape.tipFill ? pen.dot(tip[0], tip[1], 4.5, shape.tipFill, { stroke: INK, 'stroke-width': 1.6 }) : '';
      return pen.shape(`${left}${right}Z`, pen.fill, { 'stroke-width': 2.4, ...(shape.column === 'trumpet' ? { 'fill-opacity': 0.55 } : {}) }) + point;
    } // prettier-ignore
    case 'stubby':
      return limb(pen, d, 12) + pen.dot(tip[0], tip[1], 8.5, tipFill, { stroke: INK, 'stroke-width': 2.5 });
    case 'bulbs':
      return (
        limb(pen, d, 11) +
        pen.oval(tip[0], tip[1], 13, 13, pen.fill) +
        pen.line(`M${tip[0] - 8} ${tip[1] + 4}h16`, { stroke: '#ffffff', 'stroke-width': 4 }) +
        pen.dot(tip[0], tip[1] - 10, 3.4, tipFill, { stroke: INK, 'stroke-width': 1.4 })
      );
    case 'balls':
      return limb(pen, d, 4.5) + pen.dot(tip[0], tip[1], 10, tipFill, { stroke: INK, 'stroke-width': 3 });
    case 'fingers':
      return limb(pen, d, 11) + pen.dot(tip[0], tip[1], 5.5, tipFill);
    case 'beads':
      return limb(pen, d, 7) + [root, bend].map(([x, y]) => pen.dot(x, y, 3, tipFill)).join('');
    case 'carpet':
    case 'bumps':
    case 'twigs':
      return '';
  }
}

/** Arms like broccoli: a bare stem, side twigs that shorten towards the top, and a bushy head on each of them. */
function twigs(pen: Pen, y: number, disc: number): string {
  const bush = (x: number, by: number, size: number) => upTo(6).map((i) => { const [px, py] = i < 5 ? polar(x, by, size * 0.72, i * 72 - 90) : [x, by]; return pen.dot(px, py, size * 0.52, pen.second, { stroke: INK, 'stroke-width': 1.5 }); }).join(''); // prettier-ignore
  const arms: readonly (readonly [number, number])[] = [[-90, 124], [-120, 96], [-60, 98], [-154, 128], [-26, 126], [-178, 92], [-2, 94]]; // prettier-ignore
  return arms
    .map(([angle, reach]) => {
      const root = polar(X, y, disc * 0.4, angle);
      const tip = polar(root[0], root[1], reach, angle);
      const side = [0.42, 0.62, 0.82].flatMap((share) =>
        [-1, 1].map((turn) => {
          const from: Point = [root[0] + (tip[0] - root[0]) * share, root[1] + (tip[1] - root[1]) * share];
          const end = polar(from[0], from[1], reach * (0.4 - share * 0.26), angle + turn * 52);
          return { twig: limb(pen, curve([from, end]), 5), head: bush(end[0], end[1], 11 - share * 3) };
        }),
      );
      return side.map(({ twig }) => twig).join('') + limb(pen, curve([root, tip]), 8) + side.map((one) => one.head).join('') + bush(tip[0], tip[1], 11); // prettier-ignore
    })
    .join('');
}

function surface(pen: Pen, shape: PolypShape, y: number, disc: number, flat: number): string {
  if (shape.tentacles !== 'carpet' && shape.tentacles !== 'bumps') return '';
  const carpet = shape.tentacles === 'carpet';
  const rows = carpet ? [0.24, 0.42, 0.6, 0.78, 0.96] : [0.35, 0.62, 0.86];
  return rows
    .flatMap((row) =>
      upTo(row * (carpet ? 34 : 13) + 4).map((i, _, all) => {
        const angle = (i / all.length) * 2 * Math.PI + row * 9;
        const [px, py] = [X + Math.cos(angle) * disc * row, y + Math.sin(angle) * flat * row];
        if (carpet) return limb(pen, `M${px} ${py}l${Math.cos(angle) * 3} -9`, 4.5, i % 3 ? pen.fill : pen.second);
        return pen.dot(px, py, 4.6, pen.second, { stroke: INK, 'stroke-width': 1.6 });
      }),
    )
    .join('');
}

function rays(pen: Pen, y: number, disc: number, flat: number): string {
  return upTo(14)
    .map((i) => {
      const angle = (i / 14) * 2 * Math.PI;
      const at = (share: number): Point => [X + Math.cos(angle) * disc * share, y + Math.sin(angle) * flat * share];
      return pen.line(curve([at(0.26), at(0.8)]), { stroke: pen.second, 'stroke-width': i % 2 ? 5 : 9 });
    })
    .join('');
}

function ground(pen: Pen, shape: PolypShape): string {
  if (shape.ground === 'sand') return pen.shape('M30 318V272Q120 254 200 262T370 268V318Z', SAND, { stroke: 'none' });
  const rock = pen.shape('M36 318V284Q90 250 150 262Q220 272 270 258Q330 248 366 286V318Z', ROCK, {
    'stroke-width': 2,
  });
  return shape.column === 'trumpet' ? rock + pen.oval(X, 280, 40, 14, '#6d6458', { 'stroke-width': 2.4 }) : rock;
}

/** What lies in front of the foot: the near edge of a hole, of a crevice, or sand that has closed round it. */
function sill(pen: Pen, shape: PolypShape): string {
  if (shape.column === 'trumpet') return pen.shape(`M${X - 40} 280A40 14 0 0 0 ${X + 40} 280V306H${X - 40}Z`, ROCK, { stroke: 'none' }) + pen.line(`M${X - 40} 280A40 14 0 0 0 ${X + 40} 280`, { 'stroke-width': 2.4 }); // prettier-ignore
  if (shape.tentacles === 'twigs') return pen.shape('M30 318V288Q84 270 124 272Q160 284 200 284T280 272Q330 272 370 286V318Z', SAND, { stroke: 'none' }) + pen.line('M124 272Q160 284 200 284T280 272', { stroke: '#a58d5f', 'stroke-width': 2.4 }) + upTo(22).map((i) => pen.dot(46 + i * 14.6, 292 + ((i * 7) % 18), 1.8, '#a58d5f')).join(''); // prettier-ignore
  if (shape.ground !== 'crevice') return '';
  return pen.shape('M84 316V266Q130 236 172 258Q200 266 232 256Q290 236 324 261V316Z', ROCK, { stroke: 'none' }) + pen.line('M84 266Q130 236 172 258Q200 266 232 256Q290 236 324 261', { 'stroke-width': 2 }); // prettier-ignore
}
