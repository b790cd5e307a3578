// Smooth lines through points, and bodies that follow such a line: worms, arms, tentacles, stalks.
import { round, type Point } from './svg.ts';

/** A place on a line: where it is, which way is sideways, and how far along it lies (0 to 1). */
export type Place = { x: number; y: number; nx: number; ny: number; t: number };

const at = (points: readonly Point[], index: number, closed: boolean): Point => {
  const last = points.length - 1;
  const wrapped = closed ? (index + points.length) % points.length : Math.min(last, Math.max(0, index));
  return points[wrapped] ?? [0, 0];
};

/** A path that runs smoothly through every point. */
export function curve(points: readonly Point[], closed = false): string {
  const [first] = points;
  if (!first) return '';
  const parts = [`M${round(first[0])} ${round(first[1])}`];
  const pieces = closed ? points.length : points.length - 1;
  for (let i = 0; i < pieces; i++) {
    const [a, b, c, d] = [
      at(points, i - 1, closed),
      at(points, i, closed),
      at(points, i + 1, closed),
      at(points, i + 2, closed),
    ];
    const one = [b[0] + (c[0] - a[0]) / 6, b[1] + (c[1] - a[1]) / 6];
    const two = [c[0] - (d[0] - b[0]) / 6, c[1] - (d[1] - b[1]) / 6];
    parts.push(`C${[...one, ...two, c[0], c[1]].map(round).join(' ')}`);
  }
  return parts.join('') + (closed ? 'Z' : '');
}

/** A path with straight sides. */
export function corners(points: readonly Point[], closed = true): string {
  return points.map(([x, y], i) => `${i ? 'L' : 'M'}${round(x)} ${round(y)}`).join('') + (closed ? 'Z' : '');
}

function dense(points: readonly Point[]): Point[] {
  const out: Point[] = [];
  for (let i = 0; i < points.length - 1; i++) {
    const [a, b, c, d] = [
      at(points, i - 1, false),
      at(points, i, false),
      at(points, i + 1, false),
      at(points, i + 2, false),
    ];
    for (let step = 0; step < 16; step++) {
      const t = step / 16;
      const mix = (p: number, q: number, r: number, s: number) =>
        0.5 * (2 * q + (r - p) * t + (2 * p - 5 * q + 4 * r - s) * t * t + (3 * q - p - 3 * r + s) * t * t * t);
      out.push([mix(a[0], b[0], c[0], d[0]), mix(a[1], b[1], c[1], d[1])]);
    }
  }
  out.push(at(points, points.length - 1, false));
  return out;
}

/** Places at equal distances along the smooth line through the points. */
export function along(points: readonly Point[], count: number): Place[] {
  const line = dense(points);
  const lengths = [0];
  for (let i = 1; i < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i - 1] ?? [0, 0], line[i] ?? [0, 0]];
    lengths.push((lengths[i - 1] ?? 0) + Math.hypot(bx - ax, by - ay));
  }
  const total = lengths.at(-1) || 1;
  let piece = 1;
  return Array.from({ length: count }, (_, index) => {
    const t = count === 1 ? 0.5 : index / (count - 1);
    while (piece < line.length - 1 && (lengths[piece] ?? 0) < t * total) piece++;
    const [[ax, ay], [bx, by]] = [line[piece - 1] ?? [0, 0], line[piece] ?? [0, 0]];
    const [from, to] = [lengths[piece - 1] ?? 0, lengths[piece] ?? 0];
    const share = to > from ? (t * total - from) / (to - from) : 0;
    const size = Math.hypot(bx - ax, by - ay) || 1;
    return { x: ax + (bx - ax) * share, y: ay + (by - ay) * share, nx: -(by - ay) / size, ny: (bx - ax) / size, t };
  });
}

/** The outline of a body whose middle follows the points and whose half width changes from head (0) to tail (1). */
export function tapered(points: readonly Point[], halfWidth: (t: number) => number, count = 36): string {
  const places = along(points, count);
  const left = places.map((p): Point => [p.x + p.nx * halfWidth(p.t), p.y + p.ny * halfWidth(p.t)]);
  const right = places.map((p): Point => [p.x - p.nx * halfWidth(p.t), p.y - p.ny * halfWidth(p.t)]);
  return curve([...left, ...right.reverse()], true);
}

/** A half width that is full in the middle and round at both ends. */
export function roundEnds(full: number, head = 0.06, tail = 0.1): (t: number) => number {
  return (t) => {
    if (t < head) return full * Math.sqrt(Math.max(0, 1 - (1 - t / head) ** 2));
    if (t > 1 - tail) return full * Math.sqrt(Math.max(0, 1 - (1 - (1 - t) / tail) ** 2));
    return full;
  };
}
