import { expect, test } from 'vitest';
import { openSwapClub, press, read, told } from './promise-room.ts';

test('fifty members who press at once share three pieces exactly, through a restart, and keep their places', async () => {
  const club = await openSwapClub();
  const nell = club.room.actor('Nell');
  const crowd = Array.from({ length: 50 }, (_, at) => club.room.actor(`Member ${at}`));
  const zoas = await club.offer(nell, 3, { name: 'Blue zoas' });
  const [{ id, buttons }] = nell.sees().filter(({ text }) => text.includes('Blue zoas')) as [
    ReturnType<typeof nell.sees>[number],
  ];
  const button = buttons.find(({ label }) => label === 'I’d like one')!.customId!;
  const all = (members: typeof crowd) => Promise.all(members.map((who) => who.pressExactly(id, button)));
  const first = await all(crowd.slice(0, 30));
  await club.restart();
  const second = await all(crowd.slice(30));
  const answers = [...first, ...second].map(
    ({ replies, error }) => `${error ?? ''}${read(replies.filter((each) => each.private))}`,
  );
  expect(answers.filter((text) => text.includes('promised to you'))).toHaveLength(3);
  const places = answers.flatMap((text) => /you are (\d+)(?:st|nd|rd|th) in the queue/.exec(text)?.[1] ?? []);
  expect(places.map(Number).sort((a, b) => a - b)).toEqual(Array.from({ length: 47 }, (_, at) => at + 1));

  // Everybody has the place that they were told, in the order of pressing.
  const kept = club.promises.of(zoas);
  expect(kept.map(({ state }) => state)).toEqual([...Array(3).fill('promised'), ...Array(47).fill('queued')]);
  const queue = kept.slice(3).map(({ takerId }) => club.room.world.members.get(takerId)!.name);
  const placeSaid = (name: string) => /you are (\d+)/.exec(answers[crowd.findIndex((who) => who.name === name)]!)?.[1];
  expect(queue.map(placeSaid)).toEqual(queue.map((_, at) => String(at + 1)));
  expect(queue.slice(0, 27).every((name) => Number(name.split(' ')[1]) < 30)).toBe(true);

  await club.pass(60_000);
  expect(told(nell, 'It is promised to')).toHaveLength(3);
  const again = crowd.find(({ name }) => name === queue[46])!;
  expect(read((await again.pressExactly(id, button)).replies)).toContain('you are still 47th');
  const [holder] = kept.map(({ takerId }) => club.room.world.members.get(takerId)!.name);
  const who = crowd.find(({ name }) => name === holder)!;
  await who.press('Release with a word');
  await who.fill({});
  await club.pass(60_000);
  const next = crowd.find(({ name }) => name === queue[0])!;
  expect(told(next, 'it is your turn')).toHaveLength(1);
  expect(await press(again, 'Leave the queue')).toBe('');
  expect(club.promises.of(zoas).filter(({ state }) => state === 'promised')).toHaveLength(3);
});
