import { describe, expect, test } from 'vitest';
import { titleOf } from '../../set-up-club.ts';
import { openWater, type Typed } from './ask-water.ts';

const LONG = 'x'.repeat(2000);
const NOTHING_UNDERSTOOD = 'I couldn’t use that';

type Bad = { name: string; typed: Typed; title: string; says: readonly string[] };
const BAD: readonly Bad[] = [
  // Zero, negative, absurd.
  {
    name: 'change',
    typed: { now: '40', target: '20', volume: '0 L' },
    title: NOTHING_UNDERSTOOD,
    says: ['**volume**', '0 L', 'Allowed: 1 to 100000 L', '300 L'],
  },
  {
    name: 'change',
    typed: { now: '-4 ppm', target: '20', volume: '300' },
    title: NOTHING_UNDERSTOOD,
    says: ['**now**', '-4', 'Allowed'],
  },
  {
    name: 'change',
    typed: { now: '5000 ppm', target: '20' },
    title: NOTHING_UNDERSTOOD,
    says: ['5000', 'Allowed: 0 to 1000'],
  },
  { name: 'change', typed: { now: '40', change: '0%' }, title: NOTHING_UNDERSTOOD, says: ['**change**', '0.1 to 100'] },
  {
    name: 'change',
    typed: { now: '40', change: '400 L', volume: '300 L' },
    title: 'More than the tank holds',
    says: ['400 L', '100%'],
  },
  {
    name: 'volume',
    typed: { shape: 'box', length: '0', width: '50', depth: '40' },
    title: NOTHING_UNDERSTOOD,
    says: ['**length**', 'Allowed: 1 to 3000 cm'],
  },
  {
    name: 'volume',
    typed: { shape: 'box', length: '12', width: '50', depth: '40', glass: '60 mm' },
    title: NOTHING_UNDERSTOOD,
    says: ['length', 'For example'],
  },
  {
    name: 'volume',
    typed: { shape: 'box', length: '30', width: '30', depth: '30', rock: '200 kg' },
    title: 'More rock than tank',
    says: ['27 L'],
  },
  { name: 'flow', typed: { pump: '-3', volume: '300' }, title: NOTHING_UNDERSTOOD, says: ['**pump**', 'Allowed'] },
  {
    name: 'light',
    typed: { par: '0', hours: '10' },
    title: NOTHING_UNDERSTOOD,
    says: ['**par**', 'Allowed: 1 to 3000'],
  },
  { name: 'light', typed: { par: '100', hours: '20', 'ramp-up': '5' }, title: NOTHING_UNDERSTOOD, says: ['25', '24'] },
  {
    name: 'light',
    typed: { par: '1', target: '2900', full: '2000' },
    title: 'The lamp does not give that much',
    says: ['2000'],
  },
  { name: 'top-off', typed: { lost: '400 L', volume: '300 L' }, title: 'More than the tank holds', says: ['400 L'] },
  { name: 'ammonia', typed: { total: '0.5', ph: '14' }, title: NOTHING_UNDERSTOOD, says: ['**ph**', '6 to 9.5'] },
  { name: 'ammonia', typed: { total: '-1', ph: '8' }, title: NOTHING_UNDERSTOOD, says: ['**total**', 'Allowed'] },
  // The target on the wrong side.
  {
    name: 'change',
    typed: { now: '40', target: '50', volume: '300' },
    title: 'No water change leads there',
    says: ['/dose'],
  },
  {
    name: 'change',
    typed: { now: '40', target: '2', 'new-water': '5' },
    title: 'No water change leads there',
    says: ['What lowers it'],
  },
  { name: 'change', typed: { now: '20', target: '20' }, title: 'Nothing to do', says: ['20'] },
  {
    name: 'change',
    typed: { of: 'phosphate', now: '2', target: '0.05' },
    title: 'Not by water changes alone',
    says: ['resin'],
  },
  {
    name: 'change',
    typed: { of: 'calcium', now: '380', target: '420' },
    title: 'What does the new water hold?',
    says: ['new-water'],
  },
  { name: 'light', typed: { par: '300', target: '100' }, title: 'Less light needs no ramp', says: ['at once'] },
  {
    name: 'top-off',
    typed: { now: '34', salinity: '35', volume: '300' },
    title: 'It has not risen',
    says: ['/water salinity'],
  },
  {
    name: 'salinity',
    typed: { target: '35', now: '33', volume: '300', with: 'stronger water', 'new-water': '34' },
    title: 'That water is not stronger',
    says: ['dry salt'],
  },
  { name: 'salinity', typed: { target: '35', now: '35', volume: '300' }, title: 'Nothing to do', says: [] },
  // Salinity outside 2 to 42, and what only looks like it.
  {
    name: 'salinity',
    typed: { target: '1.5 ppt', now: '35', volume: '300' },
    title: NOTHING_UNDERSTOOD,
    says: ['**target**', 'Allowed: 2 to 42 ppt'],
  },
  {
    name: 'salinity',
    typed: { target: '43', now: '35', volume: '300' },
    title: NOTHING_UNDERSTOOD,
    says: ['43', '2 to 42'],
  },
  {
    name: 'ammonia',
    typed: { total: '0.5', ph: '8', salinity: '50' },
    title: NOTHING_UNDERSTOOD,
    says: ['**salinity**', '50'],
  },
  // Units that do not exist, and units of something else.
  {
    name: 'change',
    typed: { now: '40 blorps', target: '20' },
    title: NOTHING_UNDERSTOOD,
    says: ['40', 'I do not know that unit', 'For example'],
  },
  {
    name: 'flow',
    typed: { pump: '3000 L/h', volume: '25 C' },
    title: NOTHING_UNDERSTOOD,
    says: ['that is a temperature, and I need a volume'],
  },
  { name: 'convert', typed: { amount: '7 furlongs' }, title: NOTHING_UNDERSTOOD, says: ['7 furlongs', '8 dkh'] },
  { name: 'convert', typed: { amount: '140 ppm' }, title: 'Of what?', says: ['alkalinity', 'nitrate'] },
  { name: 'convert', typed: { amount: '140' }, title: 'In which unit?', says: ['8 dkh'] },
  // Something is missing.
  { name: 'change', typed: {}, title: 'What shall I work out?', says: ['now:', 'For example'] },
  { name: 'change', typed: { grows: '1' }, title: 'What shall I work out?', says: ['every:'] },
  {
    name: 'salinity',
    typed: { target: '35', now: '36' },
    title: 'How much water?',
    says: ['volume: 300 L', '/water volume'],
  },
  { name: 'salinity', typed: { target: '35', volume: '300' }, title: 'How salty is it now?', says: ['now: 36.5 ppt'] },
  {
    name: 'salinity',
    typed: { target: '35', now: '33', volume: '300', with: 'stronger water' },
    title: 'How strong is the new water?',
    says: ['45 ppt'],
  },
  {
    name: 'volume',
    typed: { shape: 'bow front', length: '90', depth: '45' },
    title: 'One more length',
    says: ['width:', 'bow:'],
  },
  { name: 'light', typed: {}, title: 'Which light?', says: ['par:', 'For example'] },
  { name: 'light', typed: { target: '200' }, title: 'One more number', says: ['par:'] },
  { name: 'flow', typed: { volume: '300' }, title: 'Pump or turnover?', says: ['times:'] },
  { name: 'top-off', typed: { volume: '300', length: '100 cm' }, title: 'Length and width', says: ['lost:'] },
  { name: 'flow', typed: { pump: '3000', tank: 'Nowhere' }, title: 'How much water?', says: ['/tank add'] },
];

