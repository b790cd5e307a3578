import { expect, test } from 'vitest';
import { ask, DAY_MS, HOUR_MS, openSwapClub, press, read, told } from './promise-room.ts';

async function opened() {
  const club = await openSwapClub();
  const [nell, uma, bo] = [club.room.actor('Nell'), club.room.actor('Uma'), club.room.actor('Bo')];
  return { ...club, nell, uma, bo };
}

test('a hand-over that nobody came for is noted for the two and the curators, and shown to nobody else', async () => {
  const club = await opened();
  const { nell, uma, bo } = club;
  const cora = club.room.actor('Cora', { name: 'Cora', roles: ['curator'] });
  await club.offer(nell, 1);
  await press(uma, 'I’d like one');
  await club.pass(6 * DAY_MS + HOUR_MS);
  expect(await press(nell, 'They did not come')).toContain('for you two and the curators only');
  expect(await ask(cora, 'reports')).toContain('@Nell notes that @Uma did not come');
  expect(await ask(uma, 'promises')).toContain('@Nell noted that you did not come');
  expect(await ask(bo, 'reports')).toContain('For curators');
  expect(await ask(bo, 'record', { member: '@Uma' })).not.toContain('come');
  expect(await press(nell, 'They came after all')).toContain('The note is gone');
  expect(await ask(cora, 'reports')).not.toContain('did not come');
});

test('a promise cannot be made between members who are blocked, and the blocked one is not told why', async () => {
  const club = await opened();
  const { nell, uma, bo } = club;
  const zoas = await club.offer(nell, 1);
  expect(await ask(nell, 'block', { member: '@Uma' })).toContain('They are not told');
  expect(await press(uma, 'I’d like one')).toBe('Not just now\nThis piece cannot be promised just now.');
  expect(await ask(bo, 'block', { member: '@Nell' })).toContain('never matched');
  expect(await press(bo, 'I’d like one')).toContain('You blocked this member');
  expect(club.statesOf(zoas)).toEqual([]);
  await ask(nell, 'unblock', { member: '@Uma' });
  expect(await press(uma, 'I’d like one')).toContain('promised to you');
});

test('a promise reaches a giver who takes no direct messages in the channel, where strangers can press nothing', async () => {
  const club = await openSwapClub();
  const nell = club.room.actor('Nell', { name: 'Nell', dmClosed: true });
  const [uma, bo] = [club.room.actor('Uma'), club.room.actor('Bo')];
  const zoas = await club.offer(nell, 1);
  await press(uma, 'I’d like one');
  await club.pass(60_000);
  expect(told(nell, 'It is promised to @Uma').map(({ channelName }) => channelName)).toEqual(['ask']);
  for (const label of ['I handed it over', 'Open a thread', 'A week longer', 'Release with a word'])
    expect(await press(bo, label)).toContain('That is between two others');
  // Hers are the giver’s buttons, and the taker cannot say for the giver that it was handed over.
  const [own] = told(uma, 'It is promised to @Uma');
  const handed = own!.buttons.find(({ label }) => label === 'I handed it over')!;
  expect(read((await uma.pressExactly(own!.id, handed.customId!)).replies)).toContain('Only the other of you two');
  expect(club.statesOf(zoas)).toEqual(['Uma promised']);
});
