import { describe, expect, test } from 'vitest';
import { asRead } from '../../../src/room/as-read.ts';
import type { Actor, SeenMessage } from '../../../src/room/room.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import { openClub, titleOf } from '../../set-up-club.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const REMINDER = /^(?:\d+ chores|Return pump bath|Clean the skimmer cup)$/;

async function openUpkeepClub() {
  const club = await openClub({ settleMs: 40, clock: createRoomClock(new Date('2026-11-25T12:00:00Z')) });
  const pass = async (ms: number) => {
    club.room.clock.advance(ms);
    await club.room.quiet(80);
  };
  return { ...club, pass };
}

const only = ({ replies, error }: { replies: readonly SeenMessage[]; error?: string | undefined }): SeenMessage => {
  expect(error).toBeUndefined();
  expect(replies).toHaveLength(1);
  return { ...replies[0]!, text: asRead(replies[0]!.text) };
};
const upkeep = async (who: Actor, verb: string, given: Record<string, string> = {}) =>
  only(
    await who.slash(
      `upkeep ${verb}`,
      Object.entries(given).map(([name, value]) => ({ name, value })),
    ),
  );
const press = async (who: Actor, label: string) => only(await who.press(label));
const reminders = (who: Actor): SeenMessage[] =>
  who
    .sees()
    .map((message) => ({ ...message, text: asRead(message.text) }))
    .filter(({ text, private: isPrivate }) => !isPrivate && REMINDER.test(text.split('\n')[0] ?? ''));

/** Adds a chore; the first one is asked for time and zone. */
async function add(who: Actor, given: Record<string, string>, zone = 'Europe/Lisbon'): Promise<SeenMessage> {
  const { replies } = await who.slash(
    'upkeep add',
    Object.entries(given).map(([name, value]) => ({ name, value })),
  );
  if (replies.length > 0) return only({ replies });
  return only(await who.fill({ 'At what time of day?': '7 pm', 'Your time zone': zone }));
}

describe('/upkeep', () => {
  test('asks time and zone once, and offers the trade while one types', async () => {
    const { room } = await openUpkeepClub();
    const ana = room.actor('Ana');
    const first = await add(ana, { what: 'return pump bath' });
    expect(titleOf(first)).toBe('I will remind you: Return pump bath');
    expect(first.private).toBe(true);
    expect(first.text).toContain('Switch off and unplug before a hand goes into the water');
    const second = await upkeep(ana, 'add', { what: 'Feed the shrimp', every: 'Mon and Thu' });
    expect(second.text).toContain('Every Monday and Thursday at 19:00 (Europe/Lisbon)');
    expect(second.text).not.toContain('Before you begin');
  });

  test.each([
    [{ what: 'x', every: 'often' }, 'could not read “often”'],
    [{ what: 'x', every: '900 days' }, 'could not read “900 days”'],
    [{ what: 'x', every: 'Sat', at: '25:00' }, 'could not read the time'],
    [{ what: 'x', every: 'Sat', zone: 'Atlantis' }, 'no time zone'],
    [{ what: 'x', every: 'Sat', zone: 'Europe/Lisbon', first: 'yesterday' }, 'could not read the day'],
    [{ what: 'y'.repeat(90), every: 'Sat' }, '1 to 60 characters'],
    [{ what: 'x', every: 'Sat', tank: 'Atlantis' }, 'no tank'],
  ])('%o gets a kind answer', async (given, words) => {
    const { room } = await openUpkeepClub();
    const reply = await upkeep(room.actor('Ana'), 'add', given as unknown as Record<string, string>);
    expect(reply.private).toBe(true);
    expect(reply.text).toContain(words);
  });

  test('takes twenty chores, none twice', async () => {
    const { room } = await openUpkeepClub();
    const ana = room.actor('Ana');
    for (let n = 1; n <= 20; n += 1)
      await upkeep(ana, 'add', { what: `Chore ${n}`, every: '9 days', zone: 'Asia/Tokyo' });
    expect((await upkeep(ana, 'add', { what: 'One more', every: 'Sat' })).text).toContain('You have 20 chores');
    const list = await upkeep(ana, 'list');
    expect(list.text).toContain('Chore 20');
    await upkeep(ana, 'remove', { chore: 'Chore 20' });
    expect((await upkeep(ana, 'add', { what: 'chore 7', every: 'Sat' })).text).toContain('is on your list already');
  });
});

