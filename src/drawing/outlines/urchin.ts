// Spiny balls: urchins by the length and build of their spines, and the one whose cups hide them.
import { curve } from '../curve.ts';
import { FILLS, INK, ROCK, SAND } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { chance, polar, upTo, type Point } from '../svg.ts';

export type UrchinShape = {
  spines: 'short' | 'fine' | 'needles' | 'pencils' | 'bundles' | 'sharp' | 'petals';
  /** Pieces of rubble worn on top. */
  rubble?: boolean;
  /** Leaves of algae worn beside the rubble. */
  leaves?: boolean;
  /** Bare velvet bands between the rows of spines. */
  bands?: boolean;
  /** Bands of spines in another colour. */
  striped?: boolean;
  oval?: boolean;
  spineFill?: string;
  /** Half sunk in sand, or in the groove that it has carved into the rock. */
  home?: 'sand' | 'groove';
};

const X = 200;
const Y = 172;

export function drawUrchin(pen: Pen, shape: UrchinShape): Sketch {
  const body = { short: 92, fine: 96, needles: 52, pencils: 60, bundles: 88, sharp: 78, petals: 98 }[shape.spines];
  const long = { short: 24, fine: 16, needles: 96, pencils: 78, bundles: 34, sharp: 50, petals: 0 }[shape.spines];
  const rx = shape.oval ? body * 1.2 : body;
  const ry = body * 0.94;
  const ball = `M${X - rx} ${Y}a${rx} ${ry} 0 1 0 ${rx * 2} 0a${rx} ${ry} 0 1 0 ${-rx * 2} 0Z`;
  const at = (angle: number, share: number): Point => [X + Math.cos((angle * Math.PI) / 180) * rx * share, Y + Math.sin((angle * Math.PI) / 180) * ry * share]; // prettier-ignore
  const parts: Parts & { body: Point } = {
    body: [X, Y], surface: at(160, 0.6), spines: at(215, 1 + long / body * 0.7), skin: at(30, 0.5), side: at(180, 0.98), edge: at(180, 0.98), pattern: at(100, 0.6), cover: at(-80, 0.9), 'tube-feet': at(130, 1.05), arms: at(215, 1 + long / body * 0.7),
  }; // prettier-ignore
  if (shape.bands) parts.surface = parts.pattern = [X + rx * 0.02, Y + ry * 0.3];
  const bands = shape.bands ? bandMarks(pen, rx, ry) : '';
  const marks = shape.spines === 'petals'
    ? pen.skin(ball, { plain: true }) + petals(pen, at)
    : rim(pen, shape, at, body, long) + pen.skin(ball, { plain: true }) + pen.inside(ball, bands) + face(pen, shape, at, body, long, rx, ry); // prettier-ignore
  const home = shape.home ? HOMES[shape.home](pen) : undefined;
  if (home) parts.ground = home.at;
  return {
    marks:
      (home?.behind ?? '') +
      marks +
      (shape.rubble ? rubble(pen, at) : '') +
      (shape.leaves ? leaves(pen, at) : '') +
      (home?.before ?? ''),
    parts,
    span: shape.spines === 'needles' ? (body + long) * 2 : rx * 2,
  };
}

type Home = { behind: string; before: string; at: Point };

const HOMES: Record<NonNullable<UrchinShape['home']>, (pen: Pen) => Home> = {
  sand: (pen) => {
    const stones = ([[52, 272, 17], [342, 268, 20], [84, 292, 12], [312, 294, 13], [376, 290, 11]] as const).map(([x, y, r]) => pen.shape(curve(upTo(6).map((i) => polar(x, y, r * (i % 2 ? 1.05 : 0.84), i * 60)), true), '#cfc4ae', { 'stroke-width': 2 })).join(''); // prettier-ignore
    const grains = upTo(28)
      .map((i) => pen.dot(18 + i * 13.4, 284 + ((i * 11) % 30), 1.8, '#a58d5f'))
      .join('');
    return {
      behind: pen.shape('M2 318V232Q110 216 200 222T398 228V318Z', SAND, { stroke: '#a58d5f', 'stroke-width': 2 }),
      before: pen.shape('M2 318V266Q70 260 108 250Q150 268 200 270T292 250Q330 260 398 262V318Z', SAND, { stroke: 'none' }) + pen.line('M96 252L108 250Q150 268 200 270T292 250L304 252', { stroke: '#a58d5f', 'stroke-width': 2.4 }) + grains + stones,
      at: [40, 242],
    }; // prettier-ignore
  },
  groove: (pen) => {
    const rim = 'M34 176A166 128 0 1 0 366 176A166 128 0 1 0 34 176Z';
    const scrapes = pen.line(upTo(26).map((i) => { const a = i * 13.85; const [fx, fy] = polar(0, 0, 1, a); return `M${X + fx * 162} ${176 + fy * 124}L${X + fx * 140} ${176 + fy * 106}`; }).join(''), { stroke: '#5f574b', 'stroke-width': 2 }); // prettier-ignore
    const pits = ([[20, 40], [58, 24], [352, 30], [380, 66], [18, 296], [372, 292], [340, 304]] as const).map(([x, y]) => pen.oval(x, y, 7, 4, '#a99e8c', { 'stroke-width': 1.4 })).join(''); // prettier-ignore
    return {
      behind: pen.shape('M2 318V40Q60 8 140 16T300 10Q370 10 398 44V318Z', ROCK, { 'stroke-width': 2 }) + pits + pen.shape(rim, '#857a6b', { 'stroke-width': 3 }) + pen.inside(rim, pen.oval(X, 196, 160, 124, '#968b7b', { stroke: 'none' }) + scrapes),
      // The near wall of the groove hides the lowest spines.
      before: pen.shape('M45 222Q106 285 200 286T355 222Q352 318 200 318T45 222Z', ROCK, { stroke: 'none' }) + pen.line('M45 222Q106 285 200 286T355 222', { 'stroke-width': 3 }),
      at: [36, 118],
    }; // prettier-ignore
  },
};

