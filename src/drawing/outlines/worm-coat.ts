// What stands on a worm's body: bristles at its sides, gills on its back, the lobe on its head.
import { along, curve, type Place } from '../curve.ts';
import { FILLS, INK } from '../ink.ts';
import type { Pen } from '../pen.ts';
import { polar, steps, upTo, type Point } from '../svg.ts';

export type Bristles = 'none' | 'short' | 'fringe' | 'brushes';
export type Gills = 'none' | 'pale' | 'red';
type Width = (t: number) => number;

/** A point beside the body. */
export function edge(p: Place, side: 1 | -1, distance: number): Point {
  return [p.x + p.nx * distance * side, p.y + p.ny * distance * side];
}

/** Bristles along both sides. */
export function bristles(
  pen: Pen,
  kind: Bristles,
  line: readonly Point[],
  rings: readonly Place[],
  width: Width,
): string {
  if (kind === 'none') return '';
  if (kind === 'fringe') return fringe(pen, line, rings, width);
  const length = kind === 'short' ? 6 : 30;
  const hairs = kind === 'brushes' ? 6 : 2;
  const spread = kind === 'brushes' ? 22 : 7;
  const lines = rings.flatMap((p) =>
    ([1, -1] as const).flatMap((side) =>
      upTo(hairs).map((i) => {
        const lean = (i / (hairs - 1) - 0.5) * spread;
        const from = edge(p, side, width(p.t) - 3);
        const [x, y] = edge(p, side, width(p.t) + length - Math.abs(lean) * 0.3);
        return `M${from[0].toFixed(1)} ${from[1].toFixed(1)}L${(x - p.ny * lean).toFixed(1)} ${(y + p.nx * lean).toFixed(1)}`;
      }),
    ),
  );
  const d = lines.join('');
  if (kind === 'short') return pen.line(d, { 'stroke-width': 1.6 });
  return pen.line(d, { 'stroke-width': 3.4 }) + pen.line(d, { stroke: '#ffffff', 'stroke-width': 1.8 });
}

/** One thin even row of white hairs along each side, a little longer in the middle of every ring. */
function fringe(pen: Pen, line: readonly Point[], rings: readonly Place[], width: Width): string {
  const [first, last] = [rings[0]?.t ?? 0, rings.at(-1)?.t ?? 1];
  const count = Math.round(rings.length * 5);
  const d = along(line, 150)
    .filter((p) => p.t >= first - 0.02 && p.t <= last + 0.02)
    .filter((_, i, all) => i % Math.max(1, Math.round(all.length / count)) === 0)
    .flatMap((p) =>
      ([1, -1] as const).map((side) => {
        const reach = 8 + 3.5 * Math.abs(Math.sin(p.t * 22 * Math.PI));
        const [fx, fy] = edge(p, side, width(p.t) - 2);
        const [tx, ty] = edge(p, side, width(p.t) + reach);
        return `M${fx} ${fy}L${tx + p.ny * 3} ${ty - p.nx * 3}`;
      }),
    )
    .join('');
  return pen.line(d, { 'stroke-width': 2.4, stroke: '#6f6a63' }) + pen.line(d, { stroke: '#ffffff', 'stroke-width': 1.5 }); // prettier-ignore
}

/** Gills on every ring of the back: pale dots, or red bushes that stand up. */
export function gills(pen: Pen, kind: Gills, rings: readonly Place[], width: Width): string {
  if (kind === 'none') return '';
  const pairs = rings.flatMap((p) => ([1, -1] as const).map((side) => ({ p, side })));
  if (kind === 'pale') return pairs.map(({ p, side }) => pen.dot(...edge(p, side, width(p.t) * 0.62), 3, '#f6dfe0', { stroke: INK, 'stroke-width': 1 })).join(''); // prettier-ignore
  // The tufts on the far side are drawn first; all of them rise towards the viewer's up.
  return pairs
    .map(({ p, side }) => ({ root: edge(p, side, width(p.t) * 0.44), lean: p.nx * side * 26 }))
    .sort((one, other) => one.root[1] - other.root[1])
    .map(({ root: [x, y], lean }) => {
      const twigs = steps(-52, 52, 5).map((spread, i) => {
        const tip = polar(x, y, i % 2 ? 15 : 18 - Math.abs(i - 2) * 2, -90 + spread + lean);
        return `M${x} ${y}L${tip[0]} ${tip[1]}`;
      });
      return pen.line(twigs.join(''), { 'stroke-width': 5.2 }) + pen.line(twigs.join(''), { stroke: FILLS.red, 'stroke-width': 2.8 }); // prettier-ignore
    })
    .join('');
}

/** A lobe on the head that runs back over the first rings: a ridge, and pleats that hang from it on both sides. */
export function pleatedLobe(pen: Pen, line: readonly Point[], girth: number): string {
  const places = along(line, 90).slice(3, 23);
  const share = (i: number) => i / (places.length - 1);
  const half = (i: number) => girth * 0.8 * Math.sin(Math.PI * (0.14 + share(i) * 0.82)) ** 0.7;
  const wavy = (side: 1 | -1) => places.map((p, i) => edge(p, side, half(i) + (i % 2 ? 3.4 : -2.6)));
  const outline = curve([...wavy(1), ...wavy(-1).reverse()], true);
  const pleats = places.slice(2, -2).filter((_, i) => i % 2 === 0).flatMap((p, k) => ([1, -1] as const).map((side) => curve([edge(p, side, 3), [edge(p, side, half(2 + k * 2) * 0.8)[0] - p.ny * 5, edge(p, side, half(2 + k * 2) * 0.8)[1] + p.nx * 5]]))).join(''); // prettier-ignore
  const ridge = curve(places.slice(1, -1).map((p): Point => [p.x, p.y]));
  return pen.shape(outline, '#f7cfae', { 'stroke-width': 2.8 }) + pen.line(pleats, { 'stroke-width': 2.2 }) + pen.line(ridge, { 'stroke-width': 7 }) + pen.line(ridge, { stroke: '#fbe6d2', 'stroke-width': 2.8 }); // prettier-ignore
}
