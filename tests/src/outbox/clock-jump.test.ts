import { describe, expect, onTestFinished, test, vi } from 'vitest';
import { startBot } from '../../../src/bot.ts';
import { createAbilities } from '../../../src/commands.ts';
import { openDatabase } from '../../../src/database/open.ts';
import { openRoom } from '../../../src/room/open-room.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import { keptLog, knowledge, WARN } from '../../set-up-club.ts';
import { temporaryFolder } from '../../set-up-program.ts';
import { asks, HOUR_MS, notices, openCaseClub, pass, pingsOf } from '../opinions/club.ts';
import { after, newMessage, NOON } from './messages.ts';

const DAY_MS = 24 * HOUR_MS;

/** A room and a bot with a clock each, on one database that outlives the bot. */
async function setUp() {
  const folder = temporaryFolder();
  const discords = createRoomClock(NOON);
  const ours = createRoomClock(NOON);
  const room = await openRoom({ contract: 'strict', settleMs: 15, clock: discords });
  const { log, lines } = keptLog();
  const fired: Date[] = [];
  const start = async () => {
    const { db, close } = openDatabase(folder);
    const abilities = createAbilities(knowledge(), { db });
    const bot = await startBot({
      token: 'practice',
      apiUrl: room.apiUrl,
      mentions: true,
      scope: { kind: 'global' },
      onlyGuilds: [],
      abilities: {
        ...abilities,
        fireDue: (now) => {
          fired.push(now);
          abilities.fireDue(now);
        },
      },
      clock: ours,
      busy: room.busy,
      log,
    });
    return {
      add: (key: string, dueAt: Date) =>
        abilities.outbox.outbox.add(
          newMessage({ key, dueAt, channelId: room.world.mainChannel().id, memberId: null, topic: key }),
        ),
      stop: async () => {
        await bot.stop();
        close();
      },
    };
  };
  let running = await start();
  onTestFinished(async () => {
    await running.stop();
    await room.close();
    expect(room.contract.breaches()).toEqual([]);
  });
  await room.quiet();
  return {
    room,
    ours,
    discords,
    fired,
    lines,
    add: (key: string, dueAt: Date) => running.add(key, dueAt),
    restart: async (meanwhile: () => void) => {
      await running.stop();
      meanwhile();
      running = await start();
      await room.quiet();
    },
    posts: () =>
      room.requests.all().filter(({ method, path }) => method === 'POST' && /^\/channels\/\d+\/messages$/.test(path))
        .length,
    checks: () => room.requests.all().filter(({ path }) => path === '/gateway').length,
    doubts: () => lines.filter(({ level, msg }) => level === WARN && msg.includes('after the last turn')),
  };
}

