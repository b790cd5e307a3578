import { describe, expect, test } from 'vitest';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import { readDrive } from '../../../src/swaps/want-words.ts';
import { ask, DAY_MS, direct, HOUR_MS, MINUTE_MS, offers, openSwapClub, press, readOf, says } from './swap-room.ts';

const NEWS = /What you look for is there/;

describe('a want', () => {
  test('says at once what fits, and tells once when something comes; no more than once a day', async () => {
    const club = await openSwapClub();
    const { nell, uma, bo, pass } = club;
    await offers(nell, { coral: 'zoanthus' });
    const noted = await says(uma, 'want', { coral: 'any zoanthid', drive: '20 miles' });
    expect(noted).toContain('You look for any zoanthid, up to 32 km away');
    expect(noted).toContain('Zoanthids (offer 1): 1 piece');
    expect(await says(bo, 'want', { coral: 'euphyllia' })).toContain('Nobody offers one now');
    await pass(2 * MINUTE_MS);
    expect(direct(uma, NEWS)).toEqual([]);

    await offers(nell, { coral: 'palythoa' });
    await pass(2 * MINUTE_MS);
    await club.restart();
    await offers(nell, { coral: 'parazoanthus' });
    await pass(HOUR_MS);
    expect(direct(uma, NEWS)).toHaveLength(1);
    expect(direct(uma, NEWS)[0]!.text).toContain('Palythoa (offer 2)');
    expect(direct(bo, NEWS)).toEqual([]);
    await pass(DAY_MS);
    expect(direct(uma, NEWS)).toHaveLength(2);
    expect(direct(uma, NEWS)[1]!.text).toContain('Yellow polyps (offer 3)');
    await pass(3 * DAY_MS);
    expect(direct(uma, NEWS)).toHaveLength(2);
  });

  test('wakes nobody at night where the zone is known', async () => {
    const { nell, uma, pass } = await openSwapClub({ clock: createRoomClock(new Date('2026-11-29T23:00:00Z')) });
    await uma.slash('quarantine start', [
      { name: 'animals', value: 'two clownfish' },
      { name: 'zone', value: 'Europe/Lisbon' },
    ]);
    await says(uma, 'want', { coral: 'euphyllia' });
    await offers(nell, { coral: 'euphyllia' });
    await pass(8 * HOUR_MS);
    expect(direct(uma, NEWS)).toEqual([]);
    await pass(HOUR_MS + MINUTE_MS);
    expect(direct(uma, NEWS)).toHaveLength(1);
  });

  test('what was withdrawn or taken before anybody heard of it is no news', async () => {
    const { nell, uma, pass } = await openSwapClub();
    await says(uma, 'want', { coral: 'euphyllia' });
    await offers(nell, { coral: 'euphyllia' });
    await says(nell, 'withdraw', { offer: '1' });
    await pass(HOUR_MS);
    expect(direct(uma, NEWS)).toEqual([]);
  });

  test('is told of nothing between members who blocked each other, whichever of them did', async () => {
    const { nell, uma, bo, pass } = await openSwapClub();
    await says(uma, 'want', { coral: 'euphyllia' });
    await says(bo, 'want', { coral: 'euphyllia' });
    await uma.slash('frag block', [{ name: 'member', value: '@Nell' }]);
    await nell.slash('frag block', [{ name: 'member', value: '@Bo' }]);
    await offers(nell, { coral: 'euphyllia' });
    await pass(HOUR_MS);
    expect([...direct(uma, NEWS), ...direct(bo, NEWS)]).toEqual([]);
    expect(await says(uma, 'want', { coral: 'torch coral' })).toContain('Nobody offers one now');
    await nell.slash('frag unblock', [{ name: 'member', value: '@Bo' }]);
    expect(await says(bo, 'want', { coral: 'euphyllia' })).toContain('Torch coral (offer 1)');
  });

  test('a distance that cannot be read loses nothing, and Try again takes another', async () => {
    const { uma } = await openSwapClub();
    const told = await says(uma, 'want', { coral: 'purple whatsit', drive: 'not far' });
    expect(told).toContain('I read “not far” as no distance');
    expect(told).toContain('What you look for is kept');
    await uma.press('Try again');
    expect(readOf(await uma.fill({ 'One way, in km or miles': '25' }))).toContain('purple whatsit, up to 25 km');
    expect(await says(uma, 'mine')).toContain('purple whatsit, up to 25 km away');
  });

  test('is ended by its member only, and taken back', async () => {
    const { uma, bo } = await openSwapClub();
    await says(uma, 'want', { coral: 'any soft coral' });
    expect(await says(bo, 'withdraw', { offer: 'any soft coral' })).toContain('no such offer of yours');
    expect(await says(uma, 'withdraw', { offer: 'any soft coral' })).toContain('off your list');
    expect(await says(uma, 'mine')).toContain('You look for nothing');
    expect(await press(uma, 'Undo')).toContain('You look for any soft coral');
    expect(await says(uma, 'want', { coral: 'any soft coral' })).toContain('You look for that already');
  });

  test('groups and corals can be chosen while typing', async () => {
    const { uma } = await openSwapClub();
    const typed = await uma.autocomplete('frag want', [{ name: 'coral', value: 'soft' }]);
    expect(typed.choices?.[0]?.name).toBe('any soft coral');
    expect((await ask(uma, 'want', { coral: 'any branching coral' })).error).toBeUndefined();
  });
});

test.each([
  ['30', 30],
  ['30 km', 30],
  ['20 miles', 32],
  ['12.5mi', 20],
  ['0', null],
  ['-5', null],
  ['20 leagues', null],
  ['far', null],
  ['99999', null],
])('%s is %s km', (typed, km) => {
  expect(readDrive(typed)).toBe(km);
});
