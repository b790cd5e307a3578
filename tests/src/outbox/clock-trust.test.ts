import fc from 'fast-check';
import { expect, onTestFinished, test } from 'vitest';
import { openDatabase, openTemporaryDatabase } from '../../../src/database/open.ts';
import { agree, askAgainAt, isFarAhead } from '../../../src/outbox/clock-trust.ts';
import { clockTrust } from '../../../src/outbox/clock-trust.worker.ts';
import { lastTurnStore } from '../../../src/outbox/last-turn.store.ts';
import type { DiscordTime } from '../../../src/outbox/outbox.ts';
import { temporaryFolder } from '../../set-up-program.ts';
import { after, MINUTE_MS, NOON } from './messages.ts';

const HOUR_MS = 60 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;

/** A database on the disk, a clock that goes as it is told, and a Discord that says what it is told. */
function setUp() {
  const { db, close } = openDatabase(temporaryFolder());
  onTestFinished(close);
  const said: string[] = [];
  const confirmed: Date[] = [];
  let now = NOON;
  let discords: DiscordTime = { kind: 'silent', why: 'no network' };
  let asked = 0;
  const start = () =>
    clockTrust({
      lastTurn: lastTurnStore(db),
      ask: () => {
        asked += 1;
        return Promise.resolve(discords);
      },
      now: () => now,
      onDoubt: (words) => said.push(words),
      onConfirmed: (_lastTurn, at) => confirmed.push(at),
    });
  return {
    db,
    start,
    said,
    confirmed,
    at: (instant: Date) => void (now = instant),
    discord: (answer: DiscordTime) => void (discords = answer),
    asked: () => asked,
    written: () => lastTurnStore(db).read(),
  };
}

test('more than an hour is far, and five minutes apart still agree', () => {
  expect(isFarAhead(null, NOON)).toBe(false);
  expect(isFarAhead(NOON, after(HOUR_MS))).toBe(false);
  expect(isFarAhead(NOON, after(HOUR_MS + 1))).toBe(true);
  expect(isFarAhead(NOON, after(-DAY_MS))).toBe(false);
  expect(agree(NOON, after(5 * MINUTE_MS))).toBe(true);
  expect(agree(after(5 * MINUTE_MS), NOON)).toBe(true);
  expect(agree(NOON, after(5 * MINUTE_MS + 1))).toBe(false);
});

test('the pauses between checks grow to five minutes and no further', () => {
  const pauses = [1, 2, 3, 7, 8, 1_000].map((checks) => askAgainAt(checks, NOON).getTime() - NOON.getTime());
  expect(pauses).toEqual([5_000, 10_000, 20_000, 300_000, 300_000, 300_000]);
});

test('the first turn of all and turns within the hour ask nobody', async () => {
  const { start, at, asked, written } = setUp();
  const trust = start();
  for (let n = 0; n < 30; n += 1) {
    at(after(n * 59 * MINUTE_MS));
    expect(await trust.heldUntil()).toBeNull();
  }
  expect(asked()).toBe(0);
  expect(written()).toEqual(after(29 * 59 * MINUTE_MS));
});

test('the row is written at most once a minute, and is never more than a minute behind', async () => {
  const { start, at, db, written } = setUp();
  const trust = start();
  const changesBefore = db.prepare('SELECT total_changes() AS n').pluck().get();
  for (let ms = 0; ms <= 10 * MINUTE_MS; ms += 1_000) {
    at(after(ms));
    await trust.heldUntil();
    expect(after(ms).getTime() - written()!.getTime()).toBeLessThan(MINUTE_MS);
  }
  expect(Number(db.prepare('SELECT total_changes() AS n').pluck().get()) - Number(changesBefore)).toBe(11);
});

