import { describe, expect, test } from 'vitest';
import type { Actor, SeenMessage } from '../../../src/room/room.ts';
import { asRead } from '../../../src/room/as-read.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import { openClub, titleOf } from '../../set-up-club.ts';

const DAY_MS = 86_400_000;
const given = (options: Readonly<Record<string, string>>) =>
  Object.entries(options).map(([name, value]) => ({ name, value }));
const dose = async (who: Actor, what: string, options: Readonly<Record<string, string>>): Promise<SeenMessage> => {
  const { replies, error } = await who.slash(`dose ${what}`, given(options));
  expect(error).toBeUndefined();
  expect(replies).toHaveLength(1);
  return asReaders(replies[0]!);
};
/** The text as it is seen, without the marks of Markdown. */
const asReaders = (message: SeenMessage): SeenMessage => ({ ...message, text: asRead(message.text) });

describe('a dose for oneself', () => {
  // W-1 of the worked cases: 200 L, 7.0 to 8.5 dKH, NaHCO3: 8.99 g.
  test('says the amount first, the days, the sum and the doubt, in private', async () => {
    const { room } = await openClub();
    const reply = await dose(room.actor('Ana'), 'alkalinity', { now: '7', target: '8.5', volume: '200 L' });
    expect(reply.private).toBe(true);
    expect(titleOf(reply)).toBe('9.0 g sodium bicarbonate, over 2 days');
    for (const part of [
      '4.5 g a day',
      'day 1 → 7.8 dKH, day 2 → 8.5 dKH',
      '1.5 dKH × 0.3567 × 200 L = 107 meq',
      '107 meq ÷ 11.90 meq a gram = 9.0 g',
      'sodium +12.3 mg/L',
      'Never together with calcium',
      'Magnesium comes first',
      'not an instruction',
    ])
      expect(reply.text).toContain(part);
  });

  // W-13: 120 L, 120 to 150 ppm CaCO3, purity 99 %: 6.10 g.
  test('takes other units and a purity', async () => {
    const { room } = await openClub();
    const reply = await dose(room.actor('Ana'), 'alkalinity', {
      now: '120 ppm',
      target: '150 ppm',
      volume: '120 L',
      purity: '99 %',
    });
    expect(titleOf(reply)).toBe('6.1 g sodium bicarbonate, over 2 days');
  });

  // W-22: a stock of 60 g/L, 100 L, 7.0 to 7.5 dKH: 25.0 mL.
  test('pours from a stock, and refuses one that does not dissolve', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    const options = { now: '7', target: '7.5', volume: '100 L' };
    expect(titleOf(await dose(ana, 'alkalinity', { ...options, stock: '60 g/L' }))).toBe(
      '25 mL of your sodium bicarbonate stock',
    );
    const refused = await dose(ana, 'alkalinity', { ...options, stock: '200 g/L' });
    expect(titleOf(refused)).toBe('That stock cannot be made');
    expect(refused.text).toMatch(/about 87 g\/L at 20\.0 °C/);
  });

  test.each([
    ['a target below the start', { now: '9', target: '8', volume: '80 gal' }, 'No dose brings alkalinity down'],
    ['a target that is there', { now: '8', target: '8', volume: '80 gal' }, 'Nothing to add'],
    ['no volume', { now: '8' }, 'How much water?'],
    ['a negative value', { now: '-3', volume: '80 gal' }, 'I couldn’t use that'],
    ['an absurd target', { now: '7', target: '500', volume: '80 gal' }, 'I couldn’t use that'],
    ['a kit unit that does not exist', { now: '7 zorps', volume: '80 gal' }, 'I couldn’t use that'],
    ['another quantity', { now: '7 dkh', volume: '80 F' }, 'I couldn’t use that'],
    ['two volumes', { now: '7 dkh', volume: '80 gal 20 L' }, 'I couldn’t use that'],
    ['no water at all', { now: '7 dkh', volume: '0 L' }, 'I couldn’t use that'],
    ['salinity of a salt lake', { now: '7 dkh', volume: '80 L', salinity: '80 ppt' }, 'I couldn’t use that'],
    ['2,000 characters', { now: 'a'.repeat(2000), volume: '80 gal' }, 'I couldn’t use that'],
    ['a mixture nobody knows', { now: '7', volume: '80 gal', reagent: 'magic drops' }, 'I don’t know that reagent'],
  ])('%s gets a kind private answer', async (_what, options, title) => {
    const { room } = await openClub();
    const reply = await dose(room.actor('Ana'), 'alkalinity', options);
    expect(reply.private).toBe(true);
    expect(titleOf(reply)).toBe(title);
    expect(reply.text.length).toBeLessThan(1500);
  });

  // 380 mg/L at 30 ppt is 443 at 35: enough, although it looks low.
  test('thin water comes before what only looks low in it', async () => {
    const { room } = await openClub();
    const reply = await dose(room.actor('Ana'), 'potassium', { now: '380', volume: '300 L', salinity: '30 ppt' });
    expect(reply.text.split('\n')[1]).toBe(
      'Put salinity right before you dose. It is 30 ppt, and potassium moves with it: at 35 ppt your 380 mg/L would be about 443 mg/L. Test again then.',
    );
    const right = await dose(room.actor('Ana'), 'potassium', { now: '380', volume: '300 L', salinity: '35 ppt' });
    expect(right.text).not.toContain('Put salinity right');
  });

  test('a direct message is answered without what needs a club', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    ana.goTo('dm');
    const reply = await dose(ana, 'calcium', { now: '380', target: '430', volume: '300 L' });
    expect(titleOf(reply)).toBe('55 g calcium chloride dihydrate, over 3 days');
    expect(reply.buttons.map(({ label }) => label)).toEqual(['First aid']);
  });
});

