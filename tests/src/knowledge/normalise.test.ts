import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normaliseName, singular } from '../../../src/knowledge/normalise.ts';
import { anyText } from './any-text.ts';

describe('normaliseName', () => {
  test.each([
    ['Bristle Worm', 'bristle worm'],
    ['  bristle   worms!! ', 'bristle worm'],
    ['Bristle-Worm', 'bristle worm'],
    ['CROWN_OF_THORNS', 'crown of thorn'],
    ["hell's fire", 'hell fire'],
    ['hell’s fire', 'hell fire'],
    ['hell´s fire', 'hell fire'],
    ['Ångström über', 'angstrom uber'],
    ['ﬁre worm', 'fire worm'],
    ['Ｆｉｒｅ', 'fire'],
    ['zoas & palys', 'zoa paly'],
    ['🦀', ''],
    ['', ''],
    ['...', ''],
    ['海星', ''],
  ])('%j becomes %j', (typed, name) => {
    expect(normaliseName(typed)).toBe(name);
  });

  test('looks at the first 100 characters only', () => {
    expect(normaliseName(`${'x'.repeat(99)}yzzz`)).toBe(`${'x'.repeat(99)}y`);
  });

  test('gives single words of small letters and digits, whatever comes', () => {
    fc.assert(
      fc.property(anyText(300), (text) => {
        expect(normaliseName(text)).toMatch(/^([a-z0-9]+( [a-z0-9]+)*)?$/);
      }),
    );
  });

  test('case and surrounding punctuation never matter', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[a-z]{2,12}( [a-z]{2,12}){0,3}$/), (name) => {
        expect(normaliseName(`"${name.toUpperCase()}"?`)).toBe(normaliseName(name));
      }),
    );
  });
});

describe('singular', () => {
  test.each([
    ['worms', 'worm'],
    ['anemones', 'anemone'],
    ['berries', 'berry'],
    ['ties', 'tie'],
    ['branches', 'branch'],
    ['fishes', 'fish'],
    ['boxes', 'box'],
    ['mysis', 'mysis'],
    ['octopus', 'octopus'],
    ['moss', 'moss'],
    ['mosses', 'moss'],
    ['gas', 'gas'],
    ['sea', 'sea'],
    ['worm', 'worm'],
  ])('%s becomes %s', (word, one) => {
    expect(singular(word)).toBe(one);
  });
});
