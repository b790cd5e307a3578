import { describe, expect, test } from 'vitest';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import type { DeliveryOutcome, LookUpOutcome, NewOutboxMessage, Settled } from '../../../src/outbox/outbox.ts';
import { outboxStore } from '../../../src/outbox/outbox.store.ts';
import { outboxWorker } from '../../../src/outbox/outbox.worker.ts';
import { after, MINUTE_MS, newMessage, NOON, saying } from './messages.ts';

class Killed extends Error {}

/** A channel that takes messages by nonce, and a worker that can be killed at any point and started again. */
function setUp() {
  const { db } = openTemporaryDatabase();
  const outbox = outboxStore(db);
  const channel: { nonce: number; channelId: string; words: string }[] = [];
  const settled: { topic: string; outcome: Settled }[] = [];
  const plan: (DeliveryOutcome | 'killed-before' | 'killed-after' | 'lost-reply')[] = [];
  const tries: Date[] = [];
  let now = NOON;
  let lookUps = 0;
  let nonceIsRemembered = true;
  let steadyFor = Infinity;
  let historyAnswers = true;
  const sees = (id: number) => channel.findIndex(({ nonce }) => nonce === id);
  const worker = () =>
    outboxWorker({
      db,
      outbox,
      now: () => now,
      isSteady: () => steadyFor-- > 0,
      onSettled: ({ topic }, outcome) => void settled.push({ topic, outcome }),
      onFailed: () => undefined,
      delivery: {
        deliver: (message) => {
          tries.push(now);
          expect(db.inTransaction).toBe(false);
          const step = plan.shift();
          if (step === 'killed-before') throw new Killed();
          if (typeof step === 'object') return Promise.resolve(step);
          if (!nonceIsRemembered || sees(message.id) < 0)
            channel.push({ nonce: message.id, channelId: message.channelId, words: JSON.stringify(message.view) });
          if (step === 'killed-after') throw new Killed();
          if (step === 'lost-reply') return Promise.resolve({ kind: 'later', retryAfterMs: null, why: 'hang-up' });
          return Promise.resolve({ kind: 'sent', messageId: `m${sees(message.id)}` });
        },
        lookUp: ({ id }): Promise<LookUpOutcome> => {
          lookUps += 1;
          if (!historyAnswers) return Promise.resolve({ kind: 'later', retryAfterMs: null, why: '503' });
          return Promise.resolve(sees(id) < 0 ? { kind: 'not-there' } : { kind: 'found', messageId: `m${sees(id)}` });
        },
      },
    });
  return {
    db,
    outbox,
    channel,
    settled,
    plan,
    tries,
    worker,
    add: (change: Partial<NewOutboxMessage> = {}) => outbox.add(newMessage(change)),
    at: (instant: Date) => void (now = instant),
    jumpsAfter: (messages: number) => void (steadyFor = messages),
    forgetNonces: () => void (nonceIsRemembered = false),
    lookUps: () => lookUps,
    silenceHistory: () => void (historyAnswers = false),
  };
}

test('the same occurrence is added once and delivered once', async () => {
  const { add, worker, channel, settled } = setUp();
  expect([add(), add()]).toEqual([true, false]);
  const one = worker();
  expect(await one.deliverPending()).toBeNull();
  await one.deliverPending();
  expect(channel).toHaveLength(1);
  expect(settled).toEqual([{ topic: 'chore/1', outcome: { kind: 'sent', messageId: 'm0' } }]);
});

describe('a kill', () => {
  test.each(['killed-before', 'killed-after'] as const)(
    '%s the send: delivered once after the restart',
    async (kill) => {
      const { add, plan, worker, channel, at, settled } = setUp();
      add();
      plan.push(kill);
      await expect(worker().deliverPending()).rejects.toThrow(Killed);
      at(after(10_000));
      await worker().deliverPending();
      expect(channel).toHaveLength(1);
      expect(settled).toHaveLength(1);
    },
  );

  test.each(['killed-before', 'killed-after'] as const)(
    '%s the send and a restart after the nonce is forgotten: the history tells',
    async (kill) => {
      const { add, plan, worker, channel, at, forgetNonces, lookUps, settled } = setUp();
      add();
      plan.push(kill);
      await expect(worker().deliverPending()).rejects.toThrow(Killed);
      forgetNonces();
      at(after(3 * 86_400_000));
      await worker().deliverPending();
      expect(channel).toHaveLength(1);
      expect(lookUps()).toBe(1);
      expect(settled).toHaveLength(1);
    },
  );

  test('between what is due and the send: the committed row is sent by the next run', async () => {
    const { add, db, worker, channel } = setUp();
    expect(() => {
      db.transaction(() => add()).immediate();
      throw new Killed();
    }).toThrow(Killed);
    await worker().deliverPending();
    expect(channel).toHaveLength(1);
  });

  test('while the outcome is written down: the feature hears of it once', async () => {
    const { add, outbox, worker, settled, db } = setUp();
    add();
    const [message] = outbox.pending(NOON, 1);
    db.transaction(() => outbox.sent(message!.id, 'm7', NOON)).immediate();
    // A second settlement, of a worker that slept through the first, changes nothing.
    expect(outbox.dead(message!.id, 'too late', NOON)).toBe(false);
    expect(outbox.tried(message!.id, NOON)).toBe(false);
    await worker().deliverPending();
    expect(settled).toEqual([]);
    expect(outbox.sentAs('chore/1/2026-11-25', 'guild')).toEqual({ channelId: 'channel', messageId: 'm7' });
  });
});

