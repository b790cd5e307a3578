import { expect, test } from 'vitest';
import { asks, ballot, HOUR_MS, notices, openCaseClub, opening, pass } from './club.ts';

test.each(['AttachFiles', 'SendMessages', 'ReadMessageHistory'] as const)(
  'without %s nothing is posted, and the asker reads what is missing',
  async (permission) => {
    const { ana, room } = await openCaseClub();
    room.world.setBotPermissions('ask', { deny: [permission] });
    await room.quiet();
    const { replies } = await asks(ana);
    expect(replies).toHaveLength(1);
    expect(replies[0]!.text).toContain(permission.replace(/(?<=[a-z])(?=[A-Z])/g, ' '));
  },
);

test.each([
  ['CreatePublicThreads', 'Create Public Threads'],
  ['SendMessagesInThreads', 'Send Messages in Threads'],
] as const)('without %s it works in the channel itself, and says so', async (permission, name) => {
  const { ana, ben, cora, room } = await openCaseClub();
  room.world.setBotPermissions('ask', { deny: [permission] });
  await room.quiet();
  expect((await asks(ana)).replies[0]!.text).toContain(name);
  expect(ballot(ben).channelName).toBe('ask');
  await ben.press('Pest');
  expect(ballot(ben).text).toContain('Pest 1');
  await cora.press('Settle');
  await cora.fill({ 'What is it?': 'Pest', Reason: 'seen often' });
  expect(notices(ana).map(({ channelName }) => channelName)).toEqual(['ask']);
});

test('asked inside a thread, it is voted on in that thread', async () => {
  const { ana, ben, room } = await openCaseClub();
  await asks(ana);
  ana.goTo(ballot(ana).channelName);
  await asks(ana, 'another one');
  expect(room.world.channels.all().filter(({ thread }) => thread)).toHaveLength(1);
  expect(
    ben
      .sees()
      .filter(({ text }) => text.includes('Pest or harmless?'))
      .map(({ channelName }) => channelName),
  ).toEqual(['Second opinion 1: pest or harmless?', 'Second opinion 1: pest or harmless?']);
});

test('in a direct message there is nobody to ask', async () => {
  const { ana } = await openCaseClub();
  ana.goTo('dm');
  expect((await asks(ana)).replies[0]!.text).toContain('Second opinions need a club');
});

test('a thread that was closed does not swallow the notice: it goes to the channel', async () => {
  const club = await openCaseClub();
  const { ana, ben, room } = club;
  await asks(ana);
  await ben.press('Pest');
  const thread = room.world.channels.named(ballot(ben).channelName)!;
  Object.assign(thread.thread!, { archived: true, locked: true });
  await pass(club, 48 * HOUR_MS);
  expect(notices(ana).map(({ channelName }) => channelName)).toEqual(['ask']);
});

test('where nothing may be posted any more the asker is told once, when they next use the bot', async () => {
  const club = await openCaseClub();
  const { ana, ben, room } = club;
  await asks(ana);
  await ben.press('Pest');
  room.world.setBotPermissions('ask', { deny: ['SendMessages', 'SendMessagesInThreads'] });
  await pass(club, 48 * HOUR_MS);
  expect(notices(ben)).toEqual([]);
  const next = await ana.slash('critter name', [{ name: 'critter', value: 'aiptasia' }]);
  expect(next.replies).toHaveLength(2);
  expect(next.replies[1]).toMatchObject({ private: true });
  expect(next.replies[1]!.text).toContain('I could not post this for you');
  expect(next.replies[1]!.text).toContain('Closed by vote');
  expect((await ana.slash('critter name', [{ name: 'critter', value: 'aiptasia' }])).replies).toHaveLength(1);
});

test('a photo that was deleted while the case is open does not keep it from closing', async () => {
  const club = await openCaseClub();
  const { ana, ben, room } = club;
  await asks(ana);
  await ben.press('Pest');
  room.world.messages.remove(room.world.messages.get(opening(ben).id)!);
  await pass(club, 48 * HOUR_MS);
  expect(notices(ana)).toHaveLength(1);
});