/** Whether an angle lies in one of the five coloured bands. */
const sector = (angle: number) => (((angle + 18) % 72) + 72) % 72 < 36;

function spine(pen: Pen, shape: UrchinShape, from: Point, to: Point, fill: string): string {
  const d = curve([from, to]);
  switch (shape.spines) {
    case 'pencils':
      return limb(pen, d, 13, fill);
    case 'needles':
      return pen.line(d, { 'stroke-width': 3 });
    case 'fine':
      return pen.line(d, { 'stroke-width': 1.8 });
    case 'sharp': {
      const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
      const size = Math.hypot(dx, dy) || 1;
      const [nx, ny] = [(-dy / size) * 6, (dx / size) * 6];
      return pen.shape(`M${from[0] + nx} ${from[1] + ny}L${to[0]} ${to[1]}L${from[0] - nx} ${from[1] - ny}Z`.replace(/-?\d+\.\d+/g, (n) => Number(n).toFixed(1)), fill, { 'stroke-width': 2.2 }); // prettier-ignore
    }
    case 'bundles':
      return pen.line(d, { 'stroke-width': 3 }) + pen.dot(from[0] + (to[0] - from[0]) * 0.72, from[1] + (to[1] - from[1]) * 0.72, 5.5, '#f6d9a4', { stroke: INK, 'stroke-width': 1.6 }); // prettier-ignore
    case 'short':
    case 'petals':
      return limb(pen, d, 2.6, fill);
  }
}

function rim(pen: Pen, shape: UrchinShape, at: (a: number, s: number) => Point, body: number, long: number): string {
  const count = { short: 54, fine: 74, needles: 44, pencils: 15, bundles: 20, sharp: 30, petals: 0 }[shape.spines];
  return upTo(count)
    .map((i) => {
      const angle = (i * 360) / count;
      if (shape.bands && Math.abs(((((angle + 18) % 36) + 36) % 36) - 18) < 4) return '';
      const fill = shape.spineFill ?? (shape.striped && sector(angle) ? pen.second : pen.fill);
      const turns = shape.spines === 'bundles' ? [-5, 0, 5] : [0];
      return turns
        .map((turn) =>
          spine(pen, shape, at(angle, 0.92), at(angle + turn, 1 + (long * (i % 2 ? 0.86 : 1)) / body), fill),
        )
        .join('');
    })
    .join('');
}

function face(
  pen: Pen,
  shape: UrchinShape,
  at: (a: number, s: number) => Point,
  body: number,
  long: number,
  rx: number,
  ry: number,
): string {
  if (shape.spines === 'needles') return pen.inside(`M0 0H400V320H0Z`, upTo(5).map((i) => pen.dot(...at(i * 72 - 90, 0.5), 5, '#ffffff')).join('') + upTo(18).map((i) => spine(pen, shape, at(i * 40, 0.4), at(i * 40 + 6, 1.6), pen.fill)).join('')); // prettier-ignore
  if (shape.bands) {
    const rows = [-0.76, -0.42, -0.08, 0.26, 0.6].flatMap((c, col) => upTo(9).map((k) => { const yy = -0.82 + k * 0.205; const w = Math.sqrt(1 - yy * yy); const x = X + (c + 0.08) * rx * w; return pen.line(`M${x} ${Y + yy * ry}l${(col - 2) * 5} -13m5 13l${(col - 2) * 5 + 2} -11`, { 'stroke-width': 2, stroke: INK }); })); // prettier-ignore
    return rows.join('');
  }
  const rings = shape.spines === 'pencils' ? [0.15, 0.62] : [0.12, 0.38, 0.64, 0.86];
  return rings
    .flatMap((ring, r) =>
      upTo(4 + ring * (shape.spines === 'pencils' ? 8 : 22)).map((i, _, all) => {
        const angle = (i * 360) / all.length + r * 17;
        const fill = shape.spineFill ?? (shape.striped && sector(angle) ? pen.second : pen.fill);
        const reach = shape.spines === 'pencils' ? 0.5 : Math.min(0.5, long / body) * (0.35 + ring * 0.5);
        return spine(
          pen,
          shape,
          at(angle, ring),
          at(angle, ring + reach),
          shape.spines === 'pencils' ? pen.second : fill,
        );
      }),
    )
    .join('');
}

