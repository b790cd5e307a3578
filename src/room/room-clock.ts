import type { RoomClock } from './room.ts';

/** A clock that runs with real time from `start` on (default: the present) and can be moved by hand. */
export function createRoomClock(start?: Date): RoomClock {
  let offsetMs = start ? start.getTime() - Date.now() : 0;
  const listeners = new Set<(now: Date) => void>();
  const now = () => new Date(Date.now() + offsetMs);
  const moved = () => {
    for (const listener of listeners) listener(now());
  };
  return {
    now,
    advance(ms) {
      if (!(ms >= 0)) throw new RangeError(`the clock goes forward only; got ${ms} ms`);
      offsetMs += ms;
      moved();
    },
    set(instant) {
      if (Number.isNaN(instant.getTime())) throw new RangeError('the clock needs a valid instant');
      offsetMs = instant.getTime() - Date.now();
      moved();
    },
    onAdvance(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
}
