import { expect, test } from 'vitest';
import { asRead } from '../../../src/room/as-read.ts';
import { HOUR_MS, openSwapClub, press, told } from './promise-room.ts';

async function opened() {
  const club = await openSwapClub();
  const [nell, uma, bo] = [club.room.actor('Nell'), club.room.actor('Uma'), club.room.actor('Bo')];
  return { ...club, nell, uma, bo };
}

test('a thread that Discord refuses is said to both, who are named to each other', async () => {
  const club = await opened();
  const { nell, uma } = club;
  await club.offer(nell, 1);
  await press(uma, 'I’d like one');
  await club.pass(60_000);
  club.room.faults.add({ match: /threads$/, kind: 'forbidden', when: 'before-commit', times: 9, code: 50013 });
  await press(nell, 'Open a thread');
  await club.pass(HOUR_MS);
  expect(told(uma, 'Discord did not let me open a thread. Write to @Nell directly')).toHaveLength(1);
  expect(told(nell, 'Discord did not let me open a thread. Write to @Uma directly')).toHaveLength(1);
});

test('a thread stands on the card and calls each of the two once, through a restart', async () => {
  const club = await opened();
  const { nell, uma, bo } = club;
  await club.offer(nell, 2);
  await press(uma, 'I’d like one');
  await press(uma, 'Open a thread');
  await club.restart();
  await club.pass(60_000);
  const lines = () => uma.sees().filter(({ channelName }) => channelName === 'Hand-over: Red zoas');
  expect(lines().map(({ text }) => asRead(text).split(',')[0])).toEqual(['@Nell', '@Uma']);
  // Discord allows one on each message, so the next two meet there too.
  await press(bo, 'I’d like one');
  await press(bo, 'Open a thread');
  await club.pass(60_000);
  expect(lines().map(({ text }) => asRead(text).split(',')[0])).toEqual(['@Nell', '@Uma', '@Nell', '@Bo']);
});
