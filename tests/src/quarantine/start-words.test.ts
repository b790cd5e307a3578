import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { labelInWords, readBegan, readLabel } from '../../../src/quarantine/start-words.ts';

const NOW = new Date('2026-11-25T12:00:00Z'); // A Wednesday; 07:00 in New York.

describe('when it began', () => {
  test.each([
    ['now', 'Europe/Lisbon', '2026-11-25T12:00:00Z'],
    ['3 days ago', 'Europe/Lisbon', '2026-11-22T12:00:00Z'],
    ['yesterday 18:00', 'Europe/Lisbon', '2026-11-24T18:00:00Z'],
    ['yesterday at 6 pm', 'America/New_York', '2026-11-24T23:00:00Z'],
    ['Saturday', 'Europe/Lisbon', '2026-11-21T12:00:00Z'],
    ['on Sunday evening', 'Europe/Lisbon', '2026-11-22T19:00:00Z'],
    ['last night', 'America/New_York', '2026-11-25T02:00:00Z'],
    ['this morning', 'Europe/Lisbon', '2026-11-25T09:00:00Z'],
    ['2026-11-20', 'America/New_York', '2026-11-20T17:00:00Z'],
    ['2026-11-20 18:30', 'America/New_York', '2026-11-20T23:30:00Z'],
    ['today', 'America/New_York', '2026-11-25T12:00:00Z'],
  ])('%s in %s', (text, zone, at) => {
    expect(readBegan(text, NOW, zone)).toEqual({ kind: 'at', at: new Date(at) });
  });

  test.each([
    ['tomorrow', 'unreadable'],
    ['2026-11-26', 'ahead'],
    ['today 23:00', 'ahead'],
    ['61 days ago', 'long-ago'],
    ['2025-11-20', 'long-ago'],
    ['2026-02-31', 'unreadable'],
    ['when I felt like it', 'unreadable'],
    ['', 'at'],
  ])('“%s” is %s', (text, kind) => {
    expect(readBegan(text, NOW, 'Europe/Lisbon').kind).toBe(kind);
  });

  test('never ahead, never long ago, whatever is typed', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 40 }), (text) => {
        const read = readBegan(text, NOW, 'America/Chicago');
        if (read.kind !== 'at') return;
        expect(read.at.getTime()).toBeLessThanOrEqual(NOW.getTime());
        expect(NOW.getTime() - read.at.getTime()).toBeLessThanOrEqual(60 * 86_400_000);
      }),
    );
  });
});

describe('the label of a bound copper', () => {
  test.each([
    ['chelated 1.5-2.0 mg/L', 'chelated 1.5–2 mg/L'],
    ['Chelated, 1.5 to 2 ppm', 'chelated 1.5–2 mg/L'],
    ['1,5 – 2,5 mg/l chelated copper', null],
    ['amine 0.4-0.6', 'amine 0.4–0.6 mg/L'],
    ['amine 400-600 µg/L', 'amine 0.4–0.6 mg/L'],
    ['chelated 1.5 mg/L to 2.0 mg/L', 'chelated 1.5–2 mg/L'],
  ])('%s', (text, words) => {
    const read = readLabel(text);
    expect(read.kind === 'label' ? labelInWords(read.label) : null).toBe(words);
  });

  test.each([
    ['1.5-2.0 mg/L', 'form'],
    ['ionic 0.15-0.2', 'ionic'],
    ['chelated 2', 'range'],
    ['chelated', 'range'],
    ['chelated 2.0-1.5', 'order'],
    ['chelated 2-2', 'order'],
    ['chelated 15-20 mg/L', 'figures'],
    ['chelated 1.5-2 dKH', 'figures'],
    ['amine 0-0.5', 'figures'],
  ])('“%s” is refused: %s', (text, why) => {
    expect(readLabel(text)).toMatchObject({ kind: 'trouble', why });
  });

  test('the form of a field stands in for the word', () => {
    expect(readLabel('1.5-2.0 mg/L', 'chelated')).toEqual({
      kind: 'label',
      label: { form: 'chelated', low: 1.5, high: 2 },
    });
  });

  test('what is written in words is read the same', () => {
    const figure = fc.integer({ min: 5, max: 400 }).map((n) => n / 100);
    fc.assert(
      fc.property(figure, figure, fc.constantFrom('chelated' as const, 'amine' as const), (a, b, form) => {
        fc.pre(a !== b);
        const label = { form, low: Math.min(a, b), high: Math.max(a, b) };
        expect(readLabel(labelInWords(label))).toEqual({ kind: 'label', label });
      }),
    );
  });
});
