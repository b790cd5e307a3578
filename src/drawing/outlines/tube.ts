// What lives in a tube: fan worms, feelers, slime nets, flowers; and the tube itself, hard, soft or ringed.
import { along, curve, tapered } from '../curve.ts';
import { INK, ROCK, SAND } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, tag, upTo, type Point } from '../svg.ts';
import { featherCrown } from './crown.ts';

export type TubeShape = {
  tube: 'hard' | 'keeled' | 'leathery' | 'papery' | 'ringed' | 'gritty' | 'sunk' | 'hole' | 'coral';
  out: 'fan' | 'small-fan' | 'cones' | 'two-feelers' | 'horns' | 'slime' | 'flower';
  /** A plug on a stalk, or a lid. */
  door?: 'plug' | 'lid';
  wide?: number;
  crownFill?: string;
  /** How many tubes stand together. */
  count?: number;
};

type End = { x: number; y: number };

export function drawTube(pen: Pen, shape: TubeShape): Sketch {
  const wide = shape.wide ?? 15;
  const small = shape.out === 'small-fan';
  const sand = !small && (shape.tube === 'gritty' || shape.tube === 'papery' || shape.tube === 'leathery');
  const floor = sand ? pen.shape('M10 318V280Q120 264 200 274T390 272V318Z', SAND, { stroke: 'none' }) : pen.shape('M10 318V280Q110 256 200 268T390 274V318Z', shape.tube === 'coral' ? '#d8b27f' : ROCK, { 'stroke-width': 2 }); // prettier-ignore
  const lines = standing(shape);
  const parts: Parts & { body: Point } = { body: [200, 200], ground: [60, 298], base: [216, 268], tube: [204, 220], side: [204, 220], edge: [204, 220], skin: [204, 210], foot: [216, 268], mat: [216, 268], column: [204, 220] }; // prettier-ignore
  const tubes = lines.map((line) => tubeMarks(pen, shape, line, wide));
  const ends = lines.map((line): End => ({ x: line.at(-1)?.[0] ?? 200, y: line.at(-1)?.[1] ?? 160 }));
  const middle = ends[Math.floor(ends.length / 2)] ?? { x: 200, y: 160 };
  const main = lines[Math.floor(lines.length / 2)] ?? [];
  const [half] = along(main, 1);
  if (half) parts.tube = parts.side = parts.column = parts.edge = [half.x, half.y];
  const crowns = ends.map((end) => crown(pen, shape, end, wide, parts, end === middle));
  parts.mouth = [middle.x, middle.y];
  const door = shape.door ? doorMarks(pen, shape.door, middle, wide, parts) : '';
  if (shape.tube === 'hole') parts.hole = parts.tube = parts.base = [200, 262];
  const under = crowns.map((one) => one.under).join('');
  // Small tubes come up from behind the edge of the rock.
  const rooted = small ? under + tubes.join('') + floor : floor + under + tubes.join('');
  return { marks: rooted + crowns.map(({ over }) => over).join('') + door, parts, span: shape.out === 'fan' ? 230 : 260 }; // prettier-ignore
}

function standing(shape: TubeShape): Point[][] {
  switch (shape.tube) {
    case 'hole':
      return [
        [
          [200, 268],
          [200, 262],
        ],
      ];
    case 'coral':
      return [
        [
          [200, 290],
          [200, 236],
        ],
      ];
    case 'sunk':
      return [
        [
          [200, 290],
          [204, 224],
        ],
      ];
    default: {
      const count = shape.count ?? 1;
      if (shape.out === 'small-fan') return steps(count === 1 ? 196 : 106, count === 1 ? 196 : 284, count).map((x, i): Point[] => [[x + 34, 296], [x + 8, 262], [x + (i % 2 ? 10 : -4), 214 - (i % 2) * 26]]); // prettier-ignore
      return steps(count === 1 ? 200 : 110, count === 1 ? 200 : 290, count).map((x, i): Point[] => [[x, 286], [x - 8 + (i % 2) * 16, 236], [x + (x - 200) * 0.16 + 4, shape.out === 'fan' ? 178 : 150 + (i % 2) * 26]]); // prettier-ignore
    }
  }
}

