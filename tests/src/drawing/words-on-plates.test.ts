import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LONGEST_LINE, widthOf, wrapped } from '../../../src/drawing/letters.ts';
import { likeThing, scaleFor, sizeInWords, THINGS } from '../../../src/drawing/scale-bar.ts';
import { coloursInFeature, tellingPart, tellsSize } from '../../../src/drawing/telling-parts.ts';
import type { Part } from '../../../src/drawing/pen.ts';
import { framed, writing } from '../../../src/drawing/page.ts';
import { placeBadges, BADGE } from '../../../src/drawing/callouts.ts';
import { drawCritter } from '../../../src/drawing/subject.ts';
import { named, rendered } from './picture.ts';

describe('widthOf', () => {
  it.each(['regular', 'semibold'] as const)('agrees with the painted letters of %s', (weight) => {
    for (const text of ['Gills along the back, mmm', 'ILLicit iii 1234567890', 'WOMBAT & QUARTZ']) {
      const svg = framed(1200, 100, 'light', writing([text], 20, 60, { size: 40, weight, fill: '#000000' }));
      const { pixels, width, height } = rendered(svg);
      let [first, last] = [width, 0];
      for (let y = 0; y < height; y++)
        for (let x = 0; x < width; x++)
          if ((pixels[(y * width + x) * 4] ?? 255) < 120) [first, last] = [Math.min(first, x), Math.max(last, x)];
      expect(Math.abs(widthOf(text, 40, weight) - (last - first))).toBeLessThan(22);
    }
  });
});

describe('wrapped', () => {
  it('keeps every line within the room and loses no letter', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 300 }), fc.integer({ min: 80, max: 800 }), (text, room) => {
        const lines = wrapped(text, room, 27);
        for (const line of lines) {
          expect(line.length).toBeLessThanOrEqual(LONGEST_LINE);
          expect(widthOf(line, 27)).toBeLessThanOrEqual(room);
        }
        const bare = (value: string) => value.replace(/[\s-]+/g, '');
        expect(bare(lines.join(''))).toBe(bare(text));
      }),
    );
  });
});

describe('the scale', () => {
  it('draws a bar that is as long as it says', () => {
    const { barMm, barPx } = scaleFor([10, 30], 400);
    expect(barMm).toBe(5);
    expect(barPx).toBeCloseTo(100);
  });

  it('draws the thing to the same scale', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 2000, noNaN: true }), fc.integer({ min: 80, max: 350 }), (mm, span) => {
        const { barMm, barPx, thing } = scaleFor([mm, mm], span);
        expect(barPx).toBeLessThanOrEqual(150);
        expect(barPx).toBeGreaterThan(0);
        if (!thing) return;
        const { mm: real = 0 } = THINGS.find(({ name }) => name === thing.name) ?? {};
        expect(thing.px / real).toBeCloseTo(barPx / barMm);
        expect(thing.px).toBeLessThanOrEqual(150);
      }),
    );
  });

  it.each([
    [5, 'rice grain'],
    [15, 'fingernail'],
    [80, 'finger'],
    [0.1, 'hair'],
  ])('compares %d mm with a %s', (mm, thing) => {
    expect(likeThing(mm)).toBe(thing);
  });

  it('says sizes as people would', () => {
    expect(sizeInWords([0.3, 1])).toBe('0.3 to 1 mm');
    expect(sizeInWords([200, 3000])).toBe('20 to 300 cm');
    expect(sizeInWords([5, 5])).toBe('5 mm');
  });
});

describe('tellingPart', () => {
  it.each<[string, string, Part | undefined]>([
    ['fireworm-bearded', 'Gills along the back', 'gills'],
    ['fireworm-bearded', 'Fleshy lobe on the head', 'lobe'],
    ['fireworm-bearded', 'Bristles at the sides', 'bristles'],
    ['cone-snail', 'Opening of the shell', 'mouth'],
    ['turbo-snail', 'Lid', 'lid'],
    ['conch-fighting', 'Eyes', 'eyes'],
    ['emerald-crab', 'Claw tips', 'claw-tips'],
    ['swimming-crab', 'Last pair of legs', 'last-legs'],
    ['majano', 'Shape of the tentacles', 'tentacles'],
    ['palythoa-brown', 'Mat', 'mat'],
    ['blue-ringed-octopus', 'Blue rings', 'pattern'],
    ['flower-urchin', 'Surface under the rubble', 'surface'],
    ['red-planaria', 'Tail end', 'rear'],
    ['dorid-nudi', 'Back and head', 'head'],
    ['caulerpa', 'Runner', 'runner'],
    ['marine-velvet', 'Gill covers', 'fish-gills'],
    ['marine-ich', 'Size of the spots', 'spots'],
    ['mantis-shrimp', 'Sound and traces', undefined],
    ['asterina-harmless', 'Number over a month', undefined],
    ['dino-sand', 'Cell check', undefined],
  ])('%s: %s → %s', (id, feature, part) => {
    const found = tellingPart(feature, drawCritter(named(id).subject).parts);
    expect(found?.part === 'tail' ? 'rear' : found?.part).toBe(part);
  });

  it('leaves sizes to the bar', () => {
    expect(tellsSize('Size across the arms')).toBe(true);
    expect(tellsSize('Tail end')).toBe(false);
  });

  it('reads colours in the order of the words, and not those of marks', () => {
    expect(coloursInFeature('Colour', 'Green, brown or pink, often with bulbs')).toEqual(['green', 'brown', 'pink']);
    expect(coloursInFeature('Colour', 'Coloured, with a white ring near the tentacle tip')).toEqual([]);
    expect(coloursInFeature('Column', 'Red or green')).toEqual([]);
  });
});

describe('placeBadges', () => {
  it('keeps badges apart, off their parts and in the room', () => {
    const room = { x: 30, y: 30, width: 360, height: 340 };
    const inside = fc.tuple(fc.integer({ min: 60, max: 360 }), fc.integer({ min: 60, max: 340 }));
    fc.assert(
      fc.property(fc.array(inside, { minLength: 1, maxLength: 3 }), (anchors) => {
        const places = placeBadges(anchors, room);
        expect(places).toHaveLength(anchors.length);
        places.forEach(([x, y], i) => {
          expect(x).toBeGreaterThanOrEqual(30);
          expect(x).toBeLessThanOrEqual(390);
          for (const [ox, oy] of places.slice(i + 1)) expect(Math.hypot(x - ox, y - oy)).toBeGreaterThan(BADGE * 2);
        });
      }),
      { numRuns: 60 },
    );
  });
});