describe('a reminder', () => {
  test('comes directly, once, through a restart; done counts once and can be taken back', async () => {
    const club = await openUpkeepClub();
    const ana = club.room.actor('Ana');
    await add(ana, { what: 'Return pump bath', first: 'today' });
    await club.pass(6 * HOUR_MS);
    expect(reminders(ana)).toEqual([]);
    await club.pass(HOUR_MS);
    await club.restart();
    await club.pass(HOUR_MS);
    expect(reminders(ana)).toHaveLength(1);
    const [reminder] = reminders(ana);
    expect(reminder!.channelName).not.toBe('ask');
    expect(reminder!.text).toContain('never let it meet bleach');
    const done = await press(ana, 'Done');
    expect(titleOf(done)).toBe('Done: Return pump bath');
    expect((await press(ana, 'Undo')).text).toContain('not done, as before');
    expect(titleOf(await press(ana, 'Done'))).toBe('Done: Return pump bath');
    await club.pass(29 * DAY_MS);
    expect(reminders(ana)).toEqual([]);
    await club.pass(DAY_MS);
    expect(reminders(ana)).toHaveLength(1);
  });

  test('of several is one message, and goes on showing what is left', async () => {
    const club = await openUpkeepClub();
    const ana = club.room.actor('Ana');
    await add(ana, { what: 'Return pump bath', first: 'today' });
    await add(ana, { what: 'Clean the skimmer cup', first: 'today' });
    await club.pass(7 * HOUR_MS);
    expect(reminders(ana)).toHaveLength(1);
    expect((await press(ana, 'Done: Clean the skimmer cup')).text).toContain('1 of 2 chores left');
    expect((await press(ana, 'Skip')).text).toContain('All 2 answered');
    expect((await press(ana, 'Undo')).text).toContain('1 of 2 chores left');
  });

  test('is put off to the evening, to tomorrow, or to a time in a form, and comes once there', async () => {
    const club = await openUpkeepClub();
    const ana = club.room.actor('Ana');
    await upkeep(ana, 'add', {
      what: 'Return pump bath',
      first: 'today',
      at: '13:00',
      zone: 'Europe/Lisbon',
    });
    await club.pass(HOUR_MS);
    expect(reminders(ana)).toHaveLength(1);
    await press(ana, 'Later');
    expect(titleOf(await press(ana, 'This evening'))).toBe('Moved');
    await club.pass(5 * HOUR_MS);
    expect(reminders(ana)).toHaveLength(1);
    await club.pass(HOUR_MS);
    expect(reminders(ana)).toHaveLength(2);
    await press(ana, 'Later');
    await ana.press('Pick a time');
    const bad = only(await ana.fill({ 'On which day?': 'never', 'At what time?': '9:15' }));
    expect(bad.text).toContain('could not read the day');
    await upkeep(ana, 'later', { chore: 'return' });
    await ana.press('Pick a time');
    expect(titleOf(only(await ana.fill({ 'On which day?': 'in 3 days', 'At what time?': '9:15' })))).toBe('Moved');
    await club.pass(2 * DAY_MS);
    expect(reminders(ana)).toHaveLength(2);
    await club.pass(DAY_MS);
    expect(reminders(ana)).toHaveLength(3);
  });

  test('after a jump of the clock by weeks comes once, and not at night', async () => {
    const club = await openUpkeepClub();
    const ana = club.room.actor('Ana');
    await add(ana, { what: 'Return pump bath', first: 'today' });
    await add(ana, { what: 'Clean the skimmer cup', first: 'tomorrow' });
    // 25 November, noon, and 20 days and 15 hours: three in the morning.
    await club.pass(20 * DAY_MS + 15 * HOUR_MS);
    expect(reminders(ana)).toEqual([]);
    await club.pass(5 * HOUR_MS);
    await club.pass(HOUR_MS);
    expect(reminders(ana)).toHaveLength(1);
    expect(reminders(ana)[0]!.text).toContain('2 chores');
  });

  test.each([1, 7])(
    'of %i is found again after a connection that broke and a restart, and is not sent twice',
    async (count) => {
      const club = await openUpkeepClub();
      const ana = club.room.actor('Ana');
      await add(ana, { what: 'Return pump bath', first: 'today' });
      for (let n = 1; n < count; n += 1) await add(ana, { what: `Chore ${n}`, every: '9 days', first: 'today' });
      const match = /^POST \/channels\/\d+\/messages$/;
      club.room.faults.add({ match, kind: 'hang-up', when: 'after-commit', times: 1 });
      await club.pass(7 * HOUR_MS);
      expect(club.room.faults.left()).toEqual([]);
      await club.restart();
      const posts = () => club.room.requests.all().filter(({ method, path }) => match.test(`${method} ${path}`)).length;
      const before = posts();
      await club.pass(2 * HOUR_MS);
      expect(reminders(ana)).toHaveLength(1);
      expect(posts()).toBe(before);
    },
  );

  test('falls back to the channel where direct messages are closed, and heeds its member only', async () => {
    const club = await openUpkeepClub();
    const ana = club.room.actor('Ana', { name: 'Ana', dmClosed: true });
    await add(ana, { what: 'Return pump bath', first: 'today' });
    await club.pass(7 * HOUR_MS);
    const [reminder] = reminders(ana);
    expect(reminder).toMatchObject({ channelName: 'ask', private: false });
    expect(reminder!.text).toContain('@Ana');
    for (const label of ['Done', 'Later', 'Skip'])
      expect((await press(club.room.actor('Ben'), label)).text).toContain('not your chore');
    expect(titleOf(await press(ana, 'Done'))).toBe('Done: Return pump bath');
  });
});

