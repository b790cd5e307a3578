import { expect, test } from 'vitest';
import { hoursInWords } from '../../../src/club/hours-in-words.ts';

test.each([
  [1, '1 hour'],
  [2, '2 hours'],
  [24, '24 hours'],
  [48, '48 hours'],
  [49, '2 days and 1 hour'],
  [72, '3 days'],
  [102, '4 days and 6 hours'],
  [336, '14 days'],
])('%i hours are %s', (hours, words) => {
  expect(hoursInWords(hours)).toBe(words);
});

test.each([0, -1, 1.5, NaN])('%s is no number of hours', (hours) => {
  expect(() => hoursInWords(hours)).toThrow(RangeError);
});
