import { onTestFinished, expect } from 'vitest';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { createDelivery, createDeliveryRest } from '../../../src/discord/send.ts';
import type { NewOutboxMessage, Settled } from '../../../src/outbox/outbox.ts';
import { outboxStore } from '../../../src/outbox/outbox.store.ts';
import { outboxWorker } from '../../../src/outbox/outbox.worker.ts';
import { openRoom } from '../../../src/room/open-room.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import { newMessage, NOON } from './messages.ts';

/** The real road of a message: store, worker, the client's REST, and a room at its end, all with the room's clock. */
export async function setUpDelivery() {
  const clock = createRoomClock(NOON);
  const room = await openRoom({ contract: 'strict', settleMs: 15, clock });
  onTestFinished(async () => {
    await room.close();
    expect(room.contract.breaches()).toEqual([]);
  });
  const { db } = openTemporaryDatabase();
  const outbox = outboxStore(db);
  const settled: { topic: string; outcome: Settled }[] = [];
  const rest = createDeliveryRest('practice', room.apiUrl);
  const start = () =>
    outboxWorker({
      db,
      outbox,
      delivery: createDelivery(rest, room.world.members.bot.id),
      onSettled: ({ topic }, outcome) => void settled.push({ topic, outcome }),
      onFailed: () => undefined,
      now: clock.now,
      isSteady: () => true,
    });
  const main = room.world.mainChannel().id;
  return {
    room,
    clock,
    db,
    outbox,
    settled,
    rest,
    start,
    main,
    add: (change: Partial<NewOutboxMessage> = {}) =>
      outbox.add(newMessage({ channelId: main, memberId: null, ...change })),
    /** The requests so far that fit, as `POST /path`. */
    asked: (pattern: RegExp) => room.requests.all().filter(({ method, path }) => pattern.test(`${method} ${path}`)),
  };
}
