// Long worms: a ringed body on a winding line, with whatever stands at its sides and on its head.
import { along, curve, roundEnds, tapered, type Place } from '../curve.ts';
import { limb, type Pen, type Parts, type Sketch } from '../pen.ts';
import { polar, upTo, type Point } from '../svg.ts';
import { bristles, edge, gills, pleatedLobe, type Bristles, type Gills } from './worm-coat.ts';

export type WormShape = {
  /** Half the width of the body in pixels. */
  girth?: number;
  /** Draws the rings of the body. */
  rings?: boolean;
  bristles?: Bristles;
  /** Tufts on every ring of the back. */
  gills?: Gills;
  lobe?: 'none' | 'small' | 'large';
  feelers?: number;
  eyes?: number;
  jaws?: boolean;
  paddles?: boolean;
  /** A crown of feathery tentacles at the front. */
  crown?: boolean;
  /** A flat band with a line along each edge. */
  flat?: boolean;
  suckers?: boolean;
  /** Only the front part leans out of a hole. */
  fromHole?: boolean;
  holeIn?: 'rock' | 'sand';
  pose?: 'winding' | 'whip' | 'straight' | 'loop' | 'bow';
};

const POSES: Record<NonNullable<WormShape['pose']>, readonly Point[]> = {
  winding: [[66, 112], [130, 84], [190, 128], [210, 190], [262, 226], [320, 204], [352, 240]],
  whip: [[48, 190], [98, 106], [160, 196], [222, 128], [280, 206], [354, 112]],
  straight: [[60, 150], [130, 138], [200, 158], [270, 176], [346, 168]],
  bow: [[66, 180], [126, 122], [198, 142], [274, 188], [362, 168]],
  loop: [[84, 236], [110, 150], [200, 92], [284, 150], [318, 240]],
}; // prettier-ignore

const HOLE: readonly Point[] = [[96, 104], [150, 96], [208, 120], [248, 176], [262, 256]]; // prettier-ignore

export function drawWorm(pen: Pen, shape: WormShape): Sketch {
  const girth = shape.girth ?? 17;
  const line = shape.fromHole ? HOLE : POSES[shape.pose ?? 'winding'];
  const width = shape.flat ? (t: number) => girth * (0.75 + 0.25 * Math.sin(t * 9)) * taper(t) : roundEnds(girth);
  const places = along(line, 23);
  const [first, middle, late] = [pick(places, 0), pick(places, 9), pick(places, 15)];
  const outline = tapered(line, shape.flat ? width : (t) => roundEnds(girth)(t) * (1 - 0.3 * t));
  const parts: Parts & { body: Point } = {
    body: [middle.x, middle.y],
    head: [first.x, first.y],
    skin: [late.x, late.y],
  };
  const inner = places.slice(2, shape.fromHole ? 20 : 22);
  const shrink = (t: number) => girth * (1 - 0.3 * t);

  const under = [
    shape.paddles
      ? sides(inner, shrink, 13)
          .map(([a, b]) => paddle(pen, a, b))
          .join('')
      : '',
    bristles(pen, shape.bristles ?? 'none', line, inner, shrink),
    shape.crown ? crown(pen, first, girth) : '',
  ];
  const over = [
    shape.rings ? inner.map((p) => ring(pen, p, shrink(p.t) * 0.98)).join('') : '',
    shape.flat ? edgeLines(pen, line, width) : '',
    gills(pen, shape.gills ?? 'none', shape.lobe === 'large' ? inner.slice(4) : inner, shrink),
    head(pen, shape, line, first, girth),
    shape.suckers ? suckers(pen, first, pick(places, 22), girth) : '',
  ];
  const hole = shape.fromHole ? pen.oval(266, 268, 70, 26, '#8b8173') : '';
  const front = shape.fromHole
    ? pen.shape(
        'M150 317V278Q190 250 214 268Q262 292 320 266Q350 254 384 282V317Z',
        shape.holeIn === 'sand' ? '#e6d6b4' : '#c9bfae',
      )
    : '';

  const sideAt = edge(middle, 1, shrink(middle.t) + 5);
  parts.side = sideAt;
  parts.edge = sideAt;
  if (shape.bristles && shape.bristles !== 'none') parts.bristles = edge(pick(places, 12), 1, shrink(0.5) + 8);
  parts.gills = edge(pick(places, 6), -1, shrink(0.3) * 0.55);
  parts.back = parts.gills;
  parts.lobe = shape.lobe === 'large' ? ahead(first, -girth * 1.5) : ahead(first, -girth * 0.4);
  parts.feelers = ahead(first, shape.feelers || shape.crown ? girth * 1.4 : girth * 0.2);
  parts.eyes = parts.jaws = ahead(first, 0);
  if (shape.crown) parts.tentacles = ahead(first, girth * 1.8);
  if (shape.fromHole) parts.hole = [300, 262];
  return {
    marks: hole + under.join('') + pen.skin(outline) + over.join('') + front,
    parts,
    span: shape.fromHole ? 230 : 290,
  };
}

const taper = (t: number) => Math.min(1, 0.3 + t * 6, 0.25 + (1 - t) * 5);

function pick(places: readonly Place[], index: number): Place {
  return places[index] ?? { x: 0, y: 0, nx: 0, ny: 1, t: 0 };
}

/** A point in front of the head, against the way the body runs. */
function ahead(p: Place, distance: number): Point {
  return [p.x - p.ny * distance, p.y + p.nx * distance];
}