test('twenty chores with the longest names fit one reminder, one list and one answer', async () => {
  const club = await openUpkeepClub();
  const ana = club.room.actor('Ana');
  const tank = '*'.repeat(40);
  await ana.slash('tank add', [
    { name: 'name', value: tank },
    { name: 'volume', value: '300 L' },
  ]);
  for (let n = 10; n < 30; n += 1)
    await upkeep(ana, 'add', {
      what: `${n}${'_'.repeat(58)}`,
      every: 'Mon, Tue, Wed, Thu, Fri, Sat, Sun',
      zone: 'America/Argentina/ComodRivadavia',
      first: 'today',
      tank,
    });
  await club.pass(10 * DAY_MS);
  await club.pass(12 * HOUR_MS);
  const [reminder, ...more] = reminders(ana);
  expect(more).toEqual([]);
  for (let n = 10; n < 30; n += 1) expect(reminder!.text).toContain(`${n}__`);
  expect((await press(ana, `Done: 10${'_'.repeat(58)}`)).text).toContain('19 of 20 chores left');
  expect((await upkeep(ana, 'list')).text).toContain('29__');
});

test('history says how late it is on average, and which interval would fit', async () => {
  const club = await openUpkeepClub();
  const ana = club.room.actor('Ana');
  await add(ana, { what: 'Clean the skimmer cup', first: 'today' });
  for (let n = 0; n < 3; n += 1) {
    await club.pass(n === 0 ? 2 * DAY_MS : 6 * DAY_MS);
    await upkeep(ana, 'done', { chore: 'skimmer' });
  }
  const history = await upkeep(ana, 'history', { chore: 'skimmer' });
  expect(history.text).toContain('On average 2 days late over the last 3 times.');
  expect(history.text).toContain('every: 6 days');
  expect((await upkeep(ana, 'done', { chore: 'skimmer' })).text).toContain('has its answer already');
  expect((await upkeep(ana, 'edit', { chore: 'skimmer', every: '6 days', next: 'today' })).text).toContain(
    'Every 6 days',
  );
  expect((await upkeep(club.room.actor('Ben'), 'list')).text).toContain('No chores yet');
});
