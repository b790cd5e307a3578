// The hair of crabs: a shaggy edge that is the outline itself, tufts here and there, or hairs along a leg.
import { along, corners, curve } from '../curve.ts';
import type { Pen } from '../pen.ts';
import { chance, polar, steps, upTo, type Point } from '../svg.ts';

const THIN = 2;

/** A leg, arm or feeler that is shaggy on both sides: its hairs lean towards its end. */
export function shaggyLimb(pen: Pen, line: readonly Point[], half: number, length: number, seed: number): string {
  const next = chance(seed);
  const places = along(line, Math.round(line.length * 9));
  const side = (s: 1 | -1) =>
    places.flatMap((p, i): Point[] => {
      const [dx, dy] = [p.ny * 7, -p.nx * 7];
      const far = half + length * (0.35 + next() * 0.65);
      const base: Point = [p.x + p.nx * half * s, p.y + p.ny * half * s];
      return i % 2 ? [base] : [[p.x + p.nx * far * s + dx, p.y + p.ny * far * s + dy]];
    });
  const end = places.at(-1) ?? { x: 0, y: 0, nx: 0, ny: 1 };
  const tip: Point = [end.x + end.ny * length * 0.7, end.y - end.nx * length * 0.7];
  const strands = places.filter((_, i) => i % 2).map((p) => { const at = (next() - 0.5) * half * 1.4; return `M${p.x + p.nx * at} ${p.y + p.ny * at}l${p.ny * 9 + p.nx * 3} ${-p.nx * 9 + p.ny * 3}`; }).join(''); // prettier-ignore
  return pen.shape(corners([...side(1), tip, ...side(-1).reverse()]), pen.fill, { 'stroke-width': THIN + 0.4 }) + pen.line(strands, { stroke: pen.detail, 'stroke-width': 1.4 }); // prettier-ignore
}

/** A round body or claw with hair all over; the hairs hang down and out. */
export function shaggyRound(pen: Pen, [x, y]: Point, rx: number, ry: number, length: number, seed: number): string {
  const next = chance(seed);
  const count = Math.round((rx + ry) * 0.42) * 2;
  const edge = upTo(count).map((i): Point => {
    const angle = (i * 360) / count;
    const [ex, ey] = polar(0, 0, 1, angle);
    const out = i % 2 ? 0 : length * (0.4 + next() * 0.6);
    return [x + ex * (rx + out) + (i % 2 ? 0 : 3), y + ey * (ry + out) + (i % 2 ? 0 : 5)];
  });
  const strands = upTo(Math.round(rx * ry * 0.016)).map(() => {
    const [px, py] = polar(0, 0, Math.sqrt(next()) * 0.86, next() * 360);
    return `M${x + px * rx} ${y + py * ry - 6}q${px * 5 + 2} 6 ${px * 9} ${11 + next() * 7}`;
  });
  return pen.shape(corners(edge), pen.fill, { 'stroke-width': THIN + 0.4 }) + pen.line(strands.join(''), { stroke: pen.detail, 'stroke-width': 1.5 }); // prettier-ignore
}

/** A few tufts of hair on a body that is bare otherwise. */
export function tufts(pen: Pen, places: readonly Point[], length: number): string {
  const d = places.flatMap(([x, y]) => steps(-1, 1, 5).map((s) => `M${x + s * 5} ${y}q${s * 3} ${length * 0.5} ${s * 9} ${length * (1 - Math.abs(s) * 0.25)}`)).join(''); // prettier-ignore
  return pen.line(d, { stroke: pen.detail, 'stroke-width': 1.8 });
}

/** Hairs on both sides of a leg with a knee. */
export function hairOn(pen: Pen, from: Point, knee: Point, end: Point, length: number): string {
  const lines = (
    [
      [from, knee],
      [knee, end],
    ] as const
  ).flatMap(([a, b]) => {
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const size = Math.hypot(dx, dy) || 1;
    return steps(0.15, 1, 8).flatMap((s) => [-1, 1].map((side) => { const at: Point = [a[0] + dx * s, a[1] + dy * s]; return curve([at, [at[0] + (-dy / size) * (length + 6) * side + dx * 0.05, at[1] + (dx / size) * (length + 6) * side + dy * 0.05]]); })); // prettier-ignore
  });
  return pen.line(lines.join(''), { 'stroke-width': 1.8 });
}