describe('a clock three days ahead', () => {
  test('that Discord confirms: what became due goes out at once, and once', async () => {
    const { room, ours, discords, add, posts, checks, doubts } = await setUp();
    add('chore', after(DAY_MS));
    discords.advance(3 * DAY_MS);
    ours.advance(3 * DAY_MS);
    await room.quiet();
    expect(posts()).toBe(1);
    expect(checks()).toBe(1);
    expect(doubts()).toEqual([]);
    ours.advance(60_000);
    await room.quiet();
    expect(posts()).toBe(1);
    expect(checks()).toBe(1);
  });

  test('that Discord does not confirm: nothing fires or is sent until it does', async () => {
    const { room, ours, discords, add, posts, fired, doubts } = await setUp();
    add('chore', after(DAY_MS));
    const firedBefore = fired.length;
    ours.advance(3 * DAY_MS);
    await vi.waitFor(() => expect(doubts()).toHaveLength(1));
    await room.quiet();
    expect(doubts()[0]!.msg).toMatch(/says 2026-11-28T12:.*Discord's clock says 2026-11-25T12:.*Set the clock/);
    ours.advance(4_000);
    await room.quiet();
    expect(doubts()).toHaveLength(1);
    ours.advance(6_000);
    await vi.waitFor(() => expect(doubts()).toHaveLength(2));
    expect(posts()).toBe(0);
    expect(fired).toHaveLength(firedBefore);
    discords.advance(3 * DAY_MS);
    ours.advance(60_000);
    await vi.waitFor(() => expect(posts()).toBe(1));
    expect(fired.length).toBeGreaterThan(firedBefore);
    ours.advance(60_000);
    await room.quiet();
    expect(posts()).toBe(1);
  });

  test('that is set right again: what is not due by the true time stays, and its time comes once', async () => {
    const { room, ours, discords, add, posts, doubts } = await setUp();
    add('chore', after(DAY_MS));
    ours.advance(3 * DAY_MS);
    await vi.waitFor(() => expect(doubts()).toHaveLength(1));
    ours.set(after(60_000));
    await room.quiet();
    expect(posts()).toBe(0);
    add('now', after(0));
    ours.advance(1_000);
    await vi.waitFor(() => expect(posts()).toBe(1));
    discords.advance(DAY_MS);
    ours.advance(DAY_MS);
    await vi.waitFor(() => expect(posts()).toBe(2));
  });

  test('that nobody can confirm is held, and a refusal tells the time as well as an answer', async () => {
    const { room, ours, discords, add, posts, doubts } = await setUp();
    add('chore', after(DAY_MS));
    room.faults.add({ match: /GET \/gateway$/, kind: 'hang-up', when: 'before-commit', times: 1 });
    room.faults.add({ match: /GET \/gateway$/, kind: 'server-error', when: 'before-commit', times: 1 });
    discords.advance(3 * DAY_MS);
    ours.advance(3 * DAY_MS);
    await vi.waitFor(() => expect(doubts()).toHaveLength(1));
    expect(doubts()[0]!.msg).toContain('did not say its time');
    expect(posts()).toBe(0);
    ours.advance(10_000);
    await vi.waitFor(() => expect(posts()).toBe(1));
    expect(room.faults.left()).toEqual([]);
  });
});

describe('an outage of two days', () => {
  test('is a restart like any other when the clock is right', async () => {
    const { ours, discords, add, posts, checks, doubts, restart } = await setUp();
    add('chore', after(HOUR_MS));
    await restart(() => {
      discords.advance(2 * DAY_MS);
      ours.advance(2 * DAY_MS);
    });
    await vi.waitFor(() => expect(posts()).toBe(1));
    expect(checks()).toBe(1);
    expect(doubts()).toEqual([]);
    await restart(() => undefined);
    expect(posts()).toBe(1);
    expect(checks()).toBe(1);
  });

  test('that only the clock believes in is held over further restarts', async () => {
    const { ours, discords, add, posts, doubts, restart } = await setUp();
    add('chore', after(HOUR_MS));
    await restart(() => ours.advance(2 * DAY_MS));
    await vi.waitFor(() => expect(doubts()).toHaveLength(1));
    await restart(() => ours.advance(60_000));
    await vi.waitFor(() => expect(doubts()).toHaveLength(2));
    expect(posts()).toBe(0);
    await restart(() => discords.advance(2 * DAY_MS));
    await vi.waitFor(() => expect(posts()).toBe(1));
  });
});

test('a clock that goes back fires nothing again, and neither does the same time when it comes again', async () => {
  const club = await openCaseClub();
  const { ana, ben, room } = club;
  await asks(ana);
  await ben.press('Pest');
  await pass(club, 72 * HOUR_MS);
  expect(notices(ana)).toHaveLength(1);
  const then = room.clock.now();
  room.clock.set(new Date(then.getTime() - 72 * HOUR_MS));
  await room.quiet();
  await club.restart();
  await room.quiet();
  expect(notices(ana)).toHaveLength(1);
  await pass(club, 72 * HOUR_MS);
  await pass(club, 72 * HOUR_MS);
  expect(notices(ana)).toHaveLength(1);
  expect(pingsOf(club, 'Ana')).toBe(1);
});
