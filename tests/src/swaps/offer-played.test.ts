import { describe, expect, test } from 'vitest';
import { phoneJpeg, plainPng, SECRET } from '../opinions/pictures.ts';
import { ask, cards, offers, openSwapClub, press, readOf, says } from './swap-room.ts';

const photo = (data = phoneJpeg(), alt?: string) => ({ name: 'at-home.jpg', data, ...(alt ? { alt } : {}) });

describe('a newcomer on a phone', () => {
  test('posts a first offer with a photo, choosing whatever can be chosen', async () => {
    const club = await openSwapClub();
    const { nell, uma, room } = club;
    const typing = await nell.autocomplete('frag offer', [{ name: 'coral', value: 'torch' }]);
    expect(typing.choices?.[0]).toMatchObject({ value: 'euphyllia' });
    const cut = await nell.autocomplete('frag offer', [
      { name: 'coral', value: 'euphyllia' },
      { name: 'cut', value: '' },
    ]);
    expect(cut.choices?.map(({ value }) => value)).toContain('last week');

    const opened = await ask(nell, 'offer', { coral: 'euphyllia', photo: photo(), cut: 'last week', pieces: '2' });
    expect(opened.modal?.inputs.length).toBeLessThanOrEqual(5);
    expect(opened.modal?.inputs.every(({ required }) => !required)).toBe(true);
    const looked = await nell.fill({});
    expect(looked.replies[0]).toMatchObject({ private: true });
    expect(looked.replies[0]!.images).toHaveLength(1);
    expect(cards(uma)).toEqual([]);

    const chosen = readOf(await nell.choose('Pests ever seen on the mother colony?', ['None seen']));
    expect(chosen).toContain('Pests ever seen on the mother: none seen (declared by @Nell)');
    expect(await press(nell, 'Post it')).toContain('Posted: Torch coral');

    await club.restart();
    const [card, ...others] = cards(uma);
    expect(others).toEqual([]);
    expect(card!.channelName).toBe('ask');
    expect(card!.text).toContain('Torch coral: 2 pieces');
    expect(card!.text).toContain('Fresh: cut 22 Nov, settled from 6 Dec');
    expect(card!.text).toContain('none seen (declared by @Nell)');
    expect(card!.text).toContain('more than 15 cm');
    expect(card!.text).toMatch(/border.*\n.*When it comes home.*\n.*into the wild/);
    expect(card!.images[0]!.alt).toBe('A photo from Nell of their torch coral');
    const file = room.world.messages.file(new URL(card!.images[0]!.url).pathname)!;
    expect(file.data.includes(SECRET)).toBe(false);
  });

  test('reads the poison first where a coral is poisonous, and general words where it is not in the books', async () => {
    const { nell, uma } = await openSwapClub();
    await offers(nell, { coral: 'zoas' });
    await offers(nell, { coral: 'purple whatsit' });
    const [zoas, whatsit] = cards(uma);
    expect(zoas!.text).toMatch(/⚠ Poison: .*palytoxin/);
    expect(zoas!.text.indexOf('Poison')).toBeLessThan(zoas!.text.indexOf('It creeps'));
    expect(whatsit!.text).toContain('Purple whatsit: 1 piece');
    expect(whatsit!.text).toContain('Not in my books');
    expect(await press(uma, 'Before you take one')).toContain('Purple whatsit');
  });

  test('adds a photo later, is told why one cannot be used, and loses nothing', async () => {
    const { nell, uma } = await openSwapClub();
    await ask(nell, 'offer', { coral: 'xenia', photo: photo(Buffer.from('GIF89a and so on')), give: 'yes' });
    const told = readOf(await nell.fill({ 'What makes it special?': 'It never stops waving' }));
    expect(told).toContain('Without the photo for now. I take JPEG, PNG and WebP');
    expect(told).toContain('It never stops waving');
    await nell.press('Add a photo');
    await nell.fill({ 'What does it show?': 'Five pale stalks' }, { Photo: [photo(plainPng())] });
    await press(nell, 'Post it');
    expect(cards(uma)[0]!.text).toContain('gives it away');
    expect(cards(uma)[0]!.images[0]!.alt).toBe('Five pale stalks');
  });

  test('swiped the form away: what was chosen is there again', async () => {
    const { nell, uma } = await openSwapClub();
    await ask(nell, 'offer', { coral: 'euphyllia', size: 'two heads' });
    expect(await says(nell, 'mine')).toContain('You offer nothing yet');
    expect(await press(nell, 'Go on with Torch coral')).toContain('Size: two heads');
    expect(await says(nell, 'edit')).toContain('Nothing is posted yet');
    expect(await press(nell, 'Throw away')).toContain('Nothing was posted');
    expect(await says(nell, 'edit')).toContain('no such offer of yours');
    expect(cards(uma)).toEqual([]);
  });
});

describe('what cannot be read', () => {
  test('a day of the cut is told clearly, and the form holds everything that was typed', async () => {
    const { nell, uma } = await openSwapClub();
    const given = { coral: 'euphyllia', size: '3 cm', colour: 'green' };
    expect(await says(nell, 'offer', { ...given, cut: '2026-12-24' })).toContain('still to come');
    const told = await says(nell, 'offer', { ...given, cut: 'soon' });
    expect(told).toContain('I read “soon”. Write when it was cut');
    expect(told).toContain('everything you gave is kept');
    const again = await nell.press('Try again');
    expect(again.modal?.inputs[0]?.label).toBe('When was it cut?');
    const looked = readOf(await nell.fill({ 'When was it cut?': '1 Nov' }));
    expect(looked).toContain('Settled since 15 Nov');
    expect(looked).toContain('Size: 3 cm · Colour: green');
    expect(cards(uma)).toEqual([]);
  });

  test('pieces that are no number, in the form: twice wrong, and still nothing is lost', async () => {
    const { nell, uma } = await openSwapClub();
    await ask(nell, 'offer', { coral: 'euphyllia' });
    await nell.fill({ 'What makes it special?': 'Grandmother’s' });
    await nell.choose('Change something else…', ['How many pieces']);
    expect(readOf(await nell.fill({ 'How many pieces?': 'a few' }))).toContain('I read “a few” pieces');
    await nell.press('Try again');
    expect(readOf(await nell.fill({ 'How many pieces?': '500' }))).toContain('from 1 to 50');
    await nell.press('Try again');
    const looked = readOf(await nell.fill({ 'How many pieces?': '4' }));
    expect(looked).toContain('4 pieces');
    expect(looked).toContain('Grandmother’s');
    const both = await Promise.all([nell.press('Post it'), nell.press('Post it')]);
    const told = both.flatMap(({ replies }) => replies.map(({ text }) => text)).join('\n');
    expect(told).toContain('Posted: Torch coral');
    expect(told).toContain('That one is gone');
    expect(cards(uma)).toHaveLength(1);
  });
});

test('strangers: a draft is nobody else’s, and the keeper’s menu opens for the keeper only', async () => {
  const { nell, uma, bo } = await openSwapClub();
  await offers(nell, { coral: 'euphyllia' });
  expect(await press(uma, 'Keeper’s menu')).toContain('That is its keeper’s menu');
  expect(await says(bo, 'withdraw', { offer: '1' })).toContain('no such offer of yours');
  expect(await says(bo, 'renew', { offer: '1' })).toContain('no such offer of yours');
  expect(await says(bo, 'undo')).toContain('nothing to take back');
  expect(await press(nell, 'Keeper’s menu')).toContain('Your offer 1: Torch coral');
});
