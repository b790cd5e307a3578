import { describe, expect, it } from 'vitest';
import { badge } from '../../../src/drawing/callouts.ts';
import { PAPERS } from '../../../src/drawing/ink.ts';
import { LONGEST_LINE, widthOf } from '../../../src/drawing/letters.ts';
import { altTextOf, type Plate } from '../../../src/drawing/page.ts';
import { pairPlate } from '../../../src/drawing/pair-plate.ts';
import { knowledge, linesOf, named, rendered, wordsOf, type Line } from './picture.ts';

const pairs = knowledge.lookAlikes.map((pair) => {
  const { a, b, features } = pair;
  return { id: `${a}--${b}`, pair, plate: pairPlate({ a: named(a), b: named(b), features }) };
});
const plateOf = (id: string): Plate => {
  const found = pairs.find((pair) => pair.id === id);
  if (!found) throw new Error(`no pair ${id}`);
  return found.plate;
};

/** The room a line takes; letters reach about three quarters of the size above the line and a quarter below. */
function roomOf({ text, x, y, size, weight, anchor }: Line) {
  const width = widthOf(text, size, weight);
  const left = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
  return { left, right: left + width, top: y - size * 0.74, bottom: y + size * 0.22 };
}

/** Words broken over lines come back without the break, also when a long word was cut. */
const joined = (text: string) => text.replace(/- /g, '').replace(/[\s-]+/g, '');