test('a reply that is lost is tried again under the same nonce, and later by a look into the history', async () => {
  const { add, plan, worker, channel, at, forgetNonces, settled } = setUp();
  add();
  plan.push('lost-reply', 'lost-reply');
  const one = worker();
  expect(await one.deliverPending()).toEqual(after(1_000));
  at(after(1_000));
  expect(await one.deliverPending()).toEqual(after(3_000));
  forgetNonces();
  at(after(2 * MINUTE_MS));
  await one.deliverPending();
  expect(channel).toHaveLength(1);
  expect(settled).toHaveLength(1);
});

test('an hour without Discord: one probe every thirty seconds, and afterwards all go out', async () => {
  const { add, plan, worker, channel, at, tries } = setUp();
  for (let n = 0; n < 30; n += 1) add({ key: `k${n}`, channelId: `c${n}` });
  const failures = Array.from({ length: 200 }, () => ({ kind: 'later', retryAfterMs: null, why: '503' }) as const);
  plan.push(...failures);
  const one = worker();
  for (let ms = 0; ms <= 3_600_000; ms += 5_000) {
    at(after(ms));
    await one.deliverPending();
  }
  const inTheHour = tries.length;
  expect(inTheHour).toBeGreaterThan(60);
  expect(inTheHour).toBeLessThanOrEqual(3 + 120);
  plan.length = 0;
  for (let ms = 3_600_000; ms <= 5_400_000; ms += 5_000) {
    at(after(ms));
    await one.deliverPending();
  }
  expect(channel.map(({ channelId }) => channelId).sort()).toEqual(
    Array.from({ length: 30 }, (_, n) => `c${n}`).sort(),
  );
});

test('an hour in which the history is silent too: look-ups count as probes', async () => {
  const { add, plan, worker, at, lookUps, tries, silenceHistory } = setUp();
  for (let n = 0; n < 30; n += 1) add({ key: `k${n}`, channelId: `c${n}` });
  plan.push(...Array.from({ length: 200 }, () => ({ kind: 'later', retryAfterMs: null, why: '503' }) as const));
  silenceHistory();
  const one = worker();
  for (let ms = 0; ms <= 3_600_000; ms += 5_000) {
    at(after(ms));
    await one.deliverPending();
  }
  expect(lookUps()).toBeGreaterThan(10);
  expect(lookUps() + tries.length).toBeLessThanOrEqual(3 + 120);
});

test('where all have to wait, the one that was told so keeps its place', async () => {
  const { add, plan, worker, channel, at } = setUp();
  for (let n = 0; n < 5; n += 1) add({ key: `k${n}`, channelId: `c${n}` });
  plan.push({ kind: 'later', retryAfterMs: 400, why: '429', forAll: true });
  const one = worker();
  expect(await one.deliverPending()).toEqual(after(400));
  expect(channel).toEqual([]);
  at(after(400));
  await one.deliverPending();
  expect(channel.map(({ channelId }) => channelId)).toEqual(['c0', 'c1', 'c2', 'c3', 'c4']);
});

test('a rate limit is waited for', async () => {
  const { add, plan, worker, at, tries } = setUp();
  add();
  plan.push({ kind: 'later', retryAfterMs: 7_000, why: '429' });
  const one = worker();
  await one.deliverPending();
  at(after(6_999));
  await one.deliverPending();
  expect(tries).toHaveLength(1);
  at(after(7_000));
  await one.deliverPending();
  expect(tries).toHaveLength(2);
});

describe('a place that does not take it', () => {
  const closed: DeliveryOutcome = { kind: 'unreachable', why: 'Missing Permissions', forbidden: true };

  test('the fallback is tried once, and is where it was sent', async () => {
    const { add, plan, worker, channel, outbox } = setUp();
    add({ fallbackChannelId: 'parent' });
    plan.push(closed);
    await worker().deliverPending();
    expect(channel.map(({ channelId }) => channelId)).toEqual(['parent']);
    expect(outbox.sentAs('chore/1/2026-11-25', 'guild')?.channelId).toBe('parent');
  });

  test('without one it is dead, and its member is told once, in that server only', async () => {
    const { add, plan, worker, outbox, settled, tries, at } = setUp();
    add({ fallbackChannelId: 'parent' });
    plan.push(closed, closed);
    await worker().deliverPending();
    expect(settled).toEqual([{ topic: 'chore/1', outcome: { kind: 'dead', why: 'Missing Permissions' } }]);
    at(after(86_400_000));
    await worker().deliverPending();
    expect(tries).toHaveLength(2);
    expect(outbox.takeOwed('another guild', 'ana', NOON)).toEqual([]);
    expect(outbox.takeOwed('guild', 'ben', NOON)).toEqual([]);
    expect(outbox.takeOwed('guild', 'ana', NOON)).toHaveLength(1);
    expect(outbox.takeOwed('guild', 'ana', NOON)).toEqual([]);
  });
});