function tubeMarks(pen: Pen, shape: TubeShape, line: readonly Point[], wide: number): string {
  if (shape.tube === 'hole') return pen.oval(200, 264, 26, 10, '#6a6157');
  const fills = { hard: '#fbf8f0', keeled: '#fbf8f0', leathery: '#cdb389', papery: '#eadfc6', ringed: '#a5743f', gritty: '#d9c49b', sunk: '#efe4d2', coral: '#f3ead9' } as const; // prettier-ignore
  const fill = fills[shape.tube];
  const half = (t: number) => wide * (shape.tube === 'ringed' ? 0.45 + 0.55 * t : 0.9 + 0.1 * t);
  const places = along(line, 14);
  const body = pen.shape(tapered(line, half), fill);
  const rings =
    shape.tube === 'ringed' || shape.tube === 'sunk'
      ? pen.line(places.slice(1, -1).map((p) => curve([[p.x + p.nx * half(p.t), p.y + p.ny * half(p.t)], [p.x - p.nx * half(p.t), p.y - p.ny * half(p.t)]])).join(''), { 'stroke-width': shape.tube === 'ringed' ? 2.6 : 1.6 }) // prettier-ignore
      : '';
  const keel = shape.tube === 'keeled' ? pen.line(curve(places.map((p): Point => [p.x + p.nx * 3, p.y + p.ny * 3])), { 'stroke-width': 3 }) : ''; // prettier-ignore
  const grit = shape.tube === 'gritty' ? places.slice(1, -1).flatMap((p, i) => [-0.5, 0.1, 0.6].map((s, k) => pen.dot(p.x + p.nx * half(p.t) * s, p.y + p.ny * half(p.t) * s + k * 3, 2.6 + (i % 2), '#8c7448'))).join('') : ''; // prettier-ignore
  const creases = shape.tube === 'papery' ? pen.line(places.slice(2, -1).filter((_, i) => i % 3 === 0).map((p) => curve([[p.x - half(p.t), p.y], [p.x + half(p.t) * 0.3, p.y + 5]])).join(''), { 'stroke-width': 1.4 }) : ''; // prettier-ignore
  const end = line.at(-1) ?? [200, 160];
  const mouth =
    pen.oval(end[0], end[1], half(1) + 2, (half(1) + 2) * 0.42, fill) +
    pen.oval(end[0], end[1], half(1) * 0.68, half(1) * 0.27, '#54473d', { 'stroke-width': 2 });
  return body + rings + keel + grit + creases + mouth;
}

function crown(
  pen: Pen,
  shape: TubeShape,
  { x, y }: End,
  wide: number,
  parts: Parts,
  main: boolean,
): { under: string; over: string } {
  const fill = shape.crownFill ?? pen.fill;
  const note = (at: Point, ...names: (keyof Parts)[]) => {
    if (main) for (const name of names) parts[name] = at;
  };
  switch (shape.out) {
    case 'fan':
    case 'small-fan': {
      const wide = shape.out === 'fan' ? 104 : (shape.count ?? 1) > 1 ? 62 : 78;
      note([x - wide * 0.82, y - wide * 1.3], 'crown', 'tentacles', 'tips');
      note([x + wide * 0.4, y - wide * 1.1], 'pattern', 'skin');
      return { under: '', over: featherCrown(pen, x, y, wide, fill) };
    }
    case 'cones':
      note([150, 110], 'crown', 'tentacles');
      return { under: '', over: cone(pen, 140, fill) + cone(pen, 262, fill) };
    case 'two-feelers':
      note([x - 42, y - 62], 'crown', 'feelers', 'threads');
      return { under: '', over: [-1, 1].map((s) => limb(pen, curve([[x + s * 5, y], [x + s * 20, y - 50], [x + s * 52, y - 76], [x + s * 44, y - 112]]), 5)).join('') }; // prettier-ignore
    case 'horns': {
      note([x - 40, y - 96], 'crown', 'feelers', 'threads');
      const thin = steps(-34, 34, 6).map((dx) => curve([[x, y], [x + dx * 0.7, y - 50], [x + dx * 1.3, y - 84 + Math.abs(dx) * 0.5]])).join(''); // prettier-ignore
      return { under: '', over: pen.line(thin, { 'stroke-width': 1.8 }) + [-1, 1].map((s) => limb(pen, curve([[x + s * 8, y], [x + s * 30, y - 72], [x + s * 62, y - 120]]), 13)).join('') }; // prettier-ignore
    }
    case 'slime': {
      note([x - 84, y - 56], 'crown', 'threads');
      const loose = [[-30, -70, -84, -56, -118, 10], [-14, -50, -46, -62, -76, -14], [16, -54, 52, -70, 78, -8], [30, -74, 92, -58, 124, 14]].map(([a = 0, b = 0, c = 0, d = 0, e = 0, f = 0]) => curve([[x, y], [x + a, y + b], [x + c, y + d], [x + e, y + f]])).join(''); // prettier-ignore
      const snail = [-1, 1].map((s) => limb(pen, `M${x + s * 4} ${y}l${s * 7} -18`, 3.5, '#e7cfae')).join('');
      return {
        under: '',
        over: pen.line(loose, { 'stroke-width': 2.2, stroke: '#5f787c' }) + snail,
      };
    }
    case 'flower': {
      note([x - wide - 30, y - 32], 'crown', 'tentacles', 'tips');
      return { under: '', over: steps(-170, -10, 11).map((a) => limb(pen, curve([[x, y - 2], polar(x, y - 4, wide + 20, a), polar(x, y - 4, wide + 38, a + (a < -90 ? -8 : 8))]), 3, '#f4f7f5')).join('') }; // prettier-ignore
    }
  }
}

