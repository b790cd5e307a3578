import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  celsiusFromFahrenheit,
  fahrenheitFromCelsius,
  ipts68FromIts90,
  its90FromIpts68,
  kelvinFromCelsius,
  SIXTY_FAHRENHEIT_C,
} from '../../shared/temperature.ts';

const anyC = fc.double({ min: -100, max: 1000, noNaN: true });

describe('the scales of 1968 and 1990', () => {
  // Published differences t90 - t68, Preston-Thomas H. (1990) Metrologia 27, 3-10, table 1 (from memory): -0.002 K at
  // 10 °C, -0.005 at 20, -0.007 at 30, -0.010 at 40; printed to the thousandth.
  test.each([
    { at: 10, less: 0.002 },
    { at: 20, less: 0.005 },
    { at: 30, less: 0.007 },
    { at: 40, less: 0.01 },
  ])('part by $less K at $at °C', ({ at, less }) => {
    expect(Math.abs(ipts68FromIts90(at) - at - less)).toBeLessThan(0.0006);
  });

  test('lead back to each other', () => {
    fc.assert(fc.property(anyC, (t) => void expect(its90FromIpts68(ipts68FromIts90(t))).toBeCloseTo(t, 9)));
  });
});

describe('degrees Fahrenheit', () => {
  // The fixed points of both scales: water freezes at 32 °F and boils at 212 °F, and -40 is the same in both.
  test.each([
    { f: 32, c: 0 },
    { f: 212, c: 100 },
    { f: -40, c: -40 },
    { f: 77, c: 25 },
  ])('$f °F is $c °C', ({ f, c }) => {
    expect(celsiusFromFahrenheit(f)).toBeCloseTo(c, 12);
    expect(fahrenheitFromCelsius(c)).toBeCloseTo(f, 12);
  });

  test('mark hydrometers at 15.5556 °C', () => expect(SIXTY_FAHRENHEIT_C).toBeCloseTo(15.555556, 6));

  test('lead back to degrees Celsius', () => {
    fc.assert(fc.property(anyC, (t) => void expect(celsiusFromFahrenheit(fahrenheitFromCelsius(t))).toBeCloseTo(t, 9)));
  });
});

test('a kelvin is a degree, counted from absolute zero', () => {
  expect(kelvinFromCelsius(-273.15)).toBe(0);
  expect(kelvinFromCelsius(25)).toBeCloseTo(298.15, 12);
});

test.each([ipts68FromIts90, its90FromIpts68, kelvinFromCelsius, celsiusFromFahrenheit, fahrenheitFromCelsius])(
  '%o refuses what is no temperature',
  (convert) => {
    for (const t of [NaN, Infinity, -460]) expect(() => convert(t)).toThrow(RangeError);
  },
);