test('after a month away late chores are one message, silent ones none, closings all', async () => {
  const { add, worker, channel, at, outbox } = setUp();
  for (const day of [1, 2, 3])
    add({ key: `chore/${day}`, late: 'merge', view: saying(`day ${day}`), dueAt: after(day) });
  add({ key: 'listing/1', late: 'drop' });
  add({ key: 'closing/1' });
  add({ key: 'closing/2' });
  at(after(30 * 86_400_000));
  await worker().deliverPending();
  expect(channel).toHaveLength(3);
  expect(channel.filter(({ words }) => words.includes('day 1') && words.includes('day 3'))).toHaveLength(1);
  expect(outbox.nextAt()).toBeNull();
});

test('of two changes of a message only the newer goes out, and a notice can be called off before it is tried', async () => {
  const { outbox, worker, channel, add } = setUp();
  const edit = { guildId: 'guild', topic: 'chore/1', channelId: 'channel', targetId: 'm1' };
  outbox.addEdit({ ...edit, view: saying('old') }, NOON);
  outbox.addEdit({ ...edit, view: saying('new') }, NOON);
  outbox.addEdit({ ...edit, targetId: 'm2', view: saying('another') }, NOON);
  add({ key: 'notice' });
  expect(outbox.callOff('notice', 'another guild', NOON)).toBe(false);
  expect(outbox.callOff('notice', 'guild', NOON)).toBe(true);
  await worker().deliverPending();
  expect(channel.map(({ words }) => /"markdown":"(\w+)/.exec(words)?.[1])).toEqual(['new', 'another']);
  expect(outbox.takeOwed('guild', 'ana', NOON)).toEqual([]);
});

test('a clock that is set back does not send again what was sent', async () => {
  const { add, worker, channel, at } = setUp();
  add();
  const one = worker();
  await one.deliverPending();
  at(after(-86_400_000));
  expect(add()).toBe(false);
  await one.deliverPending();
  expect(channel).toHaveLength(1);
});

test('a clock that jumps in the middle of a turn ends it, and the rest waits for the next', async () => {
  const { add, worker, channel, jumpsAfter } = setUp();
  for (let n = 0; n < 5; n += 1) add({ key: `k${n}` });
  const one = worker();
  jumpsAfter(2);
  expect(await one.deliverPending()).toEqual(NOON);
  expect(channel).toHaveLength(2);
  jumpsAfter(Infinity);
  expect(await one.deliverPending()).toBeNull();
  expect(channel).toHaveLength(5);
});

test('what is added is news once, and a repeated key at most one turn too many', () => {
  const { outbox, add } = setUp();
  expect(outbox.hasNews()).toBe(false);
  add();
  expect([outbox.hasNews(), outbox.hasNews()]).toEqual([true, false]);
  outbox.addEdit({ guildId: 'g', topic: 't', channelId: 'c', targetId: 'm', view: saying('new') }, NOON);
  expect([outbox.hasNews(), outbox.hasNews()]).toEqual([true, false]);
});

test('what is owed from before a restart, and what comes to be owed later, is given out in every case', async () => {
  const { db, add, plan, worker, outbox } = setUp();
  const closed: DeliveryOutcome = { kind: 'unreachable', why: 'Missing Permissions', forbidden: true };
  expect(outbox.takeOwed('guild', 'ana', NOON)).toEqual([]);
  for (const key of ['a', 'b', 'c', 'd']) add({ key });
  add({ key: 'e', memberId: 'ben' });
  plan.push(closed, closed, closed, closed, closed);
  await worker().deliverPending();
  expect(outboxStore(db).takeOwed('guild', 'ben', NOON)).toHaveLength(1);
  expect(outbox.takeOwed('guild', 'ben', NOON)).toEqual([]);
  expect(outbox.takeOwed('guild', 'ana', NOON)).toHaveLength(3);
  expect(outbox.takeOwed('guild', 'ana', NOON)).toHaveLength(1);
  expect(outbox.takeOwed('guild', 'ana', NOON)).toEqual([]);
});

test('settled rows are forgotten after ninety days, however long the worker runs', async () => {
  const { db, add, worker, at } = setUp();
  const count = () => db.prepare('SELECT count(*) FROM outbox').pluck().get();
  const one = worker();
  add();
  await one.deliverPending();
  at(after(89 * 86_400_000));
  await one.deliverPending();
  expect(count()).toBe(1);
  at(after(91 * 86_400_000));
  await one.deliverPending();
  expect(count()).toBe(0);
});