describe('pairPlate', () => {
  it('has every pair of the knowledge base', () => {
    expect(pairs.length).toBe(knowledge.lookAlikes.length);
    expect(pairs.length).toBeGreaterThan(200);
  });

  it('shows both names, all features and what each side is like', () => {
    for (const { id, pair, plate } of pairs) {
      const words = joined(wordsOf(plate));
      const wanted = [named(pair.a).name, named(pair.b).name, ...pair.features.flatMap(({ feature, a, b }) => [feature, a, b])]; // prettier-ignore
      for (const text of wanted) expect(columnWords(plate), `${id}: ${text}`).toContain(joined(text));
      expect(words.length, id).toBeGreaterThan(20);
    }
  });

  it('is 900 wide, with letters of at least 26 and lines of at most 44 signs', () => {
    for (const { id, plate } of pairs) {
      expect(plate.width).toBe(900);
      for (const line of linesOf(plate)) {
        expect(line.text.length, `${id}: ${line.text}`).toBeLessThanOrEqual(LONGEST_LINE);
        expect(line.size, id).toBeGreaterThanOrEqual(26);
      }
    }
  });

  it('lets no words run out of the picture or over each other', () => {
    for (const { id, plate } of pairs) {
      const rooms = linesOf(plate).map((line) => ({ ...roomOf(line), text: line.text }));
      for (const [i, one] of rooms.entries()) {
        expect(one.left, `${id}: ${one.text}`).toBeGreaterThanOrEqual(4);
        expect(one.right, `${id}: ${one.text}`).toBeLessThanOrEqual(896);
        expect(one.bottom, `${id}: ${one.text}`).toBeLessThanOrEqual(plate.height);
        for (const other of rooms.slice(i + 1)) {
          const apart = one.right <= other.left || other.right <= one.left || one.bottom <= other.top || other.bottom <= one.top; // prettier-ignore
          expect(apart, `${id}: "${one.text}" over "${other.text}"`).toBe(true);
        }
      }
    }
  });

  it('lays no badge over words or over another badge', () => {
    for (const { id, plate } of pairs) {
      const badges = [...plate.svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="21"/g)].map(([, x, y]) => [Number(x), Number(y)] as const); // prettier-ignore
      const words = linesOf(plate).filter(({ text }) => !/^\d$/.test(text));
      for (const [i, [x, y]] of badges.entries()) {
        for (const [ox, oy] of badges.slice(i + 1)) expect(Math.hypot(x - ox, y - oy), id).toBeGreaterThan(42);
        for (const line of words) {
          const { left, right, top, bottom } = roomOf(line);
          const gap = Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom));
          expect(gap, `${id}: badge over "${line.text}"`).toBeGreaterThan(20);
        }
      }
    }
  });

  it('numbers every feature once in the words and at most twice in the drawings', () => {
    for (const { id, pair, plate } of pairs) {
      pair.features.forEach((_, i) => {
        const count = linesOf(plate).filter(({ text }) => text === String(i + 1)).length;
        expect(count, id).toBeGreaterThanOrEqual(1);
        expect(count, id).toBeLessThanOrEqual(3);
      });
    }
  });

  it('points at something in four of five pairs', () => {
    const pointing = pairs.filter(({ plate }) => plate.svg.includes(`stroke="${PAPERS.light.mark}"`));
    expect(pointing.length / pairs.length).toBeGreaterThan(0.8);
  });

  it('draws the two sides of a pair differently', () => {
    const alike = pairs.filter(({ plate }) => {
      const [left, right] = [...plate.svg.matchAll(/<g transform="translate\([^"]*scale[^"]*">(.*?)<\/g><(?:line|circle|path)/gs)]; // prettier-ignore
      return left && right && left[1]?.replaceAll('#l', '#r') === right[1];
    });
    expect(alike.map(({ id }) => id)).toEqual([]);
  });

  it('renders every pair as a picture', () => {
    for (const { id, plate } of pairs) {
      const picture = rendered(plate.svg, 300);
      expect(picture.width, id).toBe(300);
      expect(Math.abs(picture.height - plate.height / 3), id).toBeLessThan(2);
    }
  }, 60_000);

  it('says the same in words, in at most 1000 characters', () => {
    for (const { id, pair, plate } of pairs) {
      const text = altTextOf(plate);
      expect(text.length, id).toBeLessThanOrEqual(1000);
      expect(text, id).toContain(named(pair.a).name);
      expect(text, id).toContain(named(pair.b).name);
      for (const { feature } of pair.features) expect(text, id).toContain(feature);
    }
  });

  it('cuts a text that is too long at a word', () => {
    const long = altTextOf({
      ...plateOf('aiptasia--majano'),
      said: Array.from({ length: 40 }, () => 'forty words of the same old sort again.'),
    });
    expect(long.length).toBeLessThanOrEqual(1000);
    expect(long).toMatch(/\w …$/);
  });

  it('colours a side as its colour feature says', () => {
    const feature = { feature: 'Colour', a: 'Blue', b: 'Yellow with a red spot' };
    const { svg } = pairPlate({ a: named('red-bug'), b: named('red-bug'), features: [feature] });
    const [left = '', right = ''] = svg.split('translate(').slice(1).filter((part) => part.includes('<path')); // prettier-ignore
    expect(left).toContain('fill="#5a8fcb"');
    expect(right).toContain('fill="#f0d060"');
    const marks = { feature: 'Colour', a: 'A white ring', b: 'Red lines' };
    const banded = pairPlate({ a: named('red-bug'), b: named('red-bug'), features: [marks] }).svg;
    expect(banded).not.toContain('fill="#5a8fcb"');
  });

  it('keeps animals on light cards in the dark variant', () => {
    const dark = pairPlate(
      { a: named('aiptasia'), b: named('majano'), features: [{ feature: 'Column', a: 'Tall', b: 'Short' }] },
      'dark',
    );
    expect(dark.svg).toContain(`fill="${PAPERS.dark.page}"`);
    expect(dark.svg).toContain(`fill="${PAPERS.dark.card}"`);
    expect(dark.svg).not.toContain(`fill="${PAPERS.light.page}"`);
  });

  it('keeps signs of SVG in names and words harmless', () => {
    const sides = { a: { ...named('aiptasia'), name: 'A < B & "C"' }, b: named('majano') };
    const { svg } = pairPlate({ ...sides, features: [{ feature: '</text><script>', a: '<b>', b: '&' }] });
    expect(() => rendered(svg)).not.toThrow();
    expect(svg).not.toMatch(/<script|<b>/);
  });

  it('wraps names and words of any length', () => {
    const long = 'Pneumonoultramicroscopicsilicovolcanoconiosis-anemone of the seventh sea and its kin';
    const features = [{ feature: long, a: `${long} ${long}`, b: 'x' }];
    const plate = pairPlate({ a: { ...named('aiptasia'), name: long }, b: named('majano'), features });
    for (const line of linesOf(plate)) {
      const { left, right } = roomOf(line);
      expect(left).toBeGreaterThanOrEqual(4);
      expect(right).toBeLessThanOrEqual(896);
    }
  });
});

/** The words of each half in reading order, since lines of the two sides take turns. */
function columnWords(plate: Plate): string {
  const lines = linesOf(plate);
  const left = lines.filter(({ x }) => x < 450).map(({ text }) => text).join(' '); // prettier-ignore
  const right = lines.filter(({ x }) => x >= 450).map(({ text }) => text).join(' '); // prettier-ignore
  return joined(`${left} | ${right}`);
}

describe('the badge', () => {
  it('is hollow for what a still picture cannot show', () => {
    expect(badge([50, 50], 2, PAPERS.light)).toContain(`fill="${PAPERS.light.mark}"`);
    expect(badge([50, 50], 2, PAPERS.light, true)).not.toContain(`fill="${PAPERS.light.mark}"`);
  });
});
