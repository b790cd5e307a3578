import type { Critter } from '../../../src/knowledge/critter.ts';
import { isDark } from '../../../src/drawing/ink.ts';
import { drawCritter, subjectOf, type Subject } from '../../../src/drawing/subject.ts';
import { rendered } from './picture.ts';

const SIDE = 120;
const REACH = 2;

const bared = (marks: string) => marks.replace(/(fill|stroke)="(#[0-9a-f]{6})"/g, (_, name: string, colour: string) => `${name}="${isDark(colour) ? '#000000' : '#ffffff'}"`); // prettier-ignore

const painted = (marks: string, viewBox: string, width: number, height: number) =>
  rendered(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="${viewBox}" width="${width}" height="${height}">${marks}</svg>`).pixels; // prettier-ignore

/**
 * How much line there is near every place of an animal's drawing, without its colours, its pattern and what it sits on.
 * The drawing fills the square, so that a copy of another size counts as the same.
 */
export function lineDensity(critter: Critter): Float64Array {
  const subject: Subject = { ...subjectOf(critter), colour: ['white'] };
  delete subject.setting;
  return densityOf(drawCritter(subject).marks);
}

/** The same for any marks. */
export function densityOf(marks: string): Float64Array {
  const bare = bared(marks);
  const whole = painted(bare, '-100 -100 600 520', 300, 260);
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (let y = 0; y < 260; y++)
    for (let x = 0; x < 300; x++) {
      if ((whole[(y * 300 + x) * 4 + 3] ?? 0) <= 40) continue;
      box.left = Math.min(box.left, x * 2 - 100);
      box.right = Math.max(box.right, x * 2 - 100);
      box.top = Math.min(box.top, y * 2 - 100);
      box.bottom = Math.max(box.bottom, y * 2 - 100);
    }
  const size = Math.max(box.right - box.left, box.bottom - box.top);
  const [x0, y0] = [(box.left + box.right - size) / 2, (box.top + box.bottom - size) / 2];
  const close = painted(bare, `${x0} ${y0} ${size} ${size}`, SIDE, SIDE);
  const inked = (x: number, y: number) => x >= 0 && y >= 0 && x < SIDE && y < SIDE && (close[(y * SIDE + x) * 4 + 3] ?? 0) > 90 && (close[(y * SIDE + x) * 4] ?? 255) < 150; // prettier-ignore
  const density = new Float64Array(SIDE * SIDE);
  for (let y = 0; y < SIDE; y++)
    for (let x = 0; x < SIDE; x++)
      for (let dy = -REACH; dy <= REACH; dy++)
        for (let dx = -REACH; dx <= REACH; dx++)
          if (inked(x + dx, y + dy)) density[y * SIDE + x] = (density[y * SIDE + x] ?? 0) + 1;
  return density;
}

/** 1 for the same lines in the same places, about 0 for lines that have nothing to do with each other. */
export function likeness(one: Float64Array, other: Float64Array): number {
  const mean = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [a, b] = [mean(one), mean(other)];
  let [both, first, second] = [0, 0, 0];
  one.forEach((value, i) => {
    const [p, q] = [value - a, (other[i] ?? 0) - b];
    both += p * q;
    first += p * p;
    second += q * q;
  });
  return both / Math.sqrt(first * second || 1);
}
