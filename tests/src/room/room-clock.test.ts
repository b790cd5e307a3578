import { expect, test } from 'vitest';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import { createSnowflakes, idForName, snowflakeTime } from '../../../src/room/snowflakes.ts';

test('the clock runs on from where it is set and tells of every move', () => {
  const clock = createRoomClock(new Date('2026-03-01T12:00:00Z'));
  const moves: string[] = [];
  const stop = clock.onAdvance((now) => moves.push(now.toISOString().slice(0, 16)));
  clock.advance(3 * 86_400_000);
  clock.set(new Date('2026-12-01T19:00:00Z'));
  stop();
  clock.advance(1);
  expect(moves).toEqual(['2026-03-04T12:00', '2026-12-01T19:00']);
  expect(() => clock.advance(-1)).toThrow(RangeError);
  expect(() => clock.set(new Date(NaN))).toThrow(RangeError);
});

test('ids grow even when the clock does not, and carry its time', () => {
  let now = new Date('2026-03-01T12:00:00Z');
  const ids = createSnowflakes({ now: () => now });
  const first = ids.next();
  expect(snowflakeTime(first)).toEqual(now);
  const later = [ids.next(), ((now = new Date('2020-01-01T00:00:00Z')), ids.next())];
  const all = [first, ...later].map(BigInt);
  expect(all.every((id, n) => n === 0 || id > (all[n - 1] ?? 0n))).toBe(true);
  for (const id of [first, ...later, idForName('Ana')]) expect(id).toMatch(/^\d{17,19}$/);
});

test('a name has the same id in every room', () => {
  expect(idForName('member:ana')).toBe(idForName('member:ana'));
  expect(idForName('member:ana')).not.toBe(idForName('member:bo'));
});
