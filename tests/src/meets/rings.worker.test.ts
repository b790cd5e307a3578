import fc from 'fast-check';
import { describe, expect, onTestFinished, test } from 'vitest';
import { openDatabase, openTemporaryDatabase } from '../../../src/database/open.ts';
import { nightOf } from '../../../src/meets/ring-planner.worker.ts';
import { membersOf, type SwapRing } from '../../../src/meets/ring.ts';
import { dataFolder } from '../database/folder.ts';
import { GUILD, later, ringOf, swapClub, type SwapClub } from './swap-club.ts';

const FOUR = ['nell', 'bo', 'uma', 'olu'];
/** The first night after the offers were made. */
const NIGHT = new Date('2026-12-02T03:00:10Z');
/** When those who were asked in it hear of it. */
const MORNING = new Date('2026-12-02T08:00:00Z');

function opened(): SwapClub {
  const { db, close } = openTemporaryDatabase();
  onTestFinished(() => close());
  return swapClub(db);
}
async function planned(club: SwapClub, now = NIGHT): Promise<SwapRing[]> {
  club.planner.planDue(now);
  await club.planner.settled();
  return club.work.open(GUILD);
}
const say = (club: SwapClub, { id }: SwapRing, who: string, said: 'yes' | 'no', now = NIGHT) =>
  club.work.answer(GUILD, id, who, said, now).kind;
const held = (club: SwapClub) => club.promises.live(GUILD).filter(({ state }) => state === 'promised').length;
const first = ([ring]: readonly SwapRing[]): SwapRing => {
  if (!ring) throw new Error('no ring');
  return ring;
};

describe('the plan of a night', () => {
  test('puts a ring to its members once, holds every piece, and plans no second time that day', async () => {
    const club = opened();
    ringOf(club, FOUR);
    const rings = await planned(club);
    expect(rings.map(({ arcs }) => arcs.length)).toEqual([4]);
    expect(held(club)).toBe(4);
    expect(club.told().sort()).toEqual(FOUR.map((who) => `${who}: A swap in a ring of four`).sort());
    const before = club.told();
    expect(await planned(club, later(0.2, NIGHT))).toEqual(rings);
    expect(await planned(club, later(1, NIGHT))).toEqual(rings);
    expect(club.told()).toEqual(before);
  });

  test('waits for the night when the first offers come by day', async () => {
    const club = opened();
    ringOf(club, FOUR);
    expect(await planned(club, later(0.3))).toEqual([]);
    expect(await planned(club, new Date('2026-12-02T02:59:00Z'))).toEqual([]);
    expect(await planned(club)).toHaveLength(1);
  });

  test('belongs to the date from three in the morning on', () => {
    expect(nightOf(new Date('2026-12-02T02:59:59Z'))).toBe('2026-12-01');
    expect(nightOf(new Date('2026-12-02T03:00:00Z'))).toBe('2026-12-02');
  });

  test('that broke off is made good after a restart, and nothing comes twice', async () => {
    const folder = dataFolder();
    const before = openDatabase(folder);
    const club = swapClub(before.db);
    ringOf(club, FOUR);
    club.planner.planDue(NIGHT);
    // The plan is being worked out; the program ends before anything came of it.
    before.close();
    await club.planner.settled();
    const after = openDatabase(folder);
    onTestFinished(() => after.close());
    const again = swapClub(after.db);
    expect(again.work.open(GUILD)).toEqual([]);
    expect(await planned(again, later(0.1, NIGHT))).toHaveLength(1);
    expect(again.told()).toHaveLength(4);
    const third = swapClub(after.db);
    expect(await planned(third, later(0.2, NIGHT))).toHaveLength(1);
    expect(third.told()).toHaveLength(4);
  });

  test('proposes nothing that went while it was worked out', async () => {
    const club = opened();
    ringOf(club, FOUR);
    club.planner.planDue(NIGHT);
    const offer = club.offers.own(GUILD, 'uma')[0];
    if (offer) club.promises.promise(offer, 'tom', NIGHT);
    await club.planner.settled();
    expect(club.work.open(GUILD)).toEqual([]);
    expect(held(club)).toBe(1);
    expect(club.told()).toEqual([]);
  });

  test('brings nobody into one ring with a member whom they blocked, wherever in it they stand', async () => {
    const club = opened();
    ringOf(club, FOUR);
    // Nell and Uma stand across from each other; without Uma there is a ring of three.
    club.want('olu', 'bo zoanthid');
    club.promises.blocks.block(GUILD, 'nell', 'uma', NIGHT);
    expect((await planned(club)).map((ring) => membersOf(ring).sort())).toEqual([['bo', 'nell', 'olu']]);
  });

  test('counts who was left out, and forgets it once they are served', async () => {
    const club = opened();
    ringOf(club, FOUR);
    club.want('tom', 'nell torch');
    const ring = first(await planned(club));
    expect([...club.rings.leftOut(GUILD)]).toEqual([['tom', 1]]);
    club.rings.leaveOut(GUILD, 'bo');
    FOUR.forEach((who) => say(club, ring, who, 'yes'));
    expect([...club.rings.leftOut(GUILD)]).toEqual([['tom', 1]]);
  });
});

