// The crown of a fan worm, seen from a little above the side: a funnel of feathers that opens upwards.
import { along, curve } from '../curve.ts';
import { limb, type Pen } from '../pen.ts';
import { upTo, type Point } from '../svg.ts';

/** A funnel of feathers on the mouth of a tube; the rim is `wide` pixels from its middle to the side. */
export function featherCrown(pen: Pen, x: number, y: number, wide: number, fill: string): string {
  const rim: Point = [x, y - wide * 1.2];
  // A small crown has fewer rays and finer lines, so that it does not fill up with ink.
  const small = wide < 90;
  const count = small ? 15 : 22;
  const rays = upTo(count)
    .map((i) => ((i + 0.5) * Math.PI * 2) / count)
    .sort((one, other) => Math.sin(one) - Math.sin(other));
  const drawn = rays.map((angle) => {
    const [side, near] = [Math.cos(angle), Math.sin(angle)];
    const tip: Point = [rim[0] + side * wide, rim[1] + near * wide * 0.34];
    const line: Point[] = [
      [x + side * 6, y - 1],
      [x + side * wide * 0.34, y - wide * 0.44 + near * wide * 0.08],
      [x + side * wide * 0.74, y - wide * 0.86 + near * wide * 0.22],
      tip,
    ];
    // Every ray is itself a feather.
    const barbs = along(line, small ? 11 : 13).slice(4).flatMap((p) => [1, -1].map((s) => curve([[p.x, p.y], [p.x + p.nx * (small ? 6.5 : 8) * s + side * 3, p.y + p.ny * (small ? 6.5 : 8) * s - 5]]))).join(''); // prettier-ignore
    const band = pen.line(curve(line), { stroke: pen.second, 'stroke-width': small ? 3.2 : 4, 'stroke-dasharray': '12 16', 'stroke-dashoffset': -18, 'stroke-linecap': 'butt' }); // prettier-ignore
    const stem = small ? pen.line(curve(line), { 'stroke-width': 5 }) + pen.line(curve(line), { stroke: fill, 'stroke-width': 3.2 }) : limb(pen, curve(line), 3.6, fill); // prettier-ignore
    return pen.line(barbs, small ? { 'stroke-width': 1.5, stroke: '#7d6752' } : { 'stroke-width': 1.6 }) + stem + band;
  });
  return drawn.join('');
}
