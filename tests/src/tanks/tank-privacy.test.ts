import { describe, expect, test } from 'vitest';
import { linesOf, titleOf } from '../../set-up-club.ts';
import { labels, openTankClub, press, tank } from './tank-room.ts';

describe('who sees a tank', () => {
  test('nobody but its owner, unless they show it to the club', async () => {
    const { ana, ben } = await openTankClub();
    await tank(ana, 'add', { name: 'Secret', volume: '200 L' });
    expect((await tank(ben, 'show', { for: '@Ana' })).text).toContain('shows no tank to the club');
    expect((await tank(ben, 'list', { for: '@Ana' })).text).not.toContain('Secret');
    await tank(ana, 'add', { name: 'Shown', volume: '100 L', 'seen-by': 'club' });
    const list = await tank(ben, 'list', { for: '@Ana' });
    expect(list.text).toContain('Shown');
    expect(list.text).not.toContain('Secret');
    expect(titleOf(await tank(ben, 'show', { for: '@Ana' }))).toMatch(/^Shown, @Ana’s tank/);
    const guessed = await tank(ben, 'show', { for: '@Ana', tank: 'Secret' });
    expect(guessed.text).toContain('Shown');
    expect(guessed.text).toContain('I read “Secret”');
    expect(titleOf(guessed)).toBe('I don’t know that tank');
  });

  test('what is offered while typing follows the same rule', async () => {
    const { ana, ben } = await openTankClub();
    await tank(ana, 'add', { name: 'Secret', volume: '200 L' });
    await tank(ana, 'add', { name: 'Shown', volume: '100 L', 'seen-by': 'club' });
    await tank(ben, 'add', { name: 'Bens', volume: '100 L' });
    const offered = async (who: typeof ana, given: { name: string; value: string }[]) =>
      (await who.autocomplete('tank show', [...given, { name: 'tank', value: '' }])).choices?.map(({ name }) => name);
    expect(await offered(ana, [])).toEqual(['Secret', 'Shown']);
    expect(await offered(ben, [])).toEqual(['Bens']);
    expect(await offered(ben, [{ name: 'for', value: '@Ana' }])).toEqual(['Shown']);
    expect(await offered(ana, [{ name: 'for', value: '@Ana' }])).toEqual(['Secret', 'Shown']);
  });

  test('a button on somebody else’s tank shows, and stops showing when the owner hides it', async () => {
    const { ana, ben } = await openTankClub();
    await tank(ana, 'add', { name: 'Shown', volume: '100 L', 'seen-by': 'club' });
    for (const [value, when] of [
      ['8', '3 days ago'],
      ['7', 'now'],
    ])
      await tank(ana, 'reading', { parameter: 'alkalinity', value: value!, when: when! });
    expect(labels(await tank(ben, 'show', { for: '@Ana' }))).toEqual(['Chart: Alkalinity']);
    expect((await press(ben, 'Chart: Alkalinity')).images).toHaveLength(1);
    await tank(ana, 'edit', { 'seen-by': 'me' });
    expect(titleOf(await press(ben, 'Chart: Alkalinity'))).toBe('That is not there any more');
  });

  test('in a direct message there is a kind word and no tank', async () => {
    const { ana } = await openTankClub();
    await tank(ana, 'add', { name: 'Reef', volume: '100 L' });
    ana.goTo('dm');
    for (const [verb, given] of [
      ['add', { name: 'Reef', volume: '1 L' }],
      ['edit', { name: 'Other' }],
      ['list', {}],
      ['show', {}],
      ['reading', { parameter: 'alkalinity', value: '8' }],
      ['dosed', { what: 'alkalinity', amount: '1 dKH' }],
      ['water-change', { amount: '10 %' }],
      ['log', {}],
      ['chart', { parameter: 'alkalinity' }],
      ['remove', {}],
      ['undo', {}],
    ] as const) {
      const { replies } = await ana.slash(
        `tank ${verb}`,
        Object.entries(given).map(([name, value]) => ({ name, value })),
      );
      expect(titleOf(replies[0]!), verb).toBe('Tanks belong to a club');
    }
    expect((await ana.autocomplete('tank show', [{ name: 'tank', value: '' }])).choices).toEqual([]);
  });
});

