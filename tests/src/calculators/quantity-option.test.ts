import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import {
  quantityOptions,
  quantityShape,
  readQuantities,
  type AskedQuantities,
} from '../../../src/calculators/quantity-option.ts';
import type { MessageView } from '../../../src/discord/message-view.ts';
import { DEFAULT_UNITS, type TankUnits } from '../../../src/tanks/tank.ts';

const AMERICAN: TankUnits = { volume: 'US gal', temperature: '°F', alkalinity: 'ppm CaCO3', salinity: 'SG' };

const ASKED = {
  volume: { quantity: 'volume', description: 'Net water, such as 300 L', required: true, least: 1, most: 20_000 },
  current: { quantity: 'alkalinity', description: 'Alkalinity now', required: true },
  temperature: { quantity: 'temperature', description: 'Of the water', required: false },
  phosphate: { quantity: 'concentration', species: 'PO4', description: 'Phosphate', required: false },
} as const satisfies AskedQuantities;

const textOf = (view: MessageView) =>
  view.blocks.map((block) => (block.kind === 'text' ? block.text.markdown : '')).join('\n');

function problem(given: Parameters<typeof readQuantities<typeof ASKED>>[1], units = DEFAULT_UNITS) {
  const outcome = readQuantities(ASKED, given, units);
  if (outcome.kind === 'read') throw new Error('everything was read');
  return outcome.view;
}

describe('options that take amounts', () => {
  test('are listed as text, in order', () => {
    expect(quantityOptions(ASKED).map(({ name, required, kind }) => ({ name, required, kind }))).toEqual([
      { name: 'volume', required: true, kind: undefined },
      { name: 'current', required: true, kind: undefined },
      { name: 'temperature', required: false, kind: undefined },
      { name: 'phosphate', required: false, kind: undefined },
    ]);
  });

  test('their shape lets any text through, and misses only what is required', () => {
    const input = z.object(quantityShape(ASKED));
    expect(input.safeParse({ volume: 'x'.repeat(2000), current: '' }).success).toBe(true);
    expect(input.safeParse({ volume: '300 L' }).success).toBe(false);
  });

  test('give their values and a line each on what was understood', () => {
    const outcome = readQuantities(ASKED, { volume: '80 gal', current: '7,5 dkh', temperature: '78F' }, DEFAULT_UNITS);
    if (outcome.kind !== 'read') throw new Error(textOf(outcome.view));
    // 80 US gallons of 3.785411784 L.
    expect(outcome.values.volume.si).toBeCloseTo(302.83294272, 10);
    expect(outcome.values.current.si).toBe(7.5);
    expect(outcome.values.temperature?.si).toBeCloseTo(25.5556, 4);
    expect(outcome.values.phosphate).toBeUndefined();
    expect(outcome.echo.map(({ markdown }) => markdown.replaceAll('\\', ''))).toEqual([
      'volume: 80 US gal = 303 L (no country given, so US measure)',
      'current: 7.5 dKH',
      'temperature: 78 °F = 25.6 °C',
    ]);
  });

  test('take a bare number in the units of the member, and say so', () => {
    const outcome = readQuantities(ASKED, { volume: '80', current: '140', temperature: '78' }, AMERICAN);
    if (outcome.kind !== 'read') throw new Error(textOf(outcome.view));
    expect(outcome.values.volume.unit).toBe('US gal');
    expect(outcome.values.current.si).toBeCloseTo(7.844, 3);
    expect(outcome.echo.map(({ markdown }) => markdown)).toEqual([
      'volume: 80 US gal = 303 L (no unit given, taken as US gal)',
      'current: 140 ppm CaCO3 = 7.84 dKH (no unit given, taken as ppm CaCO3)',
      expect.stringContaining('no unit given, taken as °F'),
    ]);
  });

  test('a gallon is imperial for whoever counts in imperial gallons', () => {
    const outcome = readQuantities(ASKED, { volume: '80 gal', current: '8' }, { ...AMERICAN, volume: 'imp gal' });
    // 80 imperial gallons of 4.54609 L.
    expect(outcome).toMatchObject({ kind: 'read', values: { volume: { si: expect.closeTo(363.6872, 10) as number } } });
  });
});

describe('what cannot be used', () => {
  test('is listed in one private message, each with what was read, the range and an example', () => {
    const view = problem({ volume: '80 bananas', current: '80 L', temperature: '78', phosphate: '30 ppb' });
    expect(view.audience).toBe('member');
    const text = textOf(view).replaceAll('\\', '');
    expect(text).toContain(
      '- **volume**: I read “80 bananas” as 80: I do not know that unit. Allowed: 1 to 20000 L. For example: **300 L**.',
    );
    expect(text).toContain(
      '- **current**: I read “80 L”: that is a volume, and I need an alkalinity. Allowed: 0 to 40 dKH.',
    );
    expect(text).toContain('Did you mean 78 °F? Then write the unit.');
    expect(text).toContain('that could be µg/L PO4 or µg/L PO4-P, which are far apart.');
    expect(text.match(/^- /gm)).toHaveLength(4);
  });

  test('is told in the units of the member', () => {
    expect(textOf(problem({ volume: '-3', current: '8' }, AMERICAN)).replaceAll('\\', '')).toContain(
      'I read “-3” as -3 US gal: that is outside of what I can answer for. Allowed: 0.264 to 5280 US gal.',
    );
  });

  test('does not hide among options that were read', () => {
    expect(textOf(problem({ volume: '300 L', current: '' }))).not.toContain('volume');
    expect(textOf(problem({ volume: '300 L' }))).toContain('**current**: nothing was given.');
  });

  test('of 2,000 characters stays short, and calls or formats nothing', () => {
    expect(textOf(problem({ volume: '9'.repeat(2000), current: '8' })).length).toBeLessThan(400);
    const text = textOf(problem({ volume: '**8** <@123456789012345678> @everyone', current: '8' }));
    expect(text).not.toContain('<@1234');
    expect(text).not.toContain('@everyone');
    expect(text).toContain('\\*\\*8');
  });
});
