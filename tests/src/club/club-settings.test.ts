import { describe, expect, test } from 'vitest';
import type { Actor } from '../../../src/room/room.ts';
import { asks, ballot, HOUR_MS, notices, openCaseClub, opening, pass } from '../opinions/club.ts';

const settings = async (who: Actor, hours?: string) =>
  who.slash('club settings', hours === undefined ? [] : [{ name: 'opinion-hours', value: hours }]);
const openWithOfficer = async () => {
  const club = await openCaseClub();
  return { ...club, olu: club.room.actor('Olu', { name: 'Olu', roles: ['officer'] }) };
};

describe('/club settings', () => {
  test('is for everybody to read, in private; who may change it reads how', async () => {
    const { ana, olu } = await openWithOfficer();
    const { replies } = await settings(ana);
    expect(replies[0]).toMatchObject({ private: true });
    expect(replies[0]!.text).toContain('stay open for **48 hours**');
    expect(replies[0]!.text).toContain('Officers can change this');
    expect((await settings(olu)).replies[0]!.text).toContain('opinion-hours');
  });

  test('is changed by officers, and stays so after a restart', async () => {
    const { ana, olu, restart } = await openWithOfficer();
    const changed = (await settings(olu, '72')).replies[0]!;
    expect(changed).toMatchObject({ private: true });
    expect(changed.text).toMatch(/stay open for \*\*3 days\*\* from now on; .*48 hours/);
    await restart();
    const read = (await settings(ana)).replies[0]!.text;
    expect(read).toContain('**3 days**');
    expect(read).toContain('Last changed by @Olu');
    expect((await settings(olu, '72')).replies[0]!.text).toContain('It was so already');
  });

  test('has units, for tanks that say nothing else', async () => {
    const { ana, olu, restart } = await openWithOfficer();
    expect((await settings(ana)).replies[0]!.text).toContain('**L, °C, dKH, ppt**');
    const { replies } = await olu.slash('club settings', [
      { name: 'volume-unit', value: 'US gal' },
      { name: 'temperature-unit', value: '°F' },
    ]);
    expect(replies[0]!.text).toMatch(/Units are \*\*US gal, °F, dKH, ppt\*\* from now on; they were L, °C, dKH, ppt/);
    expect(replies[0]!.text).not.toContain('Second opinions');
    await restart();
    expect((await settings(ana)).replies[0]!.text).toContain('**US gal, °F, dKH, ppt**');
    const { replies: refused } = await ana.slash('club settings', [{ name: 'volume-unit', value: 'L' }]);
    expect(refused[0]!.text).toContain('An officer has to do that');
    expect((await olu.slash('club settings', [{ name: 'volume-unit', value: 'bathtubs' }])).error).toBeDefined();
    expect((await settings(ana)).replies[0]!.text).toContain('**US gal, °F, dKH, ppt**');
  });

  // A curator may manage messages, but not the server.
  test.each(['ana', 'cora'] as const)('%s, who is no officer, is told kindly and in private', async (name) => {
    const club = await openWithOfficer();
    const { replies } = await settings(club[name], '6');
    expect(replies[0]).toMatchObject({ private: true });
    expect(replies[0]!.text).toContain('An officer has to do that');
    expect((await settings(club.ana)).replies[0]!.text).toContain('**48 hours**');
  });

  test.each(['0', '337', '1.5', 'soon'])('%s is not offered as a number of hours', async (hours) => {
    const { olu } = await openWithOfficer();
    expect((await settings(olu, hours)).error).toContain('"opinion-hours"');
    expect((await settings(olu)).replies[0]!.text).toContain('**48 hours**');
  });

  test.each([
    ['1', '1 hour'],
    ['336', '14 days'],
  ])('%s hours is within what a club may set', async (hours, words) => {
    const { olu } = await openWithOfficer();
    expect((await settings(olu, hours)).replies[0]!.text).toContain(`**${words}**`);
  });

  test('in a direct message there is nothing to set', async () => {
    const { olu } = await openWithOfficer();
    olu.goTo('dm');
    expect((await settings(olu, '6')).replies[0]!.text).toContain('Settings belong to a club');
    olu.goTo('ask');
    expect((await settings(olu)).replies[0]!.text).toContain('**48 hours**');
  });
});

describe('the club’s own time', () => {
  test('is said to the asker and to the voters, and ends the vote, through a restart', async () => {
    const club = await openWithOfficer();
    const { ana, ben, olu } = club;
    await settings(olu, '6');
    expect((await asks(ana)).replies[0]!.text).toContain('After 6 hours');
    expect(ballot(ben).text).toContain('Open for 6 hours, until');
    expect(opening(ben).text).toContain('in 6 hours');
    await club.restart();
    await pass(club, 6 * HOUR_MS - 60_000);
    expect(notices(ana)).toEqual([]);
    await pass(club, 60_000);
    expect(notices(ana)).toHaveLength(1);
  });

  test('counts for cases that are opened from then on: an open one keeps its time, also when it is reopened', async () => {
    const club = await openWithOfficer();
    const { ana, ben, cora, olu } = club;
    await asks(ana);
    await settings(olu, '6');
    await pass(club, 7 * HOUR_MS);
    expect(notices(ana)).toEqual([]);
    expect(ballot(ben).text).toContain('Open for 48 hours');
    await pass(club, 41 * HOUR_MS);
    expect(notices(ana)).toHaveLength(1);
    await cora.press('Reopen');
    expect(ballot(ben).text).toContain('Open for 48 hours');
    await pass(club, 47 * HOUR_MS);
    expect(notices(ana)).toHaveLength(1);
    await pass(club, HOUR_MS);
    expect(notices(ana)).toHaveLength(2);
  });
});
