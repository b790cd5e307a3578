import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sizesInText } from '../../../src/identification/said-size.ts';
import { SEED } from '../../set-up-hostile.ts';
import { identifier } from './engine.ts';

const LATITUDE = 1.5;
/** The lengths in a text as they were said, in hundredths of a millimetre. */
const said = (text: string) =>
  sizesInText(text).map(({ lowMm, highMm }) => [lowMm * LATITUDE, highMm / LATITUDE].map((mm) => Math.round(mm * 100)));
/** The length that a description is read with. */
const sizeOf = (text: string) =>
  identifier.read(text).evidence.observations.flatMap((each) => (each.kind === 'size' ? [each] : []));

describe('lengths in figures', () => {
  test.each([
    ['3 cm', 30],
    ['30mm', 30],
    ['0.5 cm', 5],
    ['1,5 cm', 15],
    ['4 millimetres', 4],
    ['4 millimeters', 4],
    ['2 centimeters long', 20],
    ['about 2 inches', 50.8],
    ['5"', 127],
    ["3''", 76.2],
    ['1 in', 25.4],
    ['3ft', 914.4],
    ['a foot', 304.8],
    ['1/2 inch', 12.7],
    ['3/4"', 19.05],
    ['2 1/2 in', 63.5],
    ['½ inch', 12.7],
    ['1.5 INCHES', 38.1],
  ])('%s', (text, mm) => {
    expect(said(text)).toEqual([[Math.round(mm * 100), Math.round(mm * 100)]]);
  });

  test.each([
    ['2-3 cm', 20, 30],
    ['2 to 3 cm', 20, 30],
    ['2 – 3 mm', 2, 3],
    ['3 or 4 inches', 76.2, 101.6],
    ['between 8 to 5 mm', 5, 8],
    ['one to two inches', 25.4, 50.8],
  ])('%s is a span', (text, low, high) => {
    expect(said(text)).toEqual([[Math.round(low * 100), Math.round(high * 100)]]);
  });

  test.each([
    ['half an inch', 12.7],
    ['half inch', 12.7],
    ['a quarter of an inch', 6.35],
    ['quarter inch', 6.35],
    ['an inch', 25.4],
    ['two inches', 50.8],
    ['two and a half inches', 63.5],
    ['a couple of inches', 50.8],
    ['a few mm', 3],
    ['ten cm', 100],
  ])('%s, in words', (text, mm) => {
    expect(said(text)).toEqual([[Math.round(mm * 100), Math.round(mm * 100)]]);
  });

  test('metric and imperial mean the same', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 190 }), (inches) => {
        const [inch] = sizesInText(`${inches} inches`);
        const [metric] = sizesInText(`${(inches * 25.4).toFixed(1)} mm`);
        expect(inch?.lowMm).toBeCloseTo(metric?.lowMm ?? NaN, 6);
        expect(inch?.highMm).toBeCloseTo(metric?.highMm ?? NaN, 6);
      }),
      { seed: SEED },
    );
  });

  test.each([
    '3 worms',
    '100 m',
    'version 2',
    'year 2020',
    '5 gallons',
    '3 minutes',
    'inside',
    '0 mm',
    '99 feet',
    'x5mmx',
  ])('"%s" holds none that an animal could have', (text) => {
    expect(said(text)).toEqual([]);
  });

  test('several lengths are all found, with their places', () => {
    const text = 'body 2 cm, arms 10 cm long';
    const found = sizesInText(text);
    expect(found.map(({ words }) => words)).toEqual(['2 cm', '10 cm']);
    for (const { from, to, words } of found) expect(text.slice(from, to)).toContain(words);
  });
});

describe('a thickness', () => {
  test.each(['5 mm thick', '1 cm wide', '2 mm  thick', '1/4 inch thick'])('%s is marked', (text) => {
    expect(sizesInText(text)).toMatchObject([{ isThickness: true }]);
    expect(sizeOf(text)).toEqual([]);
    expect(identifier.read(text).unused).toEqual([text]);
  });

  test('is not taken for the length that is said beside it', () => {
    const [only, ...others] = sizeOf('worm 10 cm long and 5 mm thick');
    expect(others).toEqual([]);
    expect(only).toMatchObject({ lowMm: 100 / LATITUDE, highMm: 100 * LATITUDE });
  });

  test.each(['thick as a pencil', 'thin as a hair', 'finger thick'])('%s is understood and not used', (text) => {
    const read = identifier.read(`${text} worm`);
    expect(read.unused).toEqual([text]);
    expect(sizeOf(`${text} worm`)).toEqual([]);
  });
});

describe('lengths by things and adjectives', () => {
  test.each([
    ['tiny', 0.5, 6],
    ['rice grain', 6, 6],
    ['pea sized', 8, 8],
    ['size of my hand', 180, 180],
    ['long as my finger', 80, 80],
    ['golf ball', 43, 43],
    ['a couple of cm', 20, 20],
    ['huge', 150, 1000],
  ])('%s', (text, low, high) => {
    const [size, ...others] = sizeOf(`${text} worm`);
    expect(others).toEqual([]);
    expect(size?.lowMm).toBeLessThanOrEqual(low);
    expect(size?.lowMm).toBeGreaterThan(low / 2);
    expect(size?.highMm).toBeGreaterThanOrEqual(high);
    expect(size?.highMm).toBeLessThan(high * 2);
  });

  test('a figure counts, and not the adjective beside it', () => {
    expect(sizeOf('a huge worm, 3 cm')).toMatchObject([{ lowMm: 20, highMm: 45 }]);
    expect(sizeOf('3 cm, which is tiny')).toMatchObject([{ lowMm: 20, highMm: 45 }]);
  });

  test('a hand that was stung is no size', () => {
    expect(sizeOf('it stung my hand')).toEqual([]);
  });

  test('what is not tiny says nothing of its length', () => {
    expect(sizeOf('not tiny')).toEqual([]);
  });
});
