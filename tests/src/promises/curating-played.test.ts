import { describe, expect, test } from 'vitest';
import { GUILD } from '../../../src/room/members.ts';
import { ask, DAY_MS, openSwapClub, press, read, told } from './promise-room.ts';

async function opened() {
  const club = await openSwapClub();
  const [nell, uma, bo] = [club.room.actor('Nell'), club.room.actor('Uma'), club.room.actor('Bo')];
  const cora = club.room.actor('Cora', { name: 'Cora', roles: ['curator'] });
  return { ...club, nell, uma, bo, cora };
}
const curate = (who: Parameters<typeof ask>[0], given: Record<string, string>) =>
  ask(who, 'curate', { reason: 'so that it is found', ...given });

describe('curators', () => {
  test('settle what was reported: the reporter is thanked once, the keeper told once, and undo puts it back', async () => {
    const club = await opened();
    const { nell, uma, bo, cora } = club;
    const zoas = await club.offer(nell, 1);
    await press(uma, 'I’d like one');
    await press(bo, 'Put me in line');
    expect((await bo.press('Report')).modal?.inputs.map(({ label }) => label)).toEqual(['What is wrong?']);
    expect(read((await bo.fill({ 'What is wrong?': 'The photo shows Palythoa' })).replies)).toContain('Thank you');
    await ask(bo, 'report', { offer: String(zoas.id), what: 'and aiptasia' });
    const list = await ask(cora, 'reports');
    expect(list).toContain('Open reports: 1');
    expect(list).toContain('@Bo: “The photo shows Palythoa\nand aiptasia”');
    await cora.choose('Open one of them', ['Report 1: Red zoas']);
    expect((await cora.press('Take it down')).modal?.inputs[0]?.required).toBe(true);
    expect(read((await cora.fill({ 'The reason': 'Palythoa: say so first' })).replies)).toContain('It is taken down');
    await club.restart();
    await club.pass(DAY_MS);
    expect(told(nell, 'Their reason: “Palythoa: say so first”')).toHaveLength(1);
    expect(told(bo, 'Your report was looked at')).toHaveLength(1);
    expect(told(nell, 'Your report was looked at')).toEqual([]);
    expect(told(uma, 'This offer was taken down')).toHaveLength(1);
    expect(await ask(uma, 'promise', { offer: String(zoas.id), do: 'release' })).toContain('No harm done');
    // Nothing moves on while it is down; with the undo it does.
    expect(club.statesOf(zoas)).toEqual(['Uma released', 'Bo queued']);
    expect(await ask(cora, 'reports')).toContain('No open reports');
    expect(await curate(cora, { offer: String(zoas.id), act: 'undo' })).toContain('It is as before');
    await club.pass(60_000);
    expect(club.statesOf(zoas)).toEqual(['Uma released', 'Bo promised']);
    expect(told(bo, 'it is your turn')).toHaveLength(1);
    expect(told(nell, 'was taken back')).toHaveLength(1);
  });

  test('join two offers of one member with every promise and place, and take it back exactly', async () => {
    const club = await opened();
    const { nell, uma, bo, cora } = club;
    const one = await club.offer(nell, 1);
    await press(uma, 'I’d like one');
    await press(bo, 'Put me in line');
    const two = await club.offer(nell, 2, { name: 'Zoas, red' });
    await ask(bo, 'promise', { offer: String(two.id) });
    const before = [one, two].map(({ id }) => ({
      offer: club.offers.find(id, GUILD.id),
      states: club.statesOf({ ...one, id }),
    }));
    expect(await curate(cora, { offer: String(one.id), act: 'merge', into: String(two.id) })).toContain(
      'They are joined',
    );
    expect(club.offers.find(two.id, GUILD.id)).toMatchObject({ pieces: 3, left: 1, state: 'open' });
    // Bo stood in both: the promise stays, the waiting place goes.
    expect(club.statesOf(two)).toEqual(['Uma promised', 'Bo released', 'Bo promised']);
    expect(club.statesOf(one)).toEqual([]);
    expect(await curate(cora, { offer: String(one.id), act: 'show' })).toContain('It was joined with another offer');
    expect(await press(cora, 'Undo')).toContain('It is as before');
    expect(
      [one, two].map(({ id }) => ({ offer: club.offers.find(id, GUILD.id), states: club.statesOf({ ...one, id }) })),
    ).toEqual(before);
    expect(await curate(cora, { offer: String(one.id), act: 'undo' })).toContain('nothing of a curator to take back');
  });

  test('set the coral and the words, with a reason; members cannot, nor a curator on their own offer', async () => {
    const club = await opened();
    const { nell, uma, cora } = club;
    const zoas = await club.offer(nell, 1, { name: 'red ones' });
    const offer = String(zoas.id);
    expect(await curate(cora, { offer, act: 'map', coral: 'zoas' })).toContain('Its coral is set');
    expect(await curate(cora, { offer, act: 'edit', name: 'Red zoas' })).toContain('Its words are changed');
    expect(club.offers.find(zoas.id, GUILD.id)?.details).toMatchObject({ coral: 'zoanthus', name: 'Red zoas' });
    expect(await curate(cora, { offer, act: 'edit' })).toContain('Which words?');
    expect(await curate(cora, { offer, act: 'map', coral: 'blob' })).toContain('Which coral?');
    expect(await curate(uma, { offer, act: 'hide' })).toContain('For curators');
    expect(await ask(uma, 'reports', { report: '1', settle: 'fine' })).toContain('For curators');
    const own = await club.offer(cora, 1);
    expect(await curate(cora, { offer: String(own.id), act: 'hide' })).toContain('another curator decides');
    // Something came between: undo would not be exact, so it changes nothing.
    const now = club.room.clock.now();
    club.offers.save({ ...club.offers.find(zoas.id, GUILD.id)!, pieces: 2 }, now);
    expect(await curate(cora, { offer, act: 'undo' })).toContain('Too much has changed');
    const reasons = club.db.prepare(`SELECT what, reason FROM swap_acts WHERE by_id = ? ORDER BY id`).raw();
    expect(reasons.all(club.idOf(cora))).toEqual([
      ['curator-map', 'so that it is found'],
      ['curator-edit', 'so that it is found'],
    ]);
  });
});
