import { describe, expect, test } from 'vitest';
import { ask, DAY_MS, fourInARing, HOUR_MS, openSwapRoom, press, read, told, type SwapRoom } from './meet-room.ts';

/** A meet on Saturday in three days, to which all four come. */
async function comingToMeet(club: SwapRoom) {
  const four = await fourInARing(club);
  await ask(four.nell, 'meet', { date: 'Sat', place: 'the club room' });
  await club.pass(60_000);
  for (const who of four.all)
    expect(await press(who, 'I come')).toContain('You come on Saturday 28 November 2026\nYou bring: ');
  return four;
}
/** To Friday, 08:01 UTC. */
const toTheDayBefore = async (club: SwapRoom) => {
  await club.pass(DAY_MS + 20 * HOUR_MS + 60_000 - 60_000);
  await club.planned();
};
/** To Saturday, 06:03 UTC. */
const toTheDay = async (club: SwapRoom) => {
  await club.pass(22 * HOUR_MS);
  await club.planned();
};

describe('/frag meet', () => {
  test('reads the day in own words, and refuses what is over kindly', async () => {
    const club = await openSwapRoom();
    const { nell, bo } = await fourInARing(club);
    expect(await ask(nell, 'meet')).toContain('No meet is planned');
    const place = 'the club room';
    const over = await ask(nell, 'meet', { date: '2026-11-20', place });
    expect(over).toContain('That day is over');
    expect(over).toContain('/frag meet date: 2026-11-20 place: the club room');
    expect(await ask(nell, 'meet', { date: 'whenever', place })).toContain('Nothing was planned');
    expect(await ask(nell, 'meet', { date: 'Sat' })).toContain('A meet needs a place as well');
    expect(await ask(nell, 'meet', { place })).toContain('A meet needs a date as well');
    expect(await ask(nell, 'meet', { date: 'Sat', place })).toContain('Saturday 28 November 2026');
    expect(await ask(bo, 'meet', { date: '2026-11-28', place: 'The club room' })).toContain('It is planned already');
    expect(await ask(bo, 'meet', { do: 'Call it off' })).toContain('Not yours to call off');
  });

  test('takes who comes with what, on the card too, and tells them when it is called off', async () => {
    const club = await openSwapRoom();
    const { nell, bo, uma } = await comingToMeet(club);
    const rock = club.offer(bo, 'plain rock');
    expect(await ask(bo, 'meet', { do: 'I come', bring: `${rock.id}, 99` })).toContain('You bring: plain rock');
    expect(await press(uma, 'I cannot')).toContain('You are off the list');
    await club.pass(60_000);
    const card = read(told(nell, 'Planned by'));
    expect(card).toContain('3 come');
    expect(card).toContain('@Bo brings plain rock');
    expect(await ask(nell, 'meet', { do: 'Call it off' })).toContain('Called off');
    await club.pass(60_000);
    expect(told(bo, 'The swap meet is called off')).toHaveLength(1);
    expect(told(uma, 'The swap meet is called off')).toHaveLength(0);
    expect(read(told(nell, 'Planned by'))).toContain('Called off: swap meet');
  });

  test('goes from its rings on the day before through a restart to the list of the day', async () => {
    const club = await openSwapRoom();
    const { nell, uma, all } = await comingToMeet(club);
    expect(await ask(uma, 'meet')).toContain('Could be closed on the spot (1 ring, 4 members)');
    await toTheDayBefore(club);
    for (const who of all) expect(told(who, 'Soon: swap meet')).toHaveLength(1);
    expect(read(told(nell, 'A swap in a ring of four'))).toContain('To be handed over at the meet on Saturday');
    for (const who of all) await press(who, 'Yes');
    await club.restart();
    await toTheDay(club);
    const [list, ...more] = told(nell, 'Today: swap meet');
    expect(more).toEqual([]);
    expect(read(list && [list])).toContain('Promised, to hand over:\n');
    expect(read(list && [list])).toContain('@Nell → @Bo: torch');
    expect(list?.images.map(({ alt }) => alt)).toEqual([expect.stringContaining('Nell gives Bo: torch.')]);
  });

  test('lists what could be closed on the spot when not all answered in time', async () => {
    const club = await openSwapRoom();
    const { nell } = await comingToMeet(club);
    await toTheDayBefore(club);
    await press(nell, 'Yes');
    await toTheDay(club);
    expect(club.promised()).toBe(0);
    expect(read(told(nell, 'Today: swap meet'))).toContain('Could be closed on the spot (1 ring, 4 members)');
  });
});