describe('what cannot be used', () => {
  test.each(BAD)('$name $typed is told kindly, with what helps', async ({ name, typed, title, says }) => {
    const { water } = await openWater();
    const reply = await water(name, typed);
    expect(reply.private).toBe(true);
    expect(titleOf(reply)).toBe(title);
    const text = reply.text.replaceAll('**', '').replaceAll('\\', '');
    for (const each of says) expect(text).toContain(each.replaceAll('**', ''));
    expect(text).not.toContain('This is arithmetic');
  });

  // One required option each, so that the text under test is the one that is looked at.
  test.each([
    ['change', { now: LONG, target: '20' }],
    ['salinity', { target: LONG, volume: '300' }],
    ['top-off', { volume: LONG }],
    ['volume', { shape: 'box', length: LONG, depth: '40' }],
    ['ammonia', { total: LONG, ph: '8.2' }],
    ['convert', { amount: LONG }],
    ['light', { par: LONG }],
    ['flow', { pump: LONG, volume: '300' }],
  ] as const)('%s with 2,000 characters shows a few of them, and an example', async (name, typed) => {
    const { water } = await openWater();
    const reply = await water(name, typed);
    expect(reply.private).toBe(true);
    expect(titleOf(reply)).toBe(NOTHING_UNDERSTOOD);
    expect(reply.text).toContain('xxx…');
    expect(reply.text.length).toBeLessThan(800);
    expect(reply.text).toMatch(/[Ff]or example/);
  });

  test('a tank of 2,000 characters is not repeated whole', async () => {
    const { water } = await openWater();
    const reply = await water('flow', { pump: '3000', tank: LONG });
    expect(reply.private).toBe(true);
    expect(reply.text.length).toBeLessThan(600);
  });
});
