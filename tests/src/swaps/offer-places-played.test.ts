import { describe, expect, test } from 'vitest';
import { cards, offers, openSwapClub, readOf, says } from './swap-room.ts';

test('in direct messages there is nobody to swap with', async () => {
  const { nell } = await openSwapClub();
  nell.goTo('dm');
  for (const command of ['mine', 'undo']) expect(await says(nell, command)).toContain('Swaps belong to a club');
  expect(await says(nell, 'offer', { coral: 'euphyllia' })).toContain('Swaps belong to a club');
  expect(await says(nell, 'want', { coral: 'euphyllia' })).toContain('Swaps belong to a club');
});

test('buttons of an offer that was withdrawn meanwhile say so and change nothing', async () => {
  const { nell, uma } = await openSwapClub();
  await offers(nell, { coral: 'euphyllia' });
  const [menu] = (await nell.press('Keeper’s menu')).replies;
  const old = (label: string) => {
    const button = menu!.buttons.find((each) => each.label === label);
    return nell.pressExactly(menu!.id, button!.customId!);
  };
  await says(nell, 'withdraw', { offer: '1' });
  expect(readOf(await old('Edit'))).toContain('It is off already');
  expect(readOf(await old('Renew 45 days'))).toContain('You withdrew it');
  expect(readOf(await old('Withdraw'))).toContain('It is off already');
  expect(await says(nell, 'renew', { offer: '1' })).toContain('no such offer of yours');
  expect(await says(uma, 'look', { offer: '1' })).toContain('Nobody offers that now');
  expect(cards(uma)[0]!.text).toContain('Torch coral: withdrawn');
});

describe('where an offer goes', () => {
  const set = (who: Parameters<typeof says>[0], value: string) =>
    who.slash('club settings', [{ name: 'swap-here', value }]);

  test('to the channel that an officer set, until it is unset; nobody else sets it', async () => {
    const { nell, uma, olu } = await openSwapClub();
    olu.goTo('swap');
    expect(readOf(await set(nell, 'yes'))).toContain('An officer has to do that');
    expect(readOf(await set(olu, 'yes'))).toContain('are posted in #swap from now on');
    expect(await offers(nell, { coral: 'euphyllia' })).toContain('#swap');
    expect(readOf(await set(olu, 'no'))).toContain('posted where a member makes them');
    await offers(nell, { coral: 'zoanthus' });
    expect(cards(uma).map(({ channelName }) => channelName)).toEqual(expect.arrayContaining(['swap', 'ask']));
  });

  test('to where it was asked when that channel takes nothing any more', async () => {
    const { nell, uma, olu, room } = await openSwapClub();
    olu.goTo('swap');
    await set(olu, 'yes');
    room.world.setBotPermissions('swap', { deny: ['SendMessages'] });
    await offers(nell, { coral: 'euphyllia' });
    await room.quiet(80);
    expect(cards(uma).map(({ channelName }) => channelName)).toEqual(['ask']);
  });

  test('nowhere where I may not post: that is said before anything is typed', async () => {
    const { nell, room } = await openSwapClub();
    room.world.setBotPermissions('ask', { deny: ['SendMessages'] });
    expect(await says(nell, 'offer', { coral: 'euphyllia' })).toContain('I lack Send Messages');
  });
});
