import { describe, expect, test } from 'vitest';
import { createPainter } from '../../../src/drawing/painter.ts';
import { built } from '../../set-up-build.ts';
import { titleOf } from '../../set-up-club.ts';
import { openWater, type Typed } from './ask-water.ts';

// The numbers are those of tests/reference/dosing-worked.csv at 25 °C, or worked out by hand beside them.
const ANSWERS: readonly { name: string; typed: Typed; title: string | RegExp; says: readonly (string | RegExp)[] }[] = [
  {
    name: 'change',
    typed: { now: '40 ppm', target: '20 ppm', volume: '300 L' },
    // A fall of 5 a day is the cap: 1 − 0.5^(1/6) = 10.9 %, six times.
    title: '6 changes of 10.9% (32.7 L), a day apart or more',
    says: ['50% (150 L)', 'nitrate, **assumed**', 'Change 6: 20 mg/L NO3', 'temperature within 1 °C', 'Unplug heater'],
  },
  {
    name: 'change',
    typed: { now: '40', change: '20%', times: '3', 'new-water': '2' },
    title: '21.5 mg/L NO3 left',
    says: ['48.8% of the first water', '^3', '5 a day is kept to'],
  },
  {
    name: 'change',
    typed: { now: '60', target: '15', change: '25%', volume: '80 gal' },
    title: '5 changes of 25% (20 US gal)',
    says: ['14.2 mg/L NO3 is left', '80 US gal = 303 L'],
  },
  {
    name: 'change',
    typed: { now: '40', target: '20', volume: '250 L', how: 'pumped through' },
    title: 'Pump 173 L through',
    says: ['Pump it over 4 days or more'],
  },
  {
    name: 'change',
    typed: { grows: '1', every: '7 days', change: '10%' },
    title: 'It settles at 70 mg/L NO3 before a change and 63 mg/L NO3 after it',
    says: ['above 30', '÷ 0.1'],
  },
  {
    name: 'change',
    typed: { change: '60 L', volume: '300 L' },
    title: '60 L is 20% of 300 L',
    says: ['Measure temperature, salinity and alkalinity of the new water'],
  },
  {
    name: 'change',
    typed: { of: 'alkalinity', now: '7.2', target: '7.47', 'new-water': '9' },
    title: 'One change of 15%',
    says: [],
  },
  {
    name: 'salinity',
    typed: { target: '35', now: '36.5', volume: '300 L', temperature: '25 C' },
    // One go is 12.65 L by mass (W-87); two daily steps take a little more.
    title: 'Swap 12.8 L for fresh water in 2 steps',
    says: ['36.5 to 35.75', 'at most 1 a day', '300 L × 1.5 ÷ 36.5 = 12.3 L', 'chlorine', 'Unplug heater'],
  },
  {
    name: 'salinity',
    typed: { target: '35', now: '33', volume: '300 L', 'salt-share': '90%', temperature: '25 C' },
    title: /^Add 709 g of dry salt mix in 2 steps$/,
    says: ['never dry salt', '= 709 g'],
  },
  {
    name: 'salinity',
    typed: { target: '12', now: '35', volume: '80 L', animals: 'fish only', temperature: '25 C' },
    title: 'Swap 79 L for fresh water in 6 steps',
    says: [
      'A vet first',
      'velvet',
      'Step 1, now: **8.97 L**',
      'Step 6, after 60 hours: **19.5 L**',
      '2.5 days from the first',
    ],
  },
  {
    name: 'salinity',
    typed: { target: '35', now: '12', volume: '80 L', animals: 'fish only' },
    title: /in 12 steps$/,
    says: ['Raising is harder on fish', 'Step 12, after 11 days'],
  },
  {
    name: 'salinity',
    typed: { target: '30', now: '35', volume: '300 L' },
    title: /in 5 steps$/,
    says: ['30 is outside 33 to 37', 'animals: fish only'],
  },
  {
    name: 'salinity',
    typed: { target: '35', now: '34', volume: '300 L', with: 'stronger water', 'new-water': '45' },
    // 300 L × 1 ÷ (45 − 34) = 27.3 L by volume; by mass a little less, since the stronger water is denser.
    title: 'Swap 27.1 L for the stronger water',
    says: ['= 27.3 L'],
  },
  {
    name: 'salinity',
    typed: { target: '35', batch: '50 L', 'salt-share': '100%', temperature: '25 C' },
    title: '1.79 kg of dry salt mix and 49.5 L of fresh water',
    says: ['Begin with the lower'],
  },
  {
    name: 'top-off',
    typed: { lost: '6 L', volume: '250 L', salinity: '35', temperature: '25 C' },
    title: '6 L of fresh water a day',
    says: ['from 35 to 35.84', '35.86', '2.7 dKH', 'pH 8.5', 'caustic'],
  },
  {
    name: 'top-off',
    typed: { now: '36.5', salinity: '35', volume: '250 L' },
    title: '10.5 L of fresh water',
    says: ['Spread it over 2 days', 'go by the water level'],
  },
  {
    name: 'top-off',
    typed: { volume: '250 L', length: '120 cm', width: '50 cm' },
    title: '2.7 L of fresh water a day, roughly',
    says: ['1.8 L to 3.6 L', '0.600 m²'],
  },
  {
    name: 'volume',
    typed: { shape: 'box', length: '120 cm', width: '50 cm', depth: '45 cm', glass: '10 mm', sump: '40 L' },
    title: '295 L of water (77.9 US gal)',
    says: ['118 × 48 × 45 cm ÷ 1000 = 254.9 L', 'no rock and no sand', '75 to 90%'],
  },
  {
    name: 'volume',
    typed: { shape: 'cylinder', length: '60', depth: '55', rock: '10 kg' },
    title: /^151 L of water/,
    says: ['155.5 L in the glass', '2 to 2.7 is usual', '**inside**'],
  },
  {
    name: 'ammonia',
    typed: { total: '0.25 ppm', ph: '8.4', temperature: '28 C', salinity: '34' },
    title: '0.040 mg/L free ammonia (NH3): too high to stay',
    says: ['At most 24 hours', 'NH3-N, **assumed**', '13%'],
  },
  {
    name: 'ammonia',
    typed: { total: '1', ph: '8.0', temperature: '25 C', salinity: '12' },
    title: '0.062 mg/L free ammonia (NH3): act now',
    says: ['harms fish now', 'Change water now', 'stop feeding', 'vet'],
  },
  {
    name: 'ammonia',
    typed: { total: '0.5 ppm', ph: '8.2', temperature: '26 C', salinity: '35', kit: 'NH4' },
    // 0.0455 as nitrogen, divided by 1.28786.
    title: '0.035 mg/L free ammonia (NH3): too high to stay',
    says: ['counted as NH4'],
  },
  {
    name: 'ammonia',
    typed: { total: '0.5 ppm', ph: '8.2', temperature: '26 C', salinity: '35' },
    title: '0.046 mg/L free ammonia (NH3): too high to stay',
    says: ['**At the upper end: act now.**'],
  },
  {
    name: 'ammonia',
    typed: { total: '0.1', ph: '7.8', temperature: '24 C', salinity: '35' },
    title: /no alarm$/,
    says: ['A fish that gasps is an emergency'],
  },
  { name: 'convert', typed: { amount: '8 dkh' }, title: '8 dKH = 2.853 meq/L = 142.8 ppm CaCO3', says: ['fH'] },
  { name: 'convert', typed: { amount: '1.0265 sg' }, title: /= 35\.17 ppt/, says: ['53.3 mS/cm', '1.0270 SG 60F/60F'] },
  {
    name: 'convert',
    typed: { amount: '80 gal' },
    title: /^80 US gal = 302\.8 L/,
    says: ['no country given', 'imp gal'],
  },
  { name: 'convert', typed: { amount: '2 tsp' }, title: /= 9\.858 mL/, says: ['rough measure'] },
  { name: 'convert', typed: { amount: '78F' }, title: '78 °F = 25.56 °C', says: ['(78 − 32) ÷ 1.8'] },
  { name: 'convert', typed: { amount: '5 ppm NO3-N' }, title: /= 22\.13 mg\/L NO3/, says: ['4.4266'] },
  { name: 'convert', typed: { amount: '140 ppm', of: 'alkalinity' }, title: /= 7\.844 dKH/, says: [] },
  {
    name: 'light',
    typed: { par: '250', hours: '10' },
    title: '9 mol/m²/day (daily light)',
    says: ['250 × 10 h × 0.0036 = 9.00', 'DiPerna'],
  },
  {
    name: 'light',
    typed: { par: '350', hours: '8', 'ramp-up': '2', 'ramp-down': '2' },
    title: '12.6 mol/m²/day (daily light)',
    says: ['8 + (2 + 2) ÷ 2 = 10'],
  },
  {
    name: 'light',
    typed: { par: '600', hours: '10', day: 'like the sun' },
    title: '13.8 mol/m²/day (daily light)',
    says: ['2 ÷ π', 'That is bright'],
  },
  { name: 'light', typed: { 'daily-light': '12', hours: '9' }, title: /^370 µmol/, says: [] },
  {
    name: 'flow',
    typed: { pump: '3000 L/h', volume: '300 L' },
    title: '7 tank volumes an hour',
    says: ['6 to 8 volumes', '30%, **assumed**', 'Unplug a pump'],
  },
  {
    name: 'flow',
    typed: { times: '20', volume: '250 L', loss: '0%' },
    title: 'A pump rated at 5000 L/h, for 20 tank volumes an hour',
    says: [],
  },
];