function bandMarks(pen: Pen, rx: number, ry: number): string {
  return [-0.84, -0.42, 0, 0.42, 0.84]
    .map((c) => {
      const w = rx * (0.17 - Math.abs(c) * 0.1);
      const d = `M${X} ${Y - ry * 1.02}Q${X + c * rx * 1.32 - w} ${Y} ${X} ${Y + ry * 1.02}Q${X + c * rx * 1.32 + w * 1.4} ${Y} ${X} ${Y - ry * 1.02}Z`;
      return pen.shape(d, c === 0 || Math.abs(c) < 1 ? FILLS.blue : pen.second, { 'stroke-width': 2 });
    })
    .join('');
}

function petals(pen: Pen, at: (a: number, s: number) => Point): string {
  const rings: readonly (readonly [number, number])[] = [[1, 24], [0.8, 20], [0.58, 15], [0.34, 9], [0, 1]]; // prettier-ignore
  return rings
    .flatMap(([ring, count], r) =>
      upTo(count).map((i) => {
        const [x, y] = at((i * 360) / count + r * 11, ring);
        return pen.dot(x, y, 15, '#fff4f2', { stroke: INK, 'stroke-width': 2.2 }) + pen.dot(x, y, 9.5, pen.fill) + pen.dot(x, y, 4.6, FILLS.purple, { stroke: INK, 'stroke-width': 1.4 }); // prettier-ignore
      }),
    )
    .join('');
}

function rubble(pen: Pen, at: (a: number, s: number) => Point): string {
  const next = chance(9);
  return [-118, -96, -74, -52]
    .map((angle) => {
      const [x, y] = at(angle, 0.98);
      const points = upTo(6).map((i) => polar(x, y, 15 + next() * 9, i * 60));
      return pen.shape(curve(points, true), '#cfc4ae', { 'stroke-width': 2.4 });
    })
    .join('');
}

function leaves(pen: Pen, at: (a: number, s: number) => Point): string {
  return [-158, -140, -30, -12, 6].map((angle, i) => {
    const [x, y] = at(angle, 0.86);
    const [tx, ty] = polar(x, y, 74 + (i % 2) * 14, angle + (i - 2) * 9);
    const [nx, ny] = [((ty - y) / 74) * 22, (-(tx - x) / 74) * 22];
    const [mx, my] = [(x + tx) / 2, (y + ty) / 2];
    return pen.shape(curve([[x, y], [mx + nx, my + ny], [tx, ty], [mx - nx, my - ny]], true), FILLS.green, { 'stroke-width': 2.6 }) + pen.line(curve([[x, y], [tx, ty]]), { 'stroke-width': 1.8 }); // prettier-ignore
  }).join(''); // prettier-ignore
}

/** A stiff velvet disc with a five-petal pattern. */
export function drawSandDollar(pen: Pen): Sketch {
  const r = 126;
  const disc = `M${X - r} ${Y - 8}a${r} ${r} 0 1 0 ${r * 2} 0a${r} ${r} 0 1 0 ${-r * 2} 0Z`;
  const velvet = pen.line(upTo(72).map((i) => { const [a, b] = [polar(X, Y - 8, r - 2, i * 5), polar(X, Y - 8, r + 7, i * 5)]; return curve([a, b]); }).join(''), { 'stroke-width': 1.8 }); // prettier-ignore
  const flower = upTo(5).map((i) => pen.line(curve([[X, Y - 8], polar(X, Y - 8, 52, i * 72 - 104), polar(X, Y - 8, 84, i * 72 - 90), polar(X, Y - 8, 52, i * 72 - 76), [X, Y - 8]]), { 'stroke-width': 2.6, 'stroke-dasharray': '3 6' })); // prettier-ignore
  return {
    marks: velvet + pen.skin(disc) + flower.join(''),
    parts: {
      body: [X, Y],
      surface: [X + 70, Y + 40],
      edge: [X - r, Y],
      skin: [X + 70, Y + 40],
      spines: polar(X, Y - 8, r, 40),
      pattern: [X - 30, Y - 60],
      shell: [X, Y],
    },
    span: r * 2,
  };
}
