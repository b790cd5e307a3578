import { describe, expect, test } from 'vitest';
import { readDraft, Typed, typedFrom } from '../../../src/swaps/draft.ts';
import { toggled } from '../../../src/swaps/draft-buttons.command.ts';
import { NONE_SEEN, pestsToAskOf } from '../../../src/swaps/draft.view.ts';
import { OfferDetails } from '../../../src/swaps/offer.ts';
import { knowledge } from '../../set-up-club.ts';

const base = knowledge();
const read = (typed: Partial<Typed>) =>
  readDraft({ typed: Typed.parse({ coral: 'euphyllia', ...typed }), photoName: null }, { base, today: '2026-11-29' }); // prettier-ignore
const details = (typed: Partial<Typed>) => {
  const result = read(typed);
  if (result.kind !== 'read') throw new Error(JSON.stringify(result));
  return result.details;
};

describe('a draft', () => {
  test.each([
    ['euphyllia', 'euphyllia', 'Torch coral'],
    ['torch coral', 'euphyllia', 'Torch coral'],
    ['frogspawn', 'fimbriaphyllia', 'Frogspawn'],
    ['Nell’s orange zoas', 'zoanthus', 'Nell’s orange zoas'],
    ['dragon torch', 'euphyllia', 'Dragon torch'],
    ['purple whatsit', null, 'Purple whatsit'],
  ])('called %s is the coral %s, listed as %s', (typed, coral, name) => {
    expect(details({ coral: typed })).toMatchObject({ coral, name });
  });

  test.each([
    ['Two iodine dips; mother six years', 'Two iodine dips', 'six years'],
    ['Two iodine dips, mother six years', 'Two iodine dips', 'six years'],
    ['mother colony is 3 years old', null, '3 years old'],
    ['peroxide, twice', 'peroxide, twice', null],
    ['', null, null],
  ])('with “%s” in one field keeps dips and age apart', (care, dips, motherAge) => {
    expect(details({ care })).toMatchObject({ dips, motherAge });
  });

  test('of any length and any letters is one that can be read back from the disk', () => {
    for (const text of [
      'ß'.repeat(400),
      '🐠'.repeat(300),
      `a\n\n\n\nb ${'x '.repeat(300)}`,
      '\ud800 lone',
      '  # **x** ',
    ]) {
      const all = { special: text, size: text, colour: text, swapFor: text, area: text, care: text, coral: text };
      const kept = details(all);
      expect(OfferDetails.parse(JSON.parse(JSON.stringify(kept).toWellFormed()))).toBeDefined();
      expect(kept.name).not.toContain('\n');
    }
  });

  test('tells of everything that cannot be used at once', () => {
    const result = read({ coral: '  ', pieces: '0', cut: 'soon', healsIn: 'a while' });
    expect(result.kind === 'trouble' && result.troubles.map(({ field }) => field)).toEqual(['coral', 'pieces', 'cut', 'healsIn']); // prettier-ignore
    for (const pieces of ['0', '51', '-1', '2.5', 'two', '1e3']) expect(read({ pieces }).kind).toBe('trouble');
    for (const pieces of ['', '1', ' 50 ', '２']) expect(read({ pieces }).kind).toBe('read');
  });

  test('of an offer that stands says the same as the offer', () => {
    const given = details({
      ...{ coral: 'frogspawn', cut: '2026-11-01', healsIn: '10', light: 'low', flow: 'high', give: true },
      ...{ care: 'one dip; mother 2 years', pests: ['sea-spider'], size: '3 cm', colour: 'green', area: 'North' },
    });
    expect(details(typedFrom({ pieces: 2, details: given }))).toEqual(given);
  });
});

test('pests are put in and out one press at a time, and "none seen" puts them out', () => {
  expect(toggled(null, 'a')).toEqual(['a']);
  expect(toggled(['a'], 'b')).toEqual(['a', 'b']);
  expect(toggled(['a', 'b'], 'a')).toEqual(['b']);
  expect(toggled(['a'], 'a')).toBeNull();
  expect(toggled(['a', 'b'], NONE_SEEN)).toEqual([]);
  expect(toggled([], NONE_SEEN)).toBeNull();
  expect(toggled([], 'a')).toEqual(['a']);
});

test('every coral asks of the pests that it is known to have, and one that is not in the books of common ones', () => {
  for (const [id, { pests }] of base.corals) expect(pestsToAskOf(base, { coral: id, pestsSeen: null })).toEqual(pests);
  const common = pestsToAskOf(base, { coral: null, pestsSeen: null });
  expect(common.length).toBeGreaterThan(3);
  for (const pest of common) expect(base.critters.has(pest)).toBe(true);
});
