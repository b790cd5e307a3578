import { expect } from 'vitest';
import { LONGEST_LINE, widthOf } from '../../../../src/drawing/letters.ts';
import { altTextOf, type Plate } from '../../../../src/drawing/page.ts';
import { linesOf, rendered, type Line } from '../picture.ts';

/** The room a line takes; letters reach about three quarters of the size above the line and a quarter below. */
export function roomOf({ text, x, y, size, weight, anchor }: Line) {
  const width = widthOf(text, size, weight);
  const left = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
  return { text, left, right: left + width, top: y - size * 0.74, bottom: y + size * 0.22 };
}

/** What holds for every chart: readable words inside the frame and apart, a picture, and the same in words. */
export function expectReadable(chart: Plate, paint = true): void {
  expect(chart.width).toBe(900);
  expect(chart.svg).not.toMatch(/NaN|undefined|Infinity/);
  const lines = linesOf(chart);
  expect(lines.filter(({ size, text }) => size < 26 || text.length > LONGEST_LINE)).toEqual([]);
  const rooms = lines.map(roomOf);
  expect(rooms.filter(({ left, right, top, bottom }) => left < 4 || right > 896 || top < 4 || bottom > chart.height)).toEqual([]); // prettier-ignore
  // One check for all pairs, since there are thousands of them.
  const over = rooms.flatMap((one, i) =>
    rooms.slice(i + 1).flatMap((other) => {
      const apart = one.right <= other.left || other.right <= one.left || one.bottom <= other.top || other.bottom <= one.top; // prettier-ignore
      return apart ? [] : [`"${one.text}" over "${other.text}"`];
    }),
  );
  expect(over).toEqual([]);
  const said = altTextOf(chart);
  expect(said.length).toBeLessThanOrEqual(1000);
  expect(said.length).toBeGreaterThan(40);
  expect(said).not.toMatch(/NaN|undefined|Infinity/);
  if (!paint) return;
  const picture = rendered(chart.svg, 375);
  expect(Math.abs(picture.height - (chart.height * 375) / 900)).toBeLessThan(2);
}

export const textsOf = (chart: Plate) => linesOf(chart).map(({ text }) => text);

/** The elements of a kind, each as its attributes. */
export function elementsOf(chart: Plate, name: string, kind?: string): Record<string, string>[] {
  return [...chart.svg.matchAll(new RegExp(`<${name} ([^>]*?)/?>`, 'g'))]
    .map(([, all = '']) =>
      Object.fromEntries([...all.matchAll(/([\w-]+)="([^"]*)"/g)].map(([, key, value]) => [key, value])),
    ) // prettier-ignore
    .filter((attributes) => !kind || attributes.class === kind);
}

/** The corners of a path of straight lines in absolute commands. */
export function cornersOf(d: string): [number, number][] {
  return [...d.matchAll(/[ML]([\d.-]+)[, ]([\d.-]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
}