function fanRays(pen: Pen, x: number, y: number, reach: number, fill: string, turn = 0): string {
  const rays = steps(-172, -8, reach > 80 ? 17 : 13)
    .map((angle, i) => {
      const length = reach * (i % 2 ? 0.94 : 1) * (0.82 + 0.18 * Math.sin((-angle * Math.PI) / 180));
      const tip = polar(x, y - 4, length, angle);
      const bend = polar(x, y - 14, length * 0.55, angle * 0.8 - 18);
      const ray = curve([[x, y - 2], bend, tip]);
      const barbs = along([[x, y - 2], bend, tip], reach > 80 ? 15 : 9).slice(3).flatMap((p) => [1, -1].map((s) => curve([[p.x, p.y], [p.x + p.nx * 8 * s - p.ny * -5, p.y + p.ny * 8 * s + p.nx * -5]]))); // prettier-ignore
      return pen.line(barbs.join(''), { 'stroke-width': 1.7 }) + limb(pen, ray, 3.4, i % 3 === 1 ? pen.second : fill);
    })
    .join('');
  return turn ? tag('g', { transform: `rotate(${turn} ${x} ${y})` }, rays) : rays;
}

function cone(pen: Pen, x: number, fill: string): string {
  const turns = upTo(6).map((i) => {
    const [y, half] = [214 - i * 30, 64 - i * 10];
    const fringe = steps(-0.9, 0.9, 9).map((s) => `M${x + s * half} ${y + 6 - Math.abs(s) * 6}l${s * 5} 13`).join(''); // prettier-ignore
    return pen.line(fringe, { 'stroke-width': 2 }) + pen.oval(x, y, half, 13, fill);
  });
  return limb(pen, curve([[200, 240], [x + (200 - x) * 0.4, 232], [x, 214]]), 9, fill) + turns.join('') + pen.dot(x, 46, 6, INK); // prettier-ignore
}

function doorMarks(pen: Pen, door: 'plug' | 'lid', { x, y }: End, wide: number, parts: Parts): string {
  if (door === 'lid') {
    parts.lid = [x + wide + 16, y - 12];
    return pen.oval(x + wide + 14, y - 12, wide * 0.95, wide * 0.5, '#5c3d2a', { transform: `rotate(-28 ${x + wide + 14} ${y - 12})` }); // prettier-ignore
  }
  parts.lid = [x + 40, y - 58];
  return limb(pen, curve([[x + 5, y - 2], [x + 30, y - 20], [x + 40, y - 44]]), 4) + pen.shape(`M${x + 22} ${y - 66}Q${x + 40} ${y - 76} ${x + 58} ${y - 66}L${x + 43} ${y - 42}H${x + 36}Z`, pen.second); // prettier-ignore
}