describe('a dose for somebody else', () => {
  const asked = { now: '7', target: '8.5', volume: '200 L', for: '@Uma' };

  test('everybody sees it, she is called once, a third person checks it', async () => {
    const club = await openClub();
    const { room } = club;
    const [ben, uma, cleo] = [room.actor('Ben'), room.actor('Uma'), room.actor('Cleo')];
    const reply = await dose(ben, 'alkalinity', asked);
    expect(reply.private).toBe(false);
    expect(reply.text).toContain('For @Uma’s tank.');
    const pings = () =>
      room.world.pings.filter(({ memberIds }) => memberIds.includes(room.world.members.named('Uma')!.id));
    expect(pings()).toHaveLength(1);

    for (const who of [ben, uma]) {
      const { replies } = await who.press('Check this');
      expect(replies[0]!.text).toContain('A check needs a fresh pair of eyes');
    }
    await cleo.press('Check this');
    const { replies, error } = await cleo.fill({
      'Done by hand, is it right?': 'Something is off',
      'What should they know?': 'That tank holds 150 L at most',
    });
    expect(error).toBeUndefined();
    expect(asRead(replies[0]!.text)).toContain('Stop: @Cleo says that something is off');
    expect(replies[0]!.text).toContain('That tank holds 150 L at most');
    expect(replies[0]!.edited).toBe(true);
    expect(pings()).toHaveLength(1);
    await club.restart();
    expect((await room.actor('Dee').press('Check this')).error).toContain('there is no button');
  });

  test('a bot has no tank, and a stranger’s tank is not guessed', async () => {
    const { room } = await openClub();
    const ben = room.actor('Ben');
    room.actor('Uma');
    const reply = await dose(ben, 'alkalinity', { now: asked.now, for: asked.for });
    expect(reply.private).toBe(true);
    expect(titleOf(reply)).toBe('Uma shares no tank');
  });
});

describe('reminders of a dose', () => {
  async function begun(club: Awaited<ReturnType<typeof openClub>>, name = 'Ana') {
    const who = club.room.actor(name);
    await dose(who, 'calcium', { now: '380', target: '430', volume: '300 L' });
    await who.press('Remind me daily');
    const { replies } = await who.fill({ 'At what time of day?': '7 pm', 'Your time zone': 'Europe/Lisbon' });
    expect(titleOf(replies[0]!)).toBe('I will remind you');
    return who;
  }
  const reminders = (who: Actor) =>
    who
      .sees()
      .map(asReaders)
      .filter(({ text }) => /^Dose \d of \d:/.test(text));
  const pass = async ({ room }: Awaited<ReturnType<typeof openClub>>, ms: number) => {
    room.clock.advance(ms);
    await room.quiet(80);
  };

  test('come once a day in a direct message, through restarts, until all doses are in', async () => {
    const club = await openClub({ settleMs: 40, clock: createRoomClock(new Date('2026-11-25T12:00:00Z')) });
    const ana = await begun(club);
    for (let day = 1; day <= 3; day += 1) {
      // From noon to eight in the evening, then from evening to evening.
      await pass(club, day === 1 ? DAY_MS / 3 : DAY_MS);
      await club.restart();
      await pass(club, 0);
      expect(reminders(ana)).toHaveLength(1);
      expect(reminders(ana)[0]!.text).toContain(`Dose ${day} of 3: 18.3 g`);
      const { replies } = await ana.press('Done');
      expect(replies[0]!.text).toContain(day < 3 ? `Dose ${day} of 3 is in` : 'All 3 doses are in');
    }
    await pass(club, 5 * DAY_MS);
    expect(reminders(ana)).toEqual([]);
  });

  test('fall back to the channel, calling the member, where direct messages are closed', async () => {
    const club = await openClub({ settleMs: 40 });
    club.room.actor('Ana', { name: 'Ana', dmClosed: true });
    const ana = await begun(club);
    await pass(club, DAY_MS);
    const [reminder] = reminders(ana);
    expect(reminder).toMatchObject({ channelName: 'ask', private: false });
    expect(reminder!.text).toContain('@Ana');
    expect((await club.room.actor('Ben').press('Done')).replies[0]!.text).toContain('not your reminders');
  });

  test('a zone or a time that does not exist is asked for again', async () => {
    const club = await openClub();
    const ana = club.room.actor('Ana');
    await dose(ana, 'calcium', { now: '380', target: '430', volume: '300 L' });
    for (const [time, zone, words] of [
      ['25 o’clock', 'Europe/Lisbon', 'could not read the time'],
      ['19:00', 'Atlantis', 'no time zone'],
      ['19:00', '+02:00', 'no time zone'],
    ] as const) {
      await ana.press('Remind me daily');
      const { replies } = await ana.fill({ 'At what time of day?': time, 'Your time zone': zone });
      expect(replies[0]!.text).toContain(words);
    }
  });
});
