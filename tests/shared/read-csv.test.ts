import { describe, expect, test } from 'vitest';
import { numberIn, rowsOf, toleranceOf, within } from '../reference/read-csv.ts';

describe('rowsOf', () => {
  test('skips what says where the figures come from, and keeps commas and quotes inside quotes', () => {
    const text = '# Source, with "quotes"\nid,value,note\na,1,"one, or ""two"""\n\n# later\nb,,plain\n';
    expect(rowsOf(text, 'list')).toEqual([
      { id: 'a', value: '1', note: 'one, or "two"' },
      { id: 'b', value: '', note: 'plain' },
    ]);
  });

  test.each([
    { fault: 'a field too few', text: 'a,b,c\n1,2', says: 'list:2: 2 fields where the header has 3' },
    { fault: 'a field too many', text: '# x\na,b\n1,2,', says: 'list:3: 3 fields where the header has 2' },
    { fault: 'an open quote', text: 'a,b\n1,"2', says: 'list:2: a quote that never closes' },
    { fault: 'text after a quote', text: 'a,b\n"1"x,2', says: 'list:2: a quote that never closes' },
    { fault: 'a stray quote', text: 'a,b\n1,2"', says: 'list:2: a quote in the middle' },
    { fault: 'a column named twice', text: 'a,a\n1,2', says: 'list:1: a column named twice' },
    { fault: 'no rows', text: '# source\na,b\n', says: 'list has no rows' },
  ])('stops at $fault', ({ text, says }) => {
    expect(() => rowsOf(text, 'list')).toThrow(says);
  });
});

describe('a row', () => {
  test.each(['', ' ', 'about 3', 'NaN'])('does not pass "%s" for a number', (value) => {
    expect(() => numberIn({ value }, 'value')).toThrow('not a number');
  });

  test('has no number in a column that is not there', () => {
    expect(() => numberIn({ value: '1' }, 'amount')).toThrow('no column amount');
  });

  test('gives its own tolerance', () => {
    expect(toleranceOf({ tolerance_abs: '', tolerance_rel: '0.01' })).toEqual({ abs: undefined, rel: 0.01 });
  });
});

describe('within', () => {
  test.each([
    { got: 10.1, expected: 10, tolerance: { abs: 0.2 }, near: true },
    { got: 10.3, expected: 10, tolerance: { abs: 0.2 }, near: false },
    { got: -10.3, expected: -10, tolerance: { rel: 0.05 }, near: true },
    { got: 10.3, expected: 10, tolerance: { abs: 0.2, rel: 0.05 }, near: true },
    { got: NaN, expected: 10, tolerance: { abs: 100 }, near: false },
  ])('$got for $expected is near within $tolerance: $near', ({ got, expected, tolerance, near }) => {
    expect(within(got, expected, tolerance)).toBe(near);
  });

  test.each([{}, { abs: undefined }, { abs: 0 }, { rel: NaN }, { abs: -1, rel: 0.1 }])('refuses %o', (tolerance) => {
    expect(() => within(1, 1, tolerance)).toThrow(RangeError);
  });
});
