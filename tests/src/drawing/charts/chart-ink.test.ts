import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CHART_INKS } from '../../../../src/drawing/charts/chart-ink.ts';
import { consumptionChart, doseDaysChart, drawnChart, lightRampChart } from '../../../../src/drawing/charts/charts.ts';
import type { Painter } from '../../../../src/drawing/painter.ts';
import type { Theme } from '../../../../src/drawing/ink.ts';
import { FONT_FILES } from '../picture.ts';
import { painterStage, type PainterStage } from '../painter-stage.ts';
import { CONSUMPTION, DOSE_DAYS, RAMP } from './chart-data.ts';

const THEMES: readonly Theme[] = ['light', 'dark'];
const CHARTS = {
  'dose days': (theme: Theme) => doseDaysChart(DOSE_DAYS, theme),
  consumption: (theme: Theme) => consumptionChart(CONSUMPTION, theme),
  'light ramp': (theme: Theme) => lightRampChart(RAMP, theme),
};

/** The contrast of two colours as WCAG 2.2 defines it, with its relative luminance. */
function contrast(one: string, other: string): number {
  const luminance = (colour: string) => {
    const [r = 0, g = 0, b = 0] = [1, 3, 5]
      .map((from) => parseInt(colour.slice(from, from + 2), 16) / 255)
      .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].toSorted((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

describe.each(THEMES)('the colours of %s charts', (theme) => {
  const ink = CHART_INKS[theme];

  it('have words that stand out by 4.5 to 1, from the page and from the band', () => {
    for (const make of Object.values(CHARTS)) {
      const { svg } = make(theme);
      const fills = new Set([...svg.matchAll(/<text [^>]*fill="(#\w{6})"/g)].map(([, fill = '']) => fill));
      expect(fills.size).toBeGreaterThan(1);
      expect(svg).toContain(`fill="${ink.page}"`);
      for (const fill of fills) for (const ground of [ink.page, ink.band]) expect(contrast(fill, ground)).toBeGreaterThan(4.5); // prettier-ignore
    }
  });

  it('have marks that stand out by 3 to 1', () => {
    for (const mark of [ink.line, ink.dose, ink.bandEdge, ink.words, ink.quiet])
      for (const ground of [ink.page, ink.band]) expect(contrast(mark, ground), mark).toBeGreaterThan(3);
    expect(contrast(ink.caution, ink.page)).toBeGreaterThan(3);
  });
});

it('measures contrast as published: black on white is 21 to 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21);
  expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
});

describe('the painted charts', () => {
  let stage: PainterStage;
  let painter: Painter;
  beforeAll(async () => {
    stage = await painterStage();
    painter = stage.painter({ fontFiles: FONT_FILES });
  });
  afterAll(async () => {
    await painter.close();
    stage.remove();
  });

  it.each(Object.entries(CHARTS))('are PNG files that say what they show: %s', async (_, make) => {
    for (const theme of THEMES) {
      const { svg, width, alt } = drawnChart(make(theme));
      expect(drawnChart(make(theme)).svg).toBe(svg);
      const png = await painter.paint(svg, width);
      expect([...png.subarray(1, 4)]).toEqual([...Buffer.from('PNG')]);
      expect(png.readUInt32BE(16)).toBe(900);
      expect(png.length).toBeLessThan(200_000);
      expect(alt).toMatch(/^Chart of /);
    }
    expect(make('dark').svg).not.toBe(make('light').svg);
  });
});
