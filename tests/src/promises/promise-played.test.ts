import { describe, expect, test } from 'vitest';
import type { Actor } from '../../../src/room/room.ts';
import { ask, DAY_MS, HOUR_MS, openSwapClub, press, read, told } from './promise-room.ts';

const WORD = 'A word, if you like';

async function opened() {
  const club = await openSwapClub();
  const [nell, uma, bo] = [club.room.actor('Nell'), club.room.actor('Uma'), club.room.actor('Bo')];
  return { ...club, nell, uma, bo };
}
async function release(who: Actor, label: string, word: string): Promise<string> {
  expect((await who.press(label)).modal?.inputs[0]?.required).toBe(false);
  const { replies, error } = await who.fill({ [WORD]: word });
  expect(error).toBeUndefined();
  return read(replies);
}

describe('a promise', () => {
  test('goes from the card to the hand-over, through a restart, and ends in the quarantine that fits', async () => {
    const club = await opened();
    const { nell, uma, bo } = club;
    const zoas = await club.offer(nell, 1, { coral: 'zoanthus' });
    const mine = await press(uma, 'I’d like one');
    const offered = uma
      .sees()
      .at(-1)!
      .buttons.map(({ label }) => label);
    expect(offered).toEqual(['I have it', 'Open a thread', 'Release with a word']);
    expect(mine).toContain('Red zoas: promised to you\n@Nell was told.');
    expect(mine).toContain('2 December 2026');
    await club.pass(60_000);
    const heard = told(nell, 'It is promised to @Uma');
    expect(heard).toHaveLength(1);
    expect(heard[0]!.channelName).not.toBe('ask');
    expect(heard[0]!.buttons.map(({ label }) => label)).toEqual([
      'I handed it over',
      'Open a thread',
      'A week longer',
      'Release with a word',
    ]);
    expect(told(bo, 'It is promised to')).toEqual([]);
    await club.pass(DAY_MS);
    expect(await press(nell, 'I handed it over')).toContain('@Uma can object');
    await club.restart();
    await club.pass(60_000);
    expect(told(uma, '@Nell says that you have it')).toHaveLength(1);
    const home = await press(uma, 'I have it');
    expect(home).toContain('Red zoas: it is yours');
    expect(home).toContain('dip, look, hold');
    expect(home).toContain('lifted in a tub under water');
    expect(home).toContain('palytoxin');
    const start = await press(uma, 'Start its quarantine');
    expect(start).toContain('frag: Red zoas: Coral hold');
    expect(start).toContain('A yes to all of this?');
    await club.pass(60_000);
    expect(told(nell, 'You both say so')).toHaveLength(1);
    expect(club.statesOf(zoas)).toEqual(['Uma handed-over']);
    expect(await ask(bo, 'record', { member: '@Nell' })).toContain('Given: 1 piece. Received: 0 pieces.');
    expect(await ask(bo, 'promise', { offer: String(zoas.id) })).toContain('All of them have found a home');
  });

  test('is let go with a word, and the next in the queue has it at once', async () => {
    const club = await opened();
    const { nell, uma, bo } = club;
    const zoas = await club.offer(nell, 1);
    await press(uma, 'I’d like one');
    expect(await press(bo, 'Put me in line')).toContain('you are 1st in the queue');
    await club.pass(60_000);
    expect(await release(uma, 'Release with a word', 'my tank leaks')).toContain('No harm done');
    await club.pass(60_000);
    expect(told(nell, 'Their word: “my tank leaks”')).toHaveLength(1);
    expect(told(bo, 'it is your turn: @Nell keeps it for you')).toHaveLength(1);
    expect(told(nell, 'went on to @Bo')).toHaveLength(1);
    expect(club.statesOf(zoas)).toEqual(['Uma released', 'Bo promised']);
    const other = await ask(nell, 'promise', { offer: String(zoas.id), do: 'release', word: 'it melted, sorry' });
    expect(other).toContain('this promise is over');
    await club.pass(60_000);
    expect(told(bo, '@Nell cannot give it to you after all. Their word: “it melted, sorry”')).toHaveLength(1);
  });

  test('is reminded of once, is extended once, ends once, and the next one has it', async () => {
    const club = await opened();
    const { nell, uma, bo } = club;
    const zoas = await club.offer(nell, 1);
    await press(uma, 'I’d like one');
    await press(bo, 'Put me in line');
    await club.pass(60_000);
    expect(await press(nell, 'A week longer')).toContain('9 December 2026');
    expect(await ask(nell, 'promise', { offer: String(zoas.id), do: 'a week longer' })).toContain('once is enough');
    await club.pass(13 * DAY_MS + HOUR_MS);
    await club.restart();
    await club.pass(HOUR_MS);
    for (const who of [nell, uma]) expect(told(who, 'one day left')).toHaveLength(1);
    await club.pass(DAY_MS);
    await club.restart();
    await club.pass(HOUR_MS);
    for (const who of [nell, uma]) expect(told(who, 'its time is over')).toHaveLength(1);
    expect(told(bo, 'it is your turn')).toHaveLength(1);
    expect(club.statesOf(zoas)).toEqual(['Uma expired', 'Bo promised']);
  });

  test('counts as handed over when one says so and the other is silent for three days, but not against their word', async () => {
    const club = await opened();
    const { nell, uma } = club;
    const zoas = await club.offer(nell, 1);
    await press(uma, 'I’d like one');
    await ask(nell, 'handed', { offer: String(zoas.id) });
    await club.pass(DAY_MS);
    expect(await press(uma, 'That is not so')).toContain('it has not changed hands');
    await club.pass(HOUR_MS);
    expect(told(nell, '@Uma says that it has not changed hands')).toHaveLength(1);
    expect(await ask(nell, 'handed', { offer: String(zoas.id) })).toContain('You said that it changed hands');
    await club.pass(3 * DAY_MS - HOUR_MS);
    expect(club.statesOf(zoas)).toEqual(['Uma promised']);
    await club.pass(2 * HOUR_MS);
    expect(club.statesOf(zoas)).toEqual(['Uma handed-over']);
    expect(told(uma, 'the other did not object, so it counts as handed over')).toHaveLength(1);
    expect(told(uma, 'dip, look, hold')).toHaveLength(1);
  });
});