describe('a proposed ring', () => {
  test('is agreed by the last yes; the promises stay, and all hear whom to meet', async () => {
    const club = opened();
    ringOf(club, FOUR);
    const ring = first(await planned(club));
    expect(FOUR.map((who) => say(club, ring, who, 'yes'))).toEqual(['waits', 'waits', 'waits', 'agreed']);
    expect(club.work.find(ring.id, GUILD)?.state).toBe('agreed');
    expect(held(club)).toBe(4);
    expect(club.told().filter((line) => line.endsWith('All four said yes'))).toHaveLength(4);
    // Long after its time for answers it is still agreed.
    club.work.keepUp(later(5, NIGHT));
    expect(club.work.find(ring.id, GUILD)?.state).toBe('agreed');
  });

  test('is done when every piece changed hands', async () => {
    const club = opened();
    ringOf(club, FOUR);
    const ring = first(await planned(club));
    FOUR.forEach((who) => say(club, ring, who, 'yes'));
    for (const { id, giverId, takerId } of club.promises.live(GUILD)) {
      club.work.keepUp(NIGHT);
      expect(club.work.find(ring.id, GUILD)?.state).toBe('agreed');
      club.promises.act(id, 'hand-over', giverId, NIGHT);
      club.promises.act(id, 'receive', takerId, NIGHT);
    }
    club.work.keepUp(NIGHT);
    club.work.keepUp(NIGHT);
    expect(club.work.find(ring.id, GUILD)?.state).toBe('done');
    expect(club.told().filter((line) => line.endsWith('The ring is closed'))).toHaveLength(4);
  });

  test.each<[string, (club: SwapClub, ring: SwapRing) => void]>([
    ['a no', (club, ring) => void say(club, ring, 'uma', 'no')],
    ['a no after three times yes', (club, ring) => {
        for (const who of ['nell', 'bo', 'olu']) say(club, ring, who, 'yes');
        say(club, ring, 'uma', 'no');
      }], // prettier-ignore
    ['a block between two in it', (club) => void club.promises.blocks.block(GUILD, 'nell', 'uma', NIGHT)],
    ['silence', (club) => club.work.keepUp(later(2.25, NIGHT))],
    ['a piece that is let go', (club) => {
        const [promise] = club.promises.live(GUILD);
        if (promise) club.promises.release(promise, promise.giverId, null, NIGHT);
        club.work.keepUp(NIGHT);
      }], // prettier-ignore
  ])('comes apart by %s and leaves everything as it was, and all hear it once', async (_how, end) => {
    const club = opened();
    ringOf(club, FOUR);
    const before = club.pieces();
    const ring = first(await planned(club));
    expect(club.pieces()).not.toEqual(before);
    club.deliver(MORNING);
    end(club, ring);
    club.work.keepUp(later(2.3, NIGHT));
    expect(club.pieces()).toEqual(before);
    expect(club.work.find(ring.id, GUILD)?.state).toBe('dissolved');
    const off = club.told(later(3, NIGHT)).filter((line) => line.endsWith('No swap this time'));
    // Who said no has had their answer.
    const others = FOUR.filter((who) => club.work.find(ring.id, GUILD)?.answers[who]?.said !== 'no');
    expect(others.length).toBeGreaterThanOrEqual(3);
    expect(off.sort()).toEqual(others.map((who) => `${who}: No swap this time`).sort());
  });

  test('wakes nobody: it is asked in the morning, and may be answered for two days from then', async () => {
    const club = opened();
    ringOf(club, FOUR);
    const ring = first(await planned(club));
    expect(club.told(new Date(MORNING.getTime() - 1))).toEqual([]);
    expect(club.told(MORNING)).toHaveLength(4);
    expect(ring.until).toEqual(later(2, MORNING));
  });

  test('that comes apart before anybody was asked is told to nobody', async () => {
    const club = opened();
    ringOf(club, FOUR);
    const ring = first(await planned(club));
    say(club, ring, 'uma', 'no');
    expect(club.told()).toEqual([]);
  });

  test('gives the piece to the first in the queue when it comes apart', async () => {
    const club = opened();
    ringOf(club, FOUR);
    const ring = first(await planned(club));
    const offer = club.offers.own(GUILD, 'nell')[0];
    if (!offer) throw new Error('no offer');
    expect(club.promises.promise(offer, 'tom', NIGHT).kind).toBe('queued');
    expect(club.promises.promise(offer, 'ida', NIGHT).kind).toBe('queued');
    say(club, ring, 'uma', 'no');
    const of = club.promises.of(offer).map(({ takerId, state }) => `${takerId} ${state}`);
    expect(of).toEqual(['bo released', 'tom promised', 'ida queued']);
  });

  test('one that was agreed and loses a piece tells all, and the other promises stand', async () => {
    const club = opened();
    ringOf(club, FOUR);
    const ring = first(await planned(club));
    FOUR.forEach((who) => say(club, ring, who, 'yes'));
    const [promise] = club.promises.live(GUILD);
    if (promise) club.promises.release(promise, promise.giverId, 'it died', NIGHT);
    club.work.keepUp(NIGHT);
    club.work.keepUp(NIGHT);
    expect(held(club)).toBe(3);
    expect(club.told().filter((line) => line.endsWith('A piece of your ring fell through'))).toHaveLength(4);
  });
});

