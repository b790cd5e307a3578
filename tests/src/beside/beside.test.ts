import { beforeAll, describe, expect, test } from 'vitest';
import { beside } from '../../../src/beside/beside.ts';
import { COLOUR_WORDS, coloursIn, type ColourWord } from '../../../src/beside/colour-words.ts';
import { contrastsOf, standsOut } from '../../../src/beside/contrast.ts';
import { apartCm, neighbourOf } from '../../../src/beside/neighbour.ts';
import { colourOf, hueApart } from '../../../src/beside/oklch.ts';
import { knowledge } from '../../set-up-club.ts';
import { offerOf, wantOf } from '../swaps/find-stage.ts';

const colour = (name: string): ColourWord => {
  const [found] = coloursIn(name);
  if (!found) throw new Error(`no colour ${name}`);
  return found;
};
const coral = (id: string) => {
  const found = knowledge().corals.get(id);
  if (!found) throw new Error(`no coral ${id}`);
  return found;
};
const words = (name: string) => contrastsOf(colour(name)).map(({ word, why }) => `${word.word}: ${why}`);
const families = (name: string) => contrastsOf(colour(name)).map(({ word }) => word.family);

// The first test that asks for it would pay for its build.
beforeAll(() => void knowledge(), 120_000);

describe('colours in OKLCH', () => {
  // Ottosson 2020 gives the Oklab of XYZ test colours; these three are sRGB primaries in OKLCH, as CSS Color 4 lists them (from memory).
  test.each([
    ['#ff0000', 0.628, 0.2577, 29.23],
    ['#00ff00', 0.8664, 0.2948, 142.5],
    ['#0000ff', 0.452, 0.3132, 264.05],
  ])('%s is %d %d %d', (hex, l, c, h) => {
    const found = colourOf({ word: hex, hex });
    expect(found.l).toBeCloseTo(l, 2);
    expect(found.c).toBeCloseTo(c, 2);
    expect(found.h).toBeCloseTo(h, 0);
  });

  test('hues lie apart the short way round', () => {
    expect(hueApart(350, 10)).toBe(20);
    expect(hueApart(0, 180)).toBe(180);
    expect(hueApart(90, 300)).toBe(150);
  });

  test('each word has its own colour and name, and none has two', () => {
    const names = COLOUR_WORDS.flatMap(({ word, also }) => [word, ...also]);
    expect(new Set(names).size).toBe(names.length);
    expect(names.length).toBeGreaterThan(60);
    for (const { word, also } of COLOUR_WORDS)
      for (const name of [word, ...also]) expect(coloursIn(name).map((each) => each.word)).toEqual([word]);
  });

  test.each([
    ['a toxic green torch with bleeding red tips', ['toxic green', 'bleeding red']],
    ['Multi-colour, mostly TEAL', ['rainbow', 'teal']],
    ['blue green', ['teal']],
    ['green blue', ['green', 'blue']],
    ['no colour at all', []],
  ])('%s names %o', (text, named) => expect(coloursIn(text).map(({ word }) => word)).toEqual(named));
});

describe('what stands out', () => {
  test('red by green or turquoise, green by purple or pink, yellow by blue or purple, blue by yellow or orange', () => {
    expect(words('red')).toEqual(['teal: opposite', 'mint: near opposite', 'sky blue: near opposite', 'toxic green: lighter']); // prettier-ignore
    expect(families('green')).toEqual(expect.arrayContaining(['purple', 'pink']));
    expect(families('yellow')).toEqual(expect.arrayContaining(['blue', 'purple']));
    expect(families('blue')).toEqual(expect.arrayContaining(['yellow', 'orange']));
    expect(families('pink')).toEqual(expect.arrayContaining(['green', 'turquoise']));
  });

  test.each(COLOUR_WORDS.filter(({ family, hex, word }) => family !== 'many' && colourOf({ word, hex }).c >= 0.045))(
    '$word gets its opposite, near ones at about 30°, and one of another lightness',
    (asked) => {
      const [opposite, ...others] = contrastsOf(asked);
      const { h } = colourOf(asked);
      expect(others.length).toBe(3);
      // The words leave gaps on the wheel, so the nearest word may be a little off.
      expect(hueApart(colourOf(opposite!.word).h, h)).toBeGreaterThan(155);
      for (const { word } of others) expect(hueApart(colourOf(word).h, h)).toBeGreaterThanOrEqual(90);
      for (const { word, why } of others)
        if (why === 'lighter') expect(colourOf(word).l).toBeGreaterThan(colourOf(asked).l);
    },
  );

  test('quiet colours get strong ones, and many colours quiet ones', () => {
    expect(new Set(contrastsOf(colour('white')).map(({ why }) => why))).toEqual(new Set(['strong']));
    expect(words('rainbow')).toEqual(['dark green: quiet', 'plum: quiet', 'cream: quiet']);
  });

  test.each([
    ['pink', 'yellow', true],
    ['red', 'green', true],
    ['red', 'orange', false],
    ['teal', 'green', false],
    ['navy', 'ice blue', true],
    ['green', 'rainbow', false],
    ['black', 'hot pink', true],
    ['black', 'grey', true],
    ['white', 'cream', false],
  ])('%s by %s: %s', (one, other, does) => expect(standsOut(colour(one), colour(other)) > 0).toBe(does));
});

