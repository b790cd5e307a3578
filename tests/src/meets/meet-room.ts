import Database from 'better-sqlite3';
import { expect, onTestFinished } from 'vitest';
import { createPainter } from '../../../src/drawing/painter.ts';
import { promiseStore } from '../../../src/promises/promise.store.ts';
import { asRead } from '../../../src/room/as-read.ts';
import { GUILD } from '../../../src/room/members.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import type { Actor, MemberSpec, SeenMessage } from '../../../src/room/room.ts';
import { offerStore } from '../../../src/swaps/offer.store.ts';
import { join } from 'node:path';
import { dataFolder } from '../database/folder.ts';
import { built } from '../../set-up-build.ts';
import { openClub } from '../../set-up-club.ts';
import { details } from './swap-club.ts';

const FONTS = ['inter-regular.ttf', 'inter-semibold.ttf'];
export const HOUR_MS = 3_600_000;
export const DAY_MS = 24 * HOUR_MS;

/** A club in the room, with a way to put offers into its database. It is a Wednesday. */
export async function openSwapRoom() {
  const painter = createPainter({
    workerFile: built('painter.js'),
    fontFiles: FONTS.map((font) => built(`font/${font}`)),
  });
  onTestFinished(() => painter.close());
  const folder = dataFolder();
  const club = await openClub({
    settleMs: 40,
    clock: createRoomClock(new Date('2026-11-25T12:00:00Z')),
    dataFolder: folder,
    paint: (svg, width) => painter.paint(svg, width),
  });
  const db = new Database(join(folder, 'reef-club.db'), { timeout: 5_000 });
  onTestFinished(() => void db.close());
  const { room } = club;
  const [offers, promises] = [offerStore(db), promiseStore(db)];
  const idOf = (who: Actor) => room.world.members.named(who.name)!.id;
  const pass = async (ms: number) => {
    room.clock.advance(ms);
    await room.quiet(80);
  };
  return {
    ...club,
    promises,
    pass,
    idOf,
    actor: (name: string, more: Partial<MemberSpec> = {}) => room.actor(name, { name, ...more }),
    /** Lets the night’s plan be made and its questions be delivered. */
    night: async () => {
      const now = room.clock.now().getTime();
      const three = Math.floor(now / DAY_MS) * DAY_MS + 3 * HOUR_MS + 60_000;
      await pass((three > now ? three : three + DAY_MS) - now);
      await planned();
      // Nobody is woken: the questions come in the morning.
      await pass(5 * HOUR_MS);
    },
    offer: (by: Actor, name: string, pieces = 1) =>
      offers.add(
        {
          guildId: GUILD.id,
          memberId: idOf(by),
          channelId: room.world.mainChannel().id,
          pieces,
          expiresAt: new Date(room.clock.now().getTime() + 45 * DAY_MS),
          details: details(name),
        },
        room.clock.now(),
      ),
    promised: () => promises.live(GUILD.id).filter(({ state }) => state === 'promised').length,
    planned,
  };
  /** A plan that is being worked out is put to its members, and what they are asked is delivered. */
  async function planned(): Promise<void> {
    for (let look = 0; look < 40; look += 1) {
      const wanted = db.prepare(`SELECT count(*) AS n FROM swap_ring_jobs WHERE state = 'wanted'`).get() as {
        n: number;
      };
      if (wanted.n === 0) break;
      await room.quiet(50);
    }
    await pass(60_000);
  }
}
export type SwapRoom = Awaited<ReturnType<typeof openSwapRoom>>;

/** Four who each have what the next one looks for. */
export async function fourInARing(club: SwapRoom) {
  const [nell, bo, uma, olu] = ['Nell', 'Bo', 'Uma', 'Olu'].map((name) => club.actor(name)) as [Actor, Actor, Actor, Actor]; // prettier-ignore
  for (const [who, wish] of [
    [nell, 'xenia'],
    [bo, 'torch'],
    [uma, 'zoanthid'],
    [olu, 'toadstool'],
  ] as const)
    // prettier-ignore
    await ask(who, 'want', { coral: wish });
  club.offer(nell, 'torch');
  club.offer(bo, 'zoanthid');
  club.offer(uma, 'toadstool');
  club.offer(olu, 'xenia');
  return { nell, bo, uma, olu, all: [nell, bo, uma, olu] };
}

export const read = (messages: readonly SeenMessage[] | undefined): string =>
  asRead((messages ?? []).map(({ text }) => text).join('\n'));
/** Presses, expects an answer, and gives its words. */
export async function press(who: Actor, label: string): Promise<string> {
  const { replies, error } = await who.press(label);
  expect(error).toBeUndefined();
  return read(replies);
}
export async function ask(who: Actor, verb: string, given: Readonly<Record<string, string>> = {}): Promise<string> {
  const { replies, error } = await who.slash(
    `frag ${verb}`,
    Object.entries(given).map(([name, value]) => ({ name, value })),
  );
  expect(error).toBeUndefined();
  return read(replies);
}
/** What stands in a member's direct messages and holds some words. */
export const told = (who: Actor, words: string): SeenMessage[] =>
  who.sees().filter(({ private: isAnswer, text }) => !isAnswer && asRead(text).includes(words));