function sides(places: readonly Place[], width: (t: number) => number, length: number): [Point, Point][] {
  return places.flatMap((p) =>
    ([1, -1] as const).map((side): [Point, Point] => [
      edge(p, side, width(p.t) - 2),
      edge(p, side, width(p.t) + length),
    ]),
  );
}

function paddle(pen: Pen, [ax, ay]: Point, [bx, by]: Point): string {
  const [dx, dy] = [bx - ax, by - ay];
  const tip = [ax + dx * 1.2, ay + dy * 1.2];
  const d = `M${ax - dy * 0.4} ${ay + dx * 0.4}Q${tip[0]} ${tip[1]} ${ax + dy * 0.4} ${ay - dx * 0.4}Z`;
  return pen.shape(d.replace(/\d+\.\d+/g, (n) => Number(n).toFixed(1)), pen.fill, { 'stroke-width': 2.5 }) +
    pen.line(curve([[ax + dx * 0.6, ay + dy * 0.6], [bx + dx * 0.2, by + dy * 0.2]]), { 'stroke-width': 1.6 }); // prettier-ignore
}

function ring(pen: Pen, p: Place, width: number): string {
  const bend = 4;
  const middle: Point = [p.x + p.ny * -bend, p.y + p.nx * bend];
  return pen.line(curve([edge(p, 1, width), middle, edge(p, -1, width)]), { stroke: pen.detail, 'stroke-width': 1.8 });
}

function head(pen: Pen, shape: WormShape, line: readonly Point[], first: Place, girth: number): string {
  const out: string[] = [];
  const count = shape.feelers ?? 0;
  for (const i of upTo(count)) {
    const lean = count === 1 ? 0 : (i / (count - 1) - 0.5) * 2;
    const length = girth * (count === 5 ? 2.6 : 1.1);
    const start = ahead(first, 0);
    const root: Point = [start[0] + first.nx * lean * girth * 0.6, start[1] + first.ny * lean * girth * 0.6];
    const mid = ahead(first, length * 0.6);
    const end = ahead(first, length * (1 - Math.abs(lean) * 0.25));
    const d = curve([root, [mid[0] + first.nx * lean * girth * 1.1, mid[1] + first.ny * lean * girth * 1.1], [end[0] + first.nx * lean * girth * 1.7, end[1] + first.ny * lean * girth * 1.7]]); // prettier-ignore
    out.push(limb(pen, d, count === 5 ? 6 : 3.5));
  }
  if (shape.jaws) {
    for (const side of [1, -1] as const) {
      const [a, b, c] = [ahead(first, -2), ahead(first, girth * 1.1), ahead(first, girth * 1.5)];
      const d = curve([[a[0] + first.nx * side * girth * 0.5, a[1] + first.ny * side * girth * 0.5], [b[0] + first.nx * side * girth * 0.9, b[1] + first.ny * side * girth * 0.9], [c[0] + first.nx * side * girth * 0.15, c[1] + first.ny * side * girth * 0.15]]); // prettier-ignore
      out.push(pen.line(d, { 'stroke-width': 5 }));
    }
  }
  if (shape.lobe === 'large') {
    out.push(pleatedLobe(pen, line, girth));
  } else if (shape.lobe === 'small') {
    const [x, y] = ahead(first, -girth * 0.6);
    out.push(pen.oval(x, y, girth * 0.42, girth * 0.28, '#f7dfcd', { 'stroke-width': 1.8 }));
  }
  for (const i of upTo(shape.eyes ?? 0)) {
    const [x, y] = ahead(first, -girth * (i < 2 ? 0.35 : 0.95));
    const side = i % 2 ? 0.45 : -0.45;
    out.push(pen.dot(x + first.nx * girth * side, y + first.ny * girth * side, Math.max(3.4, girth * 0.2)));
  }
  return out.join('');
}

function crown(pen: Pen, first: Place, girth: number): string {
  return upTo(9)
    .map((i) => {
      const lean = (i - 4) * 0.34;
      const end = ahead(first, girth * 2.6 * Math.cos(lean));
      const tip: Point = [
        end[0] + first.nx * girth * 2.6 * Math.sin(lean),
        end[1] + first.ny * girth * 2.6 * Math.sin(lean),
      ];
      const side = upTo(4).flatMap((step) => {
        const share = 0.4 + step * 0.2;
        const at: Point = [first.x + (tip[0] - first.x) * share, first.y + (tip[1] - first.y) * share];
        return [-28, 28].map((turn) => {
          const away = polar(at[0], at[1], 8, (Math.atan2(tip[1] - first.y, tip[0] - first.x) * 180) / Math.PI + turn);
          return curve([at, away]);
        });
      });
      return pen.line(curve([[first.x, first.y], tip]) + side.join(''), { 'stroke-width': 2.4 });
    })
    .join('');
}

function edgeLines(pen: Pen, line: readonly Point[], width: (t: number) => number): string {
  const places = along(line, 30).slice(2, -2);
  return ([1, -1] as const)
    .map((side) =>
      pen.line(curve(places.map((p) => edge(p, side, width(p.t) * 0.62))), {
        stroke: pen.detail,
        'stroke-width': 1.6,
        'stroke-dasharray': '10 7',
      }),
    ) // prettier-ignore
    .join('');
}

function suckers(pen: Pen, first: Place, last: Place, girth: number): string {
  return [first, last]
    .map(
      (p) =>
        pen.oval(p.x, p.y, girth * 1.25, girth * 0.8, pen.second) +
        pen.oval(p.x, p.y, girth * 0.5, girth * 0.3, '#ffffff'),
    )
    .join('');
}
