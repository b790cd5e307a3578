import { expect, test } from 'vitest';
import { asks, ballot, openCaseClub, opening, photo, WORM } from './club.ts';
import { phoneJpeg, plainPng, SECRET, tellingWebp } from './pictures.ts';

test.each([
  ['JPEG', phoneJpeg(), 'photo.jpg'],
  ['WebP', tellingWebp(), 'photo.webp'],
])('a %s goes up under a name of ours and without its metadata', async (_kind, data, name) => {
  const { ana, ben, room } = await openCaseClub();
  await asks(ana, WORM, photo(data, `at-home-${name}`));
  const [image] = opening(ben).images;
  expect(image?.name).toBe(name);
  expect(room.world.messages.file(new URL(image!.url).pathname)!.data.includes(SECRET)).toBe(false);
});

test.each([
  ['another kind of file', Buffer.from('GIF89a and so on'), 'JPEG, PNG and WebP'],
  ['a damaged photo', plainPng().subarray(0, 40), 'damaged'],
  ['more than 10 MB', Buffer.concat([plainPng(), Buffer.alloc(10 * 1024 * 1024)]), 'too large'],
])('%s is refused with what is taken, and nothing is posted', async (_what, data, words) => {
  const { ana, room } = await openCaseClub();
  const { replies } = await asks(ana, WORM, photo(data));
  expect(replies).toHaveLength(1);
  expect(replies[0]!.text).toContain(words);
  expect(room.world.messages.all().every(({ viewerId }) => viewerId !== null)).toBe(true);
});

test('without words the photo still has alt text, and the safe handling stands on the ballot', async () => {
  const { ana, ben } = await openCaseClub();
  await asks(ana, null);
  expect(opening(ben).images[0]!.alt).toContain('no description');
  expect(ballot(ben).text).toContain('nothing by hand');
  expect(ballot(ben).text).toContain('I have no words to go by');
});

test('what is dangerous and possible is printed at once, on the photo and on the ballot, before any vote', async () => {
  const { ana, ben } = await openCaseClub();
  await asks(ana, 'fat greenish worm with an orange frilly bit on its head and loads of white bristles');
  for (const { text, buttons } of [opening(ben), ballot(ben)]) {
    expect(text).toMatch(/For people\. ?\*\*|\*\*For people\.\*\*/);
    expect(text).toMatch(/fireworm/i);
    expect(text.indexOf('For people')).toBeLessThan(text.length / 2);
    expect(buttons.map(({ label }) => label)).toContain('First aid');
  }
  expect(ballot(ben).text).toContain('Pest 0');
  expect((await ben.press('First aid')).replies[0]!.text).toContain('First aid');
});

test.each(['server-error', 'hang-up'] as const)(
  'a %s after Discord heard that the bot is at work: the case opens once, and the asker gets the receipt',
  async (kind) => {
    const { ana, ben, room } = await openCaseClub();
    room.faults.add({ match: /^POST \/interactions/, kind, when: 'after-commit', times: 1 });
    const { replies } = await asks(ana);
    expect(replies[0]!.text).toContain('Your question goes up now');
    expect(ben.sees().filter(({ images }) => images.length > 0)).toHaveLength(1);
  },
);

test('what members write acts on nobody', async () => {
  const { ana, ben, room } = await openCaseClub();
  await asks(ana, '@everyone **bold** <@1> [x](https://example.org) -# ref 1');
  await ben.press('Pest');
  expect(room.world.pings).toEqual([]);
  expect(opening(ben).text).toContain('\\*\\*bold');
});
