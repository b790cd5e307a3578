import { describe, expect, it } from 'vitest';
import { COLOUR_WORDS } from '../../../../src/beside/colour-words.ts';
import { contrastsOf } from '../../../../src/beside/contrast.ts';
import { colourSwatch, type Swatch } from '../../../../src/drawing/charts/charts.ts';
import { altTextOf } from '../../../../src/drawing/page.ts';
import { elementsOf, expectReadable, textsOf } from './chart-checks.ts';

const RED: Swatch = {
  asked: { name: 'bleeding red', hex: '#9c1527' },
  beside: [
    { name: 'teal', hex: '#118987', why: 'opposite' },
    { name: 'mint', hex: '#8fe3bf', why: 'near opposite' },
    { name: 'toxic green', hex: '#5ff03c', why: 'lighter' },
  ],
};

describe('colourSwatch', () => {
  const chart = colourSwatch(RED);

  it('shows the asked colour touching each other one, with names and reasons', () => {
    expectReadable(chart);
    const [asked, beside] = [elementsOf(chart, 'rect', 'asked'), elementsOf(chart, 'rect', 'beside')];
    expect(asked.map(({ fill }) => fill)).toEqual(Array(3).fill('#9c1527'));
    expect(beside.map(({ fill }) => fill)).toEqual(['#118987', '#8fe3bf', '#5ff03c']);
    asked.forEach(({ x, y, width }, at) => {
      expect(Number(x) + Number(width)).toBeCloseTo(Number(beside[at]?.x), 1);
      expect(y).toBe(beside[at]?.y);
    });
    expect(textsOf(chart).toSorted()).toEqual(['Beside bleeding red', 'bleeding red', 'lighter', 'mint', 'near opposite', 'opposite', 'teal', 'toxic green']); // prettier-ignore
  });

  it('says all of it in words', () => {
    const said = altTextOf(chart);
    expect(said).toContain('Squares of bleeding red');
    expect(said).toContain('teal (opposite), mint (near opposite), toxic green (lighter).');
    expect(said).toContain('under blue light');
  });

  it('stays readable for every colour, on light and on dark', () => {
    for (const word of COLOUR_WORDS)
      for (const theme of ['light', 'dark'] as const) {
        const beside = contrastsOf(word).map((one) => ({ name: one.word.word, hex: one.word.hex, why: one.why }));
        expectReadable(colourSwatch({ asked: { name: word.word, hex: word.hex }, beside }, theme));
      }
  });

  it.each<[string, Swatch]>([
    ['nothing beside', { ...RED, beside: [] }],
    ['too many', { ...RED, beside: [...RED.beside, ...RED.beside] }],
    ['a colour that is none', { ...RED, asked: { name: 'red', hex: 'red' } }],
  ])('refuses %s', (_, swatch) => expect(() => colourSwatch(swatch)).toThrow(RangeError));
});