describe('odd input is met in private, and changes nothing', () => {
  const HOSTILE = [
    '**bold** _x_',
    '@everyone',
    '<@123>',
    '[x](https://example.org)',
    '# big',
    '`code`',
    'a:b:c',
    '😀'.repeat(20),
  ];
  test.each(HOSTILE)('a tank called %j is spoken of to the letter', async (name) => {
    const { ana, room } = await openTankClub();
    const kept = await tank(ana, 'add', { name, volume: '100 L', 'seen-by': 'club' });
    expect(linesOf(kept.text)[0]).toBe(`${name} is kept`);
    await tank(ana, 'reading', { parameter: 'alkalinity', value: '8', tank: name });
    expect((await tank(ana, 'show', { tank: name })).text).toContain('8.0 dKH');
    expect(labels(await tank(ana, 'remove', { tank: name }))).toHaveLength(1);
    expect(room.world.pings.flatMap(({ memberIds }) => memberIds)).toEqual([]);
  });

  test.each([
    ['add', { name: '\u200b', volume: '1 L' }, 'That name does not work'],
    ['add', { name: 'x'.repeat(41), volume: '1 L' }, 'That name does not work'],
    ['add', { name: 'New' }, 'How much water is in it?'],
    ['add', { name: 'New', volume: '0 L' }, 'I couldn’t use that'],
    ['add', { name: 'New', volume: '-5 L' }, 'I couldn’t use that'],
    ['add', { name: 'New', volume: '9e9 L' }, 'I couldn’t use that'],
    ['add', { name: 'New', volume: '8 dKH' }, 'I couldn’t use that'],
    ['add', { name: 'New', volume: '10 L', salinity: '99 ppt' }, 'I couldn’t use that'],
    ['add', { name: 'New', volume: '10 L', shape: 'box', size: '1 x 1 x 1' }, 'Volume or size, not both'],
    ['add', { name: 'New', shape: 'box', size: '10 x 10' }, 'A box has 3 lengths'],
    ['reading', { parameter: 'moonlight', value: '8' }, 'I don’t know what “moonlight” is'],
    ['reading', { parameter: 'alkalinity', value: '400' }, 'I couldn’t use that'],
    ['reading', { parameter: 'alkalinity', value: '8 furlongs' }, 'I couldn’t use that'],
    ['reading', { parameter: 'alkalinity', value: '8', 'kit-error': '-1' }, 'I couldn’t use that'],
    ['reading', { parameter: 'alkalinity', value: '8', when: '2099-01-01' }, 'That has not come yet'],
    ['reading', { parameter: 'alkalinity', value: '8', tank: 'Nowhere' }, 'I don’t know that tank'],
    ['dosed', { what: 'unicorn dust', amount: '1 g' }, 'I don’t know what was dosed'],
    ['dosed', { what: 'baking soda', amount: '50 mL' }, 'How strong is the solution?'],
    ['dosed', { what: 'baking soda', amount: '-3 g' }, 'I couldn’t use that'],
    ['water-change', { amount: '120 %' }, 'I couldn’t use that'],
    ['water-change', { amount: '500 L' }, 'That is more water than there is'],
    ['water-change', { amount: '10 %', alkalinity: 'much' }, 'I couldn’t use that'],
    ['edit', {}, 'What shall be different?'],
  ])('/tank %s %j: %s', async (verb, given, title) => {
    const { ana } = await openTankClub();
    await tank(ana, 'add', { name: 'Reef', volume: '100 L' });
    expect(titleOf(await tank(ana, verb, given))).toBe(title);
    expect(titleOf(await tank(ana, 'undo'))).toBe('The tank you added is gone again');
  });
});
