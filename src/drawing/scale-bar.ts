// A bar of so many millimetres and a thing everybody knows, both to the scale of the drawing above them.
import { tag } from './svg.ts';
import { INK } from './ink.ts';

type Thing = {
  name: string;
  mm: number;
  /** Height as a share of the length. */ tall: number;
  draw: (px: number) => string;
};

const line = { stroke: INK, 'stroke-width': 2.5, 'stroke-linejoin': 'round' } as const;
const flesh = '#f0cdb0';

/** Things to compare with, by their length. Each is drawn from x = 0, standing on y = 0. */
export const THINGS: readonly Thing[] = [
  { name: 'hair', mm: 0.08, tall: 0.01, draw: (px) => tag('rect', { x: 0, y: -34, width: px, height: 34, fill: '#8a6a4d', ...line }) },
  { name: 'salt grain', mm: 0.3, tall: 1, draw: (px) => tag('rect', { x: 0, y: -px, width: px, height: px, fill: '#ffffff', ...line }) },
  { name: 'printed full stop', mm: 0.5, tall: 1, draw: (px) => tag('circle', { cx: px / 2, cy: -px / 2, r: px / 2, fill: INK }) },
  { name: 'pinhead', mm: 1.5, tall: 1, draw: (px) => tag('circle', { cx: px / 2, cy: -px / 2, r: px / 2, fill: '#b9bec4', ...line }) },
  { name: 'rice grain', mm: 6, tall: 0.32, draw: (px) => tag('ellipse', { cx: px / 2, cy: -Math.max(5, px * 0.16), rx: px / 2, ry: Math.max(4, px * 0.16), fill: '#ffffff', ...line }) },
  { name: 'fingernail', mm: 12, tall: 0.62, draw: (px) => tag('path', { d: `M0 0V${-px * 0.4}Q0 ${-px * 0.62} ${px / 2} ${-px * 0.62}Q${px} ${-px * 0.62} ${px} ${-px * 0.4}V0Q${px / 2} ${px * 0.12} 0 0Z`.replace(/-?\d+\.\d+/g, (n) => Number(n).toFixed(1)), fill: flesh, ...line }) },
  { name: 'finger', mm: 75, tall: 0.22, draw: (px) => tag('rect', { x: 0, y: -Math.max(7, px * 0.22), width: px, height: Math.max(7, px * 0.22), rx: Math.max(3.5, px * 0.11), fill: flesh, ...line }) + tag('rect', { x: px * 0.86, y: -Math.max(6, px * 0.19), width: px * 0.11, height: Math.max(5, px * 0.14), rx: 2, fill: '#fbe9dc', ...line, 'stroke-width': 1.5 }) },
  { name: 'hand', mm: 180, tall: 0.42, draw: (px) => hand(px) },
  { name: 'arm', mm: 650, tall: 0.2, draw: (px) => tag('path', { d: `M0 ${(-px * 0.14).toFixed(1)}L${(px * 0.76).toFixed(1)} ${(-px * 0.1).toFixed(1)}q${(px * 0.24).toFixed(1)} ${(-px * 0.06).toFixed(1)} ${(px * 0.24).toFixed(1)} ${(px * 0.05).toFixed(1)}T${(px * 0.76).toFixed(1)} ${(-px * 0.01).toFixed(1)}L0 0Z`, fill: flesh, ...line }) },
]; // prettier-ignore

function hand(px: number): string {
  const h = px * 0.42;
  const fingers = [0, 1, 2, 3].map((i) => tag('rect', { x: px * 0.42, y: -h + (i * h) / 4.6, width: px * (i === 0 || i === 3 ? 0.48 : 0.58), height: h / 4.8, rx: h / 10, fill: flesh, ...line })); // prettier-ignore
  return (
    fingers.join('') +
    tag('rect', { x: 0, y: -h, width: px * 0.52, height: h * 0.94, rx: h * 0.16, fill: flesh, ...line })
  );
}

export type Scale = { barMm: number; barPx: number; thing?: { name: string; px: number; marks: string } };

/** The size that an animal is drawn at: the middle of what is met. */
export function shownMm([low, high]: readonly [number, number]): number {
  return (low + high) / 2;
}

/** The bar and the thing for a drawing in which `span` pixels stand for the animal's size. */
export function scaleFor(sizeMm: readonly [number, number], span: number): Scale {
  const perMm = span / shownMm(sizeMm);
  const nice = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];
  const barMm = nice.filter((mm) => mm * perMm <= 150).at(-1) ?? 0.01;
  const best = [...THINGS]
    .filter(({ mm, tall }) => mm * perMm <= 150 && mm * perMm >= 9 && mm * tall * perMm <= 52)
    .at(-1);
  const scale: Scale = { barMm, barPx: barMm * perMm };
  if (best) scale.thing = { name: best.name, px: best.mm * perMm, marks: best.draw(best.mm * perMm) };
  return scale;
}

/** A thing of about this size, in words. */
export function likeThing(mm: number): string {
  const distance = (thing: Thing) => Math.abs(Math.log(thing.mm / mm));
  const [first] = [...THINGS].sort((one, other) => distance(one) - distance(other));
  return first?.name ?? 'rice grain';
}

/** A size range in words, in the unit people would use. */
export function sizeInWords([low, high]: readonly [number, number]): string {
  const unit = low >= 100 ? 'cm' : 'mm';
  const by = unit === 'cm' ? 10 : 1;
  const short = (mm: number) => String(Math.round((mm / by) * 100) / 100);
  return low === high ? `${short(low)} ${unit}` : `${short(low)} to ${short(high)} ${unit}`;
}