describe('who may stand beside whom', () => {
  test.each([
    ['none', 'none', 3],
    ['short', 'short', 7],
    ['medium', 'medium', 15],
    ['short', 'long', 20],
    ['long', 'very-long', 43],
  ] as const)('%s and %s: %d cm', (one, other, cm) =>
    expect(apartCm({ reach: one, containment: false }, { reach: other, containment: false })).toBe(cm),
  );

  const low = { lightPar: [30, 80] as [number, number] };
  test.each([
    ['the same sort', {}, { kind: 'may' }],
    ['another light', low, { kind: 'may-not', why: 'light' }],
    ['another flow', { flow: 'low' }, { kind: 'may-not', why: 'flow' }],
    ['a flow one step off', { flow: 'medium' }, { kind: 'may', warnings: ['flow'] }],
    ['sand', { placement: 'sand' }, { kind: 'may-not', why: 'placement' }],
    ['under a ledge', { placement: 'hang' }, { kind: 'may-not', why: 'placement' }],
    ['far sweepers', { reach: 'very-long' }, { kind: 'may', apartCm: 30 }],
    ['one that kills most', { strength: 'kills-most' }, { kind: 'may-not', why: 'kills-most' }],
    ['a leather', { kind: 'soft', chemical: true }, { kind: 'may-not', why: 'chemical' }],
    ['one that creeps', { containment: true, reach: 'none' }, { kind: 'may', apartCm: 8, warnings: ['island'] }],
    ['one with poison', { palytoxin: true }, { kind: 'may', warnings: ['palytoxin'] }],
    ['one that starves', { feeding: 'expert-only' }, { kind: 'may-not', why: 'expert' }],
  ] as const)('Acropora and %s', (_what, change, wanted) => {
    const acropora = { ...coral('acropora'), careFlags: [] };
    expect(neighbourOf(acropora, { ...acropora, ...change } as typeof acropora)).toMatchObject(wanted);
  });

  test('two that reach far are no neighbours', () => {
    const acropora = coral('acropora');
    const far = { ...acropora, reach: 'very-long' } as const;
    expect(neighbourOf(far, { ...acropora, reach: 'medium' })).toEqual({ kind: 'may-not', why: 'room' });
  });

  test('every kind that is named shares light, flow and room with the coral that was asked about', () => {
    for (const asked of knowledge().corals.values()) {
      const { kinds } = beside(knowledge(), { coral: asked, colour: '', offers: [], wants: [] });
      for (const { coral: other, neighbour } of kinds) {
        expect(other.id).not.toBe(asked.id);
        expect(neighbour.par[0]).toBeGreaterThanOrEqual(other.lightPar[0]);
        expect(neighbour.par[1]).toBeLessThanOrEqual(asked.lightPar[1]);
        expect(neighbour.apartCm).toBeLessThanOrEqual(30);
        expect(other.strength).not.toBe('kills-most');
        expect(other.careFlags).not.toContain('burns-skin');
        if (other.chemical) expect(asked.kind).not.toBe('stony');
      }
    }
  });

  test('offers come by contrast, and only where their coral can live there', () => {
    const offers = [
      offerOf({ coral: 'stylophora', name: 'Yellow paw', colour: 'yellow' }, { id: 1 }),
      offerOf({ coral: 'stylophora', name: 'Green paw', colour: 'emerald' }, { id: 2 }),
      offerOf({ coral: 'stylophora', name: 'Pink paw', colour: 'hot pink' }, { id: 3 }),
      offerOf({ coral: 'stylophora', name: 'A paw' }, { id: 4 }),
      offerOf({ coral: 'discosoma', name: 'Green mushroom', colour: 'green' }, { id: 5 }),
      offerOf({ name: 'A mystery', colour: 'green' }, { id: 6 }),
    ];
    const wants = [
      wantOf({ id: 1, coral: 'pocillopora', words: 'green pocci' }),
      wantOf({ id: 2, coral: 'pocillopora', words: 'pink pocci' }),
      wantOf({ id: 3, coral: 'pocillopora', words: 'pocci' }),
    ];
    const answer = beside(knowledge(), { coral: coral('acropora'), colour: 'pink', offers, wants });
    expect(answer.offers.map(({ offer }) => offer.details.name)).toEqual(['Green paw', 'Yellow paw']);
    expect(answer.wants.map(({ want }) => want.words)).toEqual(['green pocci', 'pocci']);
    const plain = beside(knowledge(), { coral: coral('acropora'), colour: '', offers, wants: [] });
    expect(plain.offers.map(({ offer }) => offer.id)).toEqual([4, 3, 2, 1]);
  });
});