describe('the next best', () => {
  test('is put to its members after a no, without what was refused', async () => {
    const club = opened();
    ringOf(club, FOUR);
    // Without Uma there is a ring of three: Olu also likes what Bo has.
    club.want('olu', 'bo zoanthid');
    const ring = first(await planned(club));
    say(club, ring, 'uma', 'no');
    club.planner.startAll(NIGHT);
    await club.planner.settled();
    const next = club.work.open(GUILD);
    expect(next.map((each) => membersOf(each).sort())).toEqual([['bo', 'nell', 'olu']]);
    expect(held(club)).toBe(3);
  });

  test('never repeats a piece that was refused, and never promises more than there is', async () => {
    const corals = ['torch', 'xenia', 'zoanthid', 'toadstool'];
    const members = ['nell', 'bo', 'uma', 'olu', 'tom', 'ida'];
    const wish = fc.record({ who: fc.constantFrom(...members), coral: fc.constantFrom(...corals) });
    const say = fc.record({ pick: fc.nat(30), said: fc.constantFrom('yes' as const, 'yes' as const, 'no' as const) });
    await fc.assert(
      fc.asyncProperty(
        fc.array(wish, { minLength: 3, maxLength: 8 }),
        fc.array(wish, { minLength: 4, maxLength: 10 }),
        fc.array(say, { maxLength: 14 }),
        async (offers, wants, answers) => {
          const { db, close } = openTemporaryDatabase();
          const club = swapClub(db);
          offers.forEach(({ who, coral }) => club.offer(who, coral));
          wants.forEach(({ who, coral }) => club.want(who, coral));
          const refused = new Set<string>();
          await planned(club);
          for (const { pick, said } of answers) {
            const open = club.work.open(GUILD).filter(({ state }) => state === 'proposed');
            const asked = open.flatMap((ring) => membersOf(ring).map((who) => ({ ring, who })));
            const chosen = asked[pick % Math.max(1, asked.length)];
            if (!chosen) break;
            const result = club.work.answer(GUILD, chosen.ring.id, chosen.who, said, NIGHT);
            if (result.kind === 'dissolved')
              for (const { offerId, from, to } of chosen.ring.arcs)
                if (from === chosen.who || to === chosen.who) refused.add(`${offerId}/${to}`);
            club.planner.startAll(NIGHT);
            await club.planner.settled();
            for (const { id, arcs } of club.work.open(GUILD).filter(({ state }) => state === 'proposed'))
              if (id > chosen.ring.id)
                expect(arcs.filter(({ offerId, to }) => refused.has(`${offerId}/${to}`))).toEqual([]);
            const live = club.promises.live(GUILD).filter(({ state }) => state === 'promised');
            expect(new Set(live.map(({ offerId }) => offerId)).size).toBe(live.length);
            // What is held belongs to a ring that waits or is agreed, whole.
            const pieces = club.work.open(GUILD).flatMap(({ arcs }) => arcs);
            expect(live.length).toBe(pieces.length);
          }
          close();
        },
      ),
      { numRuns: 40 },
    );
  });
});
