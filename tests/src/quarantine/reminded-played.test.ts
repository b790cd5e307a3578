import { describe, expect, test } from 'vitest';
import { asRead } from '../../../src/room/as-read.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import type { Actor, SeenMessage } from '../../../src/room/room.ts';
import { openClub } from '../../set-up-club.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
type Club = Awaited<ReturnType<typeof openReefClub>>;

/** Noon in Lisbon. */
async function openReefClub() {
  const club = await openClub({ settleMs: 40, clock: createRoomClock(new Date('2026-11-25T12:00:00Z')) });
  const pass = async (ms: number) => {
    club.room.clock.advance(ms);
    await club.room.quiet(80);
  };
  return { ...club, pass };
}
const ask = (who: Actor, verb: string, given: Readonly<Record<string, string>> = {}) =>
  who.slash(
    `quarantine ${verb}`,
    Object.entries(given).map(([name, value]) => ({ name, value })),
  );
/** The reminders that stand in a member’s direct messages, the first one first. */
const reminders = (who: Actor): SeenMessage[] =>
  who
    .sees()
    .filter(({ private: isAnswer, buttons }) => !isAnswer && buttons.some(({ label }) => label === 'Later'))
    .map((message) => ({ ...message, text: asRead(message.text) }));
async function press(who: Actor, label: string): Promise<string> {
  const { replies, error } = await who.press(label);
  expect(error).toBeUndefined();
  return asRead(replies[0]?.text ?? '');
}
async function begun(club: Club, given: Record<string, string> = {}): Promise<Actor> {
  const ana = club.room.actor('Ana');
  await ask(ana, 'start', { animals: 'two clownfish', plan: 'observation', zone: 'Europe/Lisbon', ...given });
  await press(ana, 'Yes to all: start');
  return ana;
}

describe('a reminder of a quarantine', () => {
  test('comes directly at the chosen time, once, through a restart, and its buttons work there', async () => {
    const club = await openReefClub();
    const ana = await begun(club, { tank: 'the spare tank' });
    await club.pass(DAY_MS + 6 * HOUR_MS);
    const before = reminders(ana).length;
    await club.pass(HOUR_MS);
    await club.restart();
    await club.pass(HOUR_MS / 2);
    expect(reminders(ana)).toHaveLength(before + 1);
    const last = reminders(ana).at(-1)!;
    expect(last.channelName).not.toBe('ask');
    expect(last.text).toContain('two clownfish, the spare tank: the look of the day');
    expect(last.text).toContain('Check in');
    expect(await press(ana, 'All well')).not.toContain('Check in (');
    await club.pass(HOUR_MS);
    expect(reminders(ana).length).toBeLessThanOrEqual(before + 1);
  });

  test('is put off to tomorrow or to a time in a form, and a time that is over is refused', async () => {
    const club = await openReefClub();
    const ana = await begun(club);
    await club.pass(DAY_MS + 7 * HOUR_MS);
    const before = reminders(ana).length;
    expect(await press(ana, 'Later')).toContain('remind you when?');
    await ana.press('Pick a time');
    const bad = await ana.fill({ 'On which day?': 'today', 'At what time?': '9:15' });
    expect(asRead(bad.replies[0]!.text)).toContain('That is over');
    await press(ana, 'Later');
    expect(await press(ana, 'In 1 hour')).toContain('I remind you');
    await club.pass(HOUR_MS / 2);
    expect(reminders(ana)).toHaveLength(before);
    await club.pass(HOUR_MS / 2 + 60_000);
    expect(reminders(ana)).toHaveLength(before + 1);
  });

  test('nobody else may answer it, but whoever was asked to help may', async () => {
    const club = await openReefClub();
    await begun(club, { helper: '@Bo' });
    const [bo, cleo] = [club.room.actor('Bo'), club.room.actor('Cleo')];
    await club.pass(DAY_MS);
    expect(asRead((await ask(cleo, 'today')).replies[0]!.text)).toContain('You have none running');
    expect(asRead((await ask(bo, 'today')).replies[0]!.text)).toContain('two clownfish');
    expect(await press(bo, 'All well')).toContain('two clownfish');
  });

  test('of one that is over comes no more', async () => {
    const club = await openReefClub();
    const ana = await begun(club);
    await ask(ana, 'finish');
    await press(ana, 'Call it off');
    await club.pass(3 * DAY_MS);
    expect(reminders(ana)).toEqual([]);
  });
});