describe('/water', () => {
  test.each(ANSWERS)('$name $typed', async ({ name, typed, title, says }) => {
    const { water } = await openWater();
    const reply = await water(name, typed);
    expect(reply.private).toBe(true);
    if (typeof title === 'string') expect(titleOf(reply)).toBe(title);
    else expect(titleOf(reply)).toMatch(title);
    for (const each of says)
      if (typeof each === 'string') expect(reply.text).toContain(each);
      else expect(reply.text).toMatch(each);
    // Every answer says how far it can be trusted, that it is arithmetic, and fits on a phone without being cut.
    expect(reply.text).toContain('This is arithmetic from what you gave me');
    expect(reply.text).not.toContain('Shortened to fit');
    expect(reply.text).not.toMatch(/undefined|NaN|Infinity|\[object/);
  });

  test('a light ramp comes with its chart, what is enough, the signs and the way back', async () => {
    const fontFiles = ['inter-regular.ttf', 'inter-semibold.ttf'].map((font) => built(`font/${font}`));
    const painter = createPainter({ workerFile: built('painter.js'), fontFiles });
    const { water } = await openWater({ paint: (svg, width) => painter.paint(svg, width) });
    const reply = await water('light', { par: '120', target: '300' });
    expect(titleOf(reply)).toBe('120 to 300 µmol/m²/s in 4 weekly steps');
    expect(reply.text).toContain('About 350 is enough even for stony corals');
    expect(reply.text).toContain('525 to 700 is for experienced keepers only');
    expect(reply.text).toMatch(/Pale or white tissue.*\n.*\n.*The way back: Dim the lamp/);
    expect(reply.text).toContain('the way back are common practice, no source');
    expect(reply.text).toContain('Week 4, after 21 days: **300**');
    expect(reply.images).toHaveLength(1);
    expect(reply.images[0]!.alt).toContain('Chart of a light ramp');
    const above = await water('light', { par: '350', target: '600', full: '700' });
    expect(above.text).toContain('600 is more than corals need');
    expect(above.text).toContain('lamp at 85.7%');
  });
});
