import { describe, expect, test } from 'vitest';
import { GUILD } from '../../../src/room/members.ts';
import { ask, DAY_MS, fourInARing, openSwapRoom, press, read, told } from './meet-room.ts';

const ASKED = 'A swap in a ring of four';

describe('a ring of four', () => {
  test('goes from the night’s plan through a restart to the hand-over', async () => {
    const club = await openSwapRoom();
    const { nell, bo, uma, olu, all } = await fourInARing(club);
    expect(await ask(nell, 'rings')).toContain('1 ring could be closed now: serves 4, no plan can serve more');
    await club.night();
    expect(club.promised()).toBe(4);
    for (const who of all) expect(told(who, ASKED)).toHaveLength(1);
    const [asked] = told(nell, ASKED);
    expect(read(asked && [asked])).toContain('You give: torch, 1 piece, to @Bo\nYou get: xenia, 1 piece, from @Olu');
    expect(await ask(nell, 'promises')).toContain('torch: kept for a ring');
    expect(await press(nell, 'Yes')).toContain('1 of 4 has said yes');
    await press(bo, 'Yes');
    await club.restart();
    await press(uma, 'Yes');
    // The slash route does what the button does.
    expect(await ask(olu, 'rings', { do: 'Yes to my ring' })).toContain('All four said yes');
    await club.pass(60_000);
    for (const who of all) expect(told(who, 'Who gives what to whom')).toHaveLength(1);
    expect(await ask(nell, 'rings')).toContain('1 ring is agreed and on the way');
    // Nell gives to Bo, and he says that he has it; so it goes round the ring.
    const now = club.room.clock.now();
    for (const { id, offerId, giverId, takerId } of club.promises.live(GUILD.id))
      if (giverId === club.idOf(nell)) {
        await ask(nell, 'handed', { offer: String(offerId) });
        await ask(bo, 'handed', { offer: String(offerId) });
      } else {
        club.promises.act(id, 'hand-over', giverId, now);
        club.promises.act(id, 'receive', takerId, now);
      }
    await club.pass(60_000);
    expect(club.promised()).toBe(0);
    for (const who of all) expect(told(who, 'The ring is closed')).toHaveLength(1);
  });

  test('is followed by the next best when one would rather not, and silence ends that', async () => {
    const club = await openSwapRoom();
    const { nell, bo, uma, olu } = await fourInARing(club);
    await ask(olu, 'want', { coral: 'zoanthid' });
    await club.night();
    await press(nell, 'Yes');
    expect(await press(uma, 'No, thanks')).toContain('That one is off');
    await club.pass(60_000);
    for (const who of [nell, bo, olu]) expect(told(who, 'No swap this time')).toHaveLength(1);
    expect(told(uma, 'No swap this time')).toEqual([]);
    for (const who of [nell, bo, olu]) expect(told(who, 'A swap in a ring of three')).toHaveLength(1);
    expect(told(uma, 'A swap in a ring of three')).toEqual([]);
    expect(read(told(olu, 'A swap in a ring of three'))).toContain('You get: zoanthid, 1 piece, from @Bo');
    expect(club.promised()).toBe(3);
    await press(nell, 'Yes');
    await club.pass(2 * DAY_MS + 60_000);
    expect(club.promised()).toBe(0);
    expect(read(told(nell, 'Not everybody answered in time'))).toContain('torch: yours to give again. I go on looking');
    expect(await ask(nell, 'rings', { do: 'Yes to my ring' })).toContain('No ring waits for you');
  });
});

describe('Propose these', () => {
  test('is for officers and curators', async () => {
    const club = await openSwapRoom();
    const { nell, all } = await fourInARing(club);
    expect(await ask(nell, 'rings', { do: 'Propose these' })).toContain('An officer or curator does that');
    const maren = club.actor('Maren', { roles: ['curator'] });
    expect(await ask(maren, 'rings')).toContain('None with you');
    expect(await press(maren, 'Propose these')).toContain('I have asked 4 members');
    await club.pass(60_000);
    for (const who of all) expect(told(who, ASKED)).toHaveLength(1);
  });
});
