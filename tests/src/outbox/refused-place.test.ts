import { expect, test } from 'vitest';
import { directTo } from '../../../src/outbox/outbox.ts';
import { setUpDelivery } from './delivery-room.ts';
import { after } from './messages.ts';

const ROUNDS = 24;

/** A day of turns; whoever knocks again and again is seen. */
async function aDay({ clock, start }: Awaited<ReturnType<typeof setUpDelivery>>): Promise<void> {
  const worker = start();
  for (let hour = 0; hour < ROUNDS; hour += 1) {
    await worker.deliverPending();
    clock.advance(3_600_000);
  }
}

test('closed direct messages: the channel gets it once, and nobody is told of a failure', async () => {
  const stage = await setUpDelivery();
  const { room, add, asked, outbox, clock, main, settled } = stage;
  const shy = room.world.members.declare({ name: 'shy', dmClosed: true });
  add({ channelId: directTo(shy.id), fallbackChannelId: main, memberId: shy.id });
  await aDay(stage);
  expect(room.world.messages.all().map(({ channelId }) => channelId)).toEqual([main]);
  expect(asked(/^POST .*messages$/).map(({ status }) => status)).toEqual([403, 200]);
  expect(outbox.takeOwed('guild', shy.id, clock.now())).toEqual([]);
  expect(settled.map(({ outcome }) => outcome.kind)).toEqual(['sent']);
});

test('closed direct messages and a channel that is gone: a dead letter, told once, after two requests', async () => {
  const stage = await setUpDelivery();
  const { room, add, asked, outbox, clock, settled } = stage;
  const shy = room.world.members.declare({ name: 'shy', dmClosed: true });
  add({ channelId: directTo(shy.id), fallbackChannelId: '1100000000000000000', memberId: shy.id });
  await aDay(stage);
  expect(room.world.messages.all()).toEqual([]);
  expect(asked(/^POST .*messages$/).map(({ status }) => status)).toEqual([403, 404]);
  expect(settled.map(({ outcome }) => outcome.kind)).toEqual(['dead']);
  expect(outbox.takeOwed('guild', shy.id, clock.now())).toHaveLength(1);
  expect(outbox.takeOwed('guild', shy.id, clock.now())).toEqual([]);
});

test('a channel that is forbidden: a dead letter after one request, and the next message is not held up', async () => {
  const stage = await setUpDelivery();
  const { room, add, asked, main, settled } = stage;
  room.world.setBotPermissions('swap', { deny: ['SendMessages'] });
  const closed = room.world.channels.named('swap')?.id ?? '';
  add({ key: 'a', topic: 'a', channelId: closed });
  add({ key: 'b', topic: 'b', channelId: main, dueAt: after(1) });
  stage.clock.advance(1_000);
  await aDay(stage);
  expect(asked(/^POST .*messages$/).map(({ status }) => status)).toEqual([403, 200]);
  expect(settled.map(({ topic, outcome }) => [topic, outcome.kind])).toEqual([
    ['a', 'dead'],
    ['b', 'sent'],
  ]);
});
