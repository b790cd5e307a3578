import { expect, test } from 'vitest';
import { limitsUsed } from '../../../src/room/page/limits.ts';
import { dayOf, writeTime } from '../../../src/room/page/times.ts';

const LISBON = { zone: 'Europe/Lisbon', locale: 'en-GB' };
const CHICAGO = { zone: 'America/Chicago', locale: 'en-US' };
const NOW = new Date('2026-07-01T12:00:00Z');
const after = (ms: number) => new Date(NOW.getTime() + ms);

test.each([
  [after(30_000), 'in 30 seconds'],
  [after(-90 * 60_000), '2 hours ago'],
  [after(86_400_000), 'tomorrow'],
  [after(14 * 86_400_000), 'in 14 days'],
  [after(-61 * 86_400_000), '2 months ago'],
])('says how far %s is away', (instant, expected) => {
  expect(writeTime(instant, 'R', LISBON, NOW)).toBe(expected);
});

test('writes the same instant in each zone and on each calendar', () => {
  const lateEvening = new Date('2026-07-01T23:30:00Z');
  expect(writeTime(lateEvening, 't', LISBON, NOW)).toBe('00:30');
  expect(writeTime(lateEvening, 't', CHICAGO, NOW).replace(/\s/g, ' ')).toBe('6:30 PM');
  expect(dayOf(lateEvening, LISBON)).toContain('2 July');
  expect(dayOf(lateEvening, CHICAGO)).toContain('July 1');
});

test('an instant that does not exist and a zone that does not exist are no reason to fall over', () => {
  expect(writeTime(new Date(Number.NaN), 'R', LISBON, NOW)).toBe('an impossible date');
  expect(writeTime(NOW, 't', { zone: 'Nowhere/Land', locale: 'en-GB' }, NOW)).toBe('12:00');
});

test('counts nested components and their text', () => {
  const text = { type: 10, content: 'abcde' };
  const components = [
    {
      type: 17,
      components: [
        text,
        { type: 9, components: [text], accessory: { type: 2 } },
        { type: 1, components: [{ type: 2 }, { type: 2 }] },
      ],
    },
  ];
  expect(limitsUsed({ content: '', components, embeds: [] })).toEqual([
    { name: 'Components', used: 8, most: 40 },
    { name: 'Text in components', used: 10, most: 4000 },
  ]);
});
