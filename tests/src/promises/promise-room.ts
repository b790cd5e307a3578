import Database from 'better-sqlite3';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished } from 'vitest';
import { outboxStore } from '../../../src/outbox/outbox.store.ts';
import { promiseStore } from '../../../src/promises/promise.store.ts';
import { asRead } from '../../../src/room/as-read.ts';
import { GUILD } from '../../../src/room/members.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import type { Actor, SeenMessage } from '../../../src/room/room.ts';
import { offerCards } from '../../../src/swaps/offer-cards.worker.ts';
import { offerStore } from '../../../src/swaps/offer.store.ts';
import type { Offer, OfferDetails } from '../../../src/swaps/offer.ts';
import { knowledge, openClub } from '../../set-up-club.ts';
import { details } from './promise-club.ts';

export const HOUR_MS = 3_600_000;
export const DAY_MS = 24 * HOUR_MS;

/** A club in the room, whose database the test can read and put offers into. */
export async function openSwapClub() {
  const dataFolder = mkdtempSync(join(tmpdir(), 'reef-swaps-'));
  onTestFinished(() => rmSync(dataFolder, { recursive: true, force: true }));
  const club = await openClub({
    settleMs: 40,
    clock: createRoomClock(new Date('2026-11-25T12:00:00Z')),
    dataFolder,
  });
  const db = new Database(join(dataFolder, 'reef-club.db'), { timeout: 5_000 });
  onTestFinished(() => void db.close());
  const { room } = club;
  const [offers, promises, outbox] = [offerStore(db), promiseStore(db), outboxStore(db)];
  const cards = offerCards({ base: knowledge(), offers, outbox, promisesOf: promises.of });
  const pass = async (ms: number) => {
    room.clock.advance(ms);
    await room.quiet(80);
  };
  const idOf = (who: Actor) => room.world.members.named(who.name)!.id;
  return {
    ...club,
    db,
    offers,
    promises,
    pass,
    idOf,
    /** An offer whose card stands in the main channel. */
    async offer(by: Actor, pieces: number, given: Partial<OfferDetails> = {}): Promise<Offer> {
      const channelId = room.world.mainChannel().id;
      const now = room.clock.now();
      const expiresAt = new Date(now.getTime() + 45 * DAY_MS);
      const made = offers.add(
        { ...{ guildId: GUILD.id, memberId: idOf(by), channelId, pieces, expiresAt }, details: details(given) },
        now,
      );
      cards.post(made, { photo: null, fallback: null }, now);
      await pass(60_000);
      const posted = offers.find(made.id, GUILD.id)!;
      expect(posted.messageId).not.toBeNull();
      return posted;
    },
    statesOf: (offer: Offer) =>
      promises.of(offer).map(({ takerId, state }) => `${room.world.members.get(takerId)?.name} ${state}`),
  };
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
