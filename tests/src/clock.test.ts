import { setTimeout as sleep } from 'node:timers/promises';
import { expect, onTestFinished, test } from 'vitest';
import { startTicking, systemClock, type Ticking } from '../../src/clock.ts';
import { createRoomClock } from '../../src/room/room-clock.ts';

const ended = (ticking: Ticking) => onTestFinished(() => ticking.stop());
const nothing = () => undefined;

test('the first turn comes at once, and one more when the clock is moved', async () => {
  const clock = createRoomClock();
  const turns: number[] = [];
  ended(
    startTicking(
      clock,
      () => {
        turns.push(clock.now().getTime());
        return Promise.resolve(null);
      },
      nothing,
    ),
  );
  await sleep(5);
  expect(turns).toHaveLength(1);
  clock.advance(86_400_000);
  await sleep(5);
  expect(turns).toHaveLength(2);
  expect(turns[1]! - turns[0]!).toBeGreaterThanOrEqual(86_400_000);
});

test('turns never overlap; what is asked for meanwhile is one turn more', async () => {
  let under = 0;
  let most = 0;
  let turns = 0;
  const ticking = startTicking(
    systemClock,
    async () => {
      turns += 1;
      under += 1;
      most = Math.max(most, under);
      await sleep(20);
      under -= 1;
      return null;
    },
    nothing,
  );
  for (let n = 0; n < 5; n += 1) ticking.soon();
  await sleep(60);
  await ticking.stop();
  expect({ most, turns }).toEqual({ most: 1, turns: 2 });
});

test('a turn that fails is reported and the next one comes', async () => {
  const errors: unknown[] = [];
  let turns = 0;
  const ticking = startTicking(
    systemClock,
    () => {
      turns += 1;
      return turns === 1 ? Promise.reject(new Error('disk full')) : Promise.resolve(null);
    },
    (error) => errors.push(error),
  );
  ended(ticking);
  await sleep(5);
  ticking.soon();
  await sleep(5);
  expect(turns).toBe(2);
  expect(errors).toEqual([new Error('disk full')]);
});

test('what is due soon is not left to the poll, and a wait of a month is not armed as one timer', async () => {
  const dueIn = [150, 31 * 86_400_000];
  let turns = 0;
  ended(
    startTicking(
      systemClock,
      () => Promise.resolve(new Date(Date.now() + (dueIn[turns++] ?? 31 * 86_400_000))),
      nothing,
    ),
  );
  await sleep(60);
  expect(turns).toBe(1);
  await sleep(200);
  // A timer of 31 days would have overflowed and turned a hundred times by now.
  expect(turns).toBe(2);
});

test('a stop waits for the turn that is running, and none comes after it', async () => {
  let isOver = false;
  let turns = 0;
  const ticking = startTicking(
    systemClock,
    async () => {
      turns += 1;
      await sleep(30);
      isOver = true;
      return new Date(0);
    },
    nothing,
  );
  await ticking.stop();
  expect(isOver).toBe(true);
  ticking.soon();
  await sleep(150);
  expect(turns).toBe(1);
});
