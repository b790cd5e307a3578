import type { RoomClock } from '../../src/room/room.ts';

/** A minute of the program's time passes in a second here, so that Discord's minutes do not have to be waited for. */
export const TIMES_FASTER = 60;
/** For so long, in the program's time, the fake Discord knows a nonce again; the program trusts it for a minute. */
export const NONCE_WINDOW_MS = 120_000;

const NOON_MS = Date.UTC(2026, 10, 25, 12);
const LOOK_EVERY_MS = 25;

/** One clock for all processes of a cell: noon at `startedMs`, and faster than the machine's from then on. */
export function scaledClock(startedMs: number): RoomClock {
  const now = () => new Date(NOON_MS + (Date.now() - startedMs) * TIMES_FASTER);
  const cannotMove = () => {
    throw new Error('this clock runs by itself');
  };
  return {
    now,
    advance: cannotMove,
    set: cannotMove,
    // Waits are armed in the machine's milliseconds and would be too long: every look counts as a move of the clock.
    onAdvance(listener) {
      const timer = setInterval(() => listener(now()), LOOK_EVERY_MS);
      return () => clearInterval(timer);
    },
  };
}

/** How long the machine takes for some time of the program. */
export const realMs = (programMs: number): number => programMs / TIMES_FASTER;
