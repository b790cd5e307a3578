// The crown of a fan worm, seen from a little above the side: a funnel of feathers that opens upwards.
import { along, curve } from '../curve.ts';
import { limb, type Pen } from '../pen.ts';
import { upTo, type Point } from '../svg.ts';

const RAYS = 22;

/** A funnel of feathers on the mouth of a tube; the rim is `wide` pixels from its middle to the side. */
export function featherCrown(pen: Pen, x: number, y: number, wide: number, fill: string): string {
  const rim: Point = [x, y - wide * 1.2];
  const rays = upTo(RAYS)
    .map((i) => ((i + 0.5) * Math.PI * 2) / RAYS)
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
    const barbs = along(line, 13).slice(4).flatMap((p) => [1, -1].map((s) => curve([[p.x, p.y], [p.x + p.nx * 8 * s + side * 3, p.y + p.ny * 8 * s - 5]]))).join(''); // prettier-ignore
    const band = pen.line(curve(line), { stroke: pen.second, 'stroke-width': 4, 'stroke-dasharray': '12 16', 'stroke-dashoffset': -18, 'stroke-linecap': 'butt' }); // prettier-ignore
    return pen.line(barbs, { 'stroke-width': 1.6 }) + limb(pen, curve(line), 3.6, fill) + band;
  });
  return drawn.join('');
}