/** Flat chalk spirals stuck down side by side, one of them large enough to see its fan. */
export function drawCoilTubes(pen: Pen): Sketch {
  const coil = (cx: number, cy: number, r: number, turn: number) => {
    const line = upTo(22).map((i): Point => polar(cx, cy, (r * (i + 2)) / 23, turn + i * 38));
    return { marks: pen.shape(tapered(line, (t) => r * (0.06 + 0.2 * t), 60), pen.fill, { 'stroke-width': r > 50 ? 3.2 : 2.2 }), end: line.at(-1) ?? [cx, cy], line }; // prettier-ignore
  };
  const main = coil(178, 176, 96, 100);
  const small = [[52, 60, 30, 0], [340, 70, 26, 90], [352, 262, 30, 200], [44, 282, 24, 40], [280, 40, 20, 150]].map(([x, y, r, t]) => coil(x ?? 0, y ?? 0, r ?? 20, t ?? 0).marks); // prettier-ignore
  const [ex, ey] = main.end;
  const before = main.line.at(-3) ?? [ex, ey];
  const heading = (Math.atan2(ey - before[1], ex - before[0]) * 180) / Math.PI;
  const fan = fanRays(pen, ex, ey, 64, '#f0b7a0', heading + 90);
  return {
    marks: small.join('') + main.marks + pen.oval(ex, ey, 22, 20, '#5c4c40') + fan,
    parts: { body: [178, 176], tube: [120, 120], crown: polar(ex, ey, 52, heading), mouth: [ex, ey], shell: [120, 120], edge: [90, 200], hole: [ex, ey], base: [110, 236],  side: [90, 200], lid: [ex, ey], skin: [120, 120] },
    span: 200,
  }; // prettier-ignore
}

export type ThreadsShape = { from: 'one-point' | 'many-points' };

/** Threads across the sand: from one mound, or from many points along a hidden body. */
export function drawThreads(pen: Pen, shape: ThreadsShape): Sketch {
  const sand = pen.shape('M10 318V236Q120 216 200 226T390 226V318Z', SAND, { stroke: 'none' });
  if (shape.from === 'one-point') {
    const mound = pen.shape('M150 246Q176 172 200 172T250 246Z', '#d6bf8f') + pen.oval(200, 178, 17, 7, '#6b5a3c');
    const lines = [[40, 264], [90, 292], [30, 206], [160, 300], [240, 302], [310, 288], [368, 258], [360, 204]].map(([x, y], i) => curve([[200, 178], [200 + ((x ?? 0) - 200) * 0.34, 196 + (i % 3) * 12], [200 + ((x ?? 0) - 200) * 0.7, (y ?? 0) - (i % 2 ? 22 : -4)], [x ?? 0, y ?? 0]])); // prettier-ignore
    return { marks: sand + mound + lines.map((d) => limb(pen, d, 4.5)).join(''), parts: { body: [200, 190], threads: [76, 272], tube: [222, 220], base: [200, 180], crown: [76, 272], tentacles: [76, 272], arms: [76, 272], skin: [76, 272], ground: [60, 300], hole: [200, 178], column: [222, 220] }, span: 340 }; // prettier-ignore
  }
  const body: Point[] = [
    [64, 236],
    [140, 262],
    [230, 236],
    [340, 258],
  ];
  const curls = along(body, 15).map((p, i) => curve([[p.x, p.y], [p.x + (i % 2 ? 16 : -14), p.y - 44], [p.x + (i % 2 ? -12 : 14), p.y - 78 - (i % 3) * 18], [p.x + (i % 2 ? 12 : -8), p.y - 108 - (i % 4) * 16], [p.x + (i % 2 ? 26 : -24), p.y - 98 - (i % 4) * 16]])); // prettier-ignore
  const worm = tapered(body, (t) => 11 - 4 * t);
  const rings = pen.line(along(body, 26).slice(1, -1).map((p) => curve([[p.x + p.nx * 9, p.y + p.ny * 9], [p.x - p.nx * 9, p.y - p.ny * 9]])).join(''), { 'stroke-width': 1.6 }); // prettier-ignore
  return { marks: sand + curls.map((d) => limb(pen, d, 3.4)).join('') + pen.skin(worm, { plain: true }) + rings, parts: { body: [230, 240], threads: [150, 160], skin: [150, 160], tube: [300, 250], crown: [150, 160], base: [180, 254], ground: [60, 300], side: [300, 250] }, span: 300 }; // prettier-ignore
}
