import { expect, test } from 'vitest';
import { DEFAULT_UNITS, type Tank } from '../../../src/tanks/tank.ts';
import { toHoldInWords } from '../../../src/tanks/to-hold.ts';
import type { Shown } from '../../../src/tanks/what-it-shows.ts';
import { base } from '../knowledge/real-base.ts';

const tank: Tank = {
  id: 1,
  guildId: 'g',
  memberId: 'm',
  name: 'Reef one',
  purpose: 'display',
  netVolumeL: 250,
  volumeError: 0.1,
  practicalSalinity: 35,
  temperatureC: 25,
  units: DEFAULT_UNITS,
  visibility: 'me',
};
const uses = (perDay: number, kind: 'told' | 'unclear' = 'told'): Shown => ({
  kind: 'consumption',
  consumption: { kind, perDay, low: perDay - 0.1, high: perDay + 0.1, by: 'spread', readings: 6, days: 20 },
});
const words = (id: string, shown: Shown) => toHoldInWords(base, tank, base.parameters.get(id)!, shown);

// W-59 and W-60 of the worked cases: 250 L that use 1 dKH a day take 7.49 g NaHCO3 and 6.55 g CaCl2.2H2O.
test('alkalinity and its calcium, and the salt that stays', () => {
  const said = words('alkalinity', uses(1));
  expect(said).toContain('7.5 g sodium bicarbonate a day');
  expect(said).toContain('6.6 g calcium chloride dihydrate');
  // W-63: 0.857 g/kg in 30 days at 0.5 meq/L a day; 1 dKH is 0.3567 meq/L, so 0.611.
  expect(said).toContain('about 0.6 ppt in a month');
});

// W-17: 300 L, 5 mg/L NO3 by NaNO3: 2.06 g.
test('another parameter by its usual reagent', () => {
  const nitrate = base.parameters.get('nitrate')!;
  expect(nitrate.raisedBy[0]).toBe('sodium-nitrate');
  const said = toHoldInWords(base, { ...tank, netVolumeL: 300 }, nitrate, uses(5));
  expect(said).toBe('To hold it: about 2.1 g sodium nitrate a day.');
});

test.each([
  ['what is not sure', 'alkalinity', uses(1, 'unclear')],
  ['what rises by itself', 'alkalinity', uses(-0.4)],
  ['what no reagent raises', 'temperature', uses(1)],
  ['what no tank uses up', 'salinity', { kind: 'not-used-up' } as const],
])('nothing is said of %s', (_what, id, shown) => {
  expect(words(id, shown)).toBe('');
});
