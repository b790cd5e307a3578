import { setTimeout as sleep } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { directTo } from '../../../src/outbox/outbox.ts';
import { setUpDelivery } from './delivery-room.ts';
import { after, saying } from './messages.ts';

const DAY_MS = 86_400_000;
const MEMBERS = 100;
const EACH = 50;

test('after thirty days with 5,000 overdue each member gets one message, in order, and never over fifty requests a second', async () => {
  const { room, clock, db, add, outbox, start, asked, settled } = await setUpDelivery();
  const members = Array.from({ length: MEMBERS }, (_, n) => room.world.members.declare({ name: `keeper ${n}` }));
  db.transaction(() => {
    // Day by day, so that nobody's messages lie together.
    for (let nth = 0; nth < EACH; nth += 1)
      for (const { id } of members)
        add({
          key: `chore/${id}/${nth}`,
          topic: `chore/${id}`,
          channelId: directTo(id),
          memberId: id,
          late: 'merge',
          view: saying(`chore ${nth} of ${id}`),
          dueAt: after(nth * 3_600_000),
        });
  })();
  clock.advance(30 * DAY_MS);

  const worker = start();
  for (;;) {
    const next = await worker.deliverPending();
    if (next === null) break;
    await sleep(Math.max(1, next.getTime() - clock.now().getTime()));
  }

  const delivered = room.world.messages.all();
  expect(delivered).toHaveLength(MEMBERS);
  for (const { id } of members) {
    const mine = delivered.filter(({ components }) => JSON.stringify(components).includes(`of ${id}`));
    expect(mine).toHaveLength(1);
    const numbers = [...JSON.stringify(mine[0]?.components).matchAll(/chore (\d+) of/g)].map(([, nth]) => Number(nth));
    expect(numbers).toEqual(Array.from({ length: EACH }, (_, nth) => nth));
  }
  expect(outbox.nextAt()).toBeNull();
  expect(settled).toHaveLength(MEMBERS);

  const atMs = asked(/./).map(({ at }) => at.getTime());
  expect(atMs).toHaveLength(2 * MEMBERS);
  // The client counts by its own seconds; fifty of one and fifty of the next may lie close together.
  atMs.forEach((ms, n) => expect(Math.abs((atMs[n + 100] ?? Infinity) - ms)).toBeGreaterThan(900));
  // Those that were told to wait kept their place.
  const order = delivered.map(({ channelId }) => room.world.channels.get(channelId)?.recipientId);
  expect(order).toEqual(members.map(({ id }) => id));
});