test('a jump that Discord does not share is held, said, and asked about with growing pauses', async () => {
  const { start, at, discord, said, asked } = setUp();
  const trust = start();
  await trust.heldUntil();
  discord({ kind: 'says', at: after(1_000) });
  at(after(3 * DAY_MS));
  expect(await trust.heldUntil()).toEqual(after(3 * DAY_MS + 5_000));
  at(after(3 * DAY_MS + 4_999));
  expect(await trust.heldUntil()).toEqual(after(3 * DAY_MS + 5_000));
  expect(asked()).toBe(1);
  at(after(3 * DAY_MS + 5_000));
  expect(await trust.heldUntil()).toEqual(after(3 * DAY_MS + 15_000));
  expect(said[0]).toContain('2026-11-28T12:00:00.000Z');
  expect(said[0]).toContain('2026-11-25T12:00:01.000Z');
  expect(said[0]).toContain('Set the clock of this machine right');
  expect(said).toHaveLength(2);
});

test('a doubt outlives a restart, because a held turn is no turn', async () => {
  const { start, at, discord, written } = setUp();
  await start().heldUntil();
  discord({ kind: 'says', at: NOON });
  at(after(DAY_MS));
  expect(await start().heldUntil()).not.toBeNull();
  expect(await start().heldUntil()).not.toBeNull();
  expect(written()).toEqual(NOON);
});

test('a Discord that says nothing confirms nothing; once it agrees time goes on', async () => {
  const { start, at, discord, said, confirmed } = setUp();
  await start().heldUntil();
  const trust = start();
  at(after(2 * DAY_MS));
  expect(await trust.heldUntil()).not.toBeNull();
  expect(said[0]).toContain('did not say its time (no network)');
  discord({ kind: 'says', at: after(2 * DAY_MS + 9_000) });
  at(after(2 * DAY_MS + 10_000));
  expect(await trust.heldUntil()).toBeNull();
  expect(confirmed).toEqual([after(2 * DAY_MS + 10_000)]);
  expect(trust.isSteady()).toBe(true);
});

test('a clock that is set right, or moved again, is looked at without waiting', async () => {
  const { start, at, discord, asked } = setUp();
  const trust = start();
  await trust.heldUntil();
  discord({ kind: 'says', at: after(MINUTE_MS) });
  at(after(3 * DAY_MS));
  await trust.heldUntil();
  at(after(2 * DAY_MS));
  expect(await trust.heldUntil()).not.toBeNull();
  expect(asked()).toBe(2);
  at(after(MINUTE_MS));
  expect(await trust.heldUntil()).toBeNull();
  expect(asked()).toBe(2);
});

test('however the clock is moved, time never goes on by more than an hour that Discord did not confirm', async () => {
  const step = fc.record({
    ms: fc.integer({ min: -3 * DAY_MS, max: 3 * DAY_MS }),
    offByMs: fc.integer({ min: -DAY_MS, max: DAY_MS }),
    isSilent: fc.boolean(),
  });
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 30 }), async (steps) => {
      const { db, close } = openTemporaryDatabase();
      let now = NOON;
      let discords: DiscordTime = { kind: 'silent', why: '' };
      const trust = clockTrust({
        lastTurn: lastTurnStore(db),
        ask: () => Promise.resolve(discords),
        now: () => now,
        onDoubt: () => undefined,
        onConfirmed: () => undefined,
      });
      await trust.heldUntil();
      let last = NOON;
      for (const { ms, offByMs, isSilent } of steps) {
        now = new Date(now.getTime() + ms);
        discords = isSilent ? { kind: 'silent', why: '' } : { kind: 'says', at: new Date(now.getTime() + offByMs) };
        const isHeld = (await trust.heldUntil()) !== null;
        const isConfirmed = !isSilent && Math.abs(offByMs) <= 5 * MINUTE_MS;
        const isNear = now.getTime() - last.getTime() <= HOUR_MS;
        if (!isNear && !isConfirmed) expect(isHeld).toBe(true);
        if (isNear) expect(isHeld).toBe(false);
        if (!isHeld) last = now;
      }
      close();
    }),
    { numRuns: 100 },
  );
});
