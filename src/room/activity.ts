import { setTimeout as sleep } from 'node:timers/promises';

export type Activity = ReturnType<typeof createActivity>;

/** Knows whether the bot is busy with the room: requests under way, and when the last one ended. */
export function createActivity() {
  let underWay = 0;
  let lastMs = performance.now();
  return {
    /** Notes that a request has begun; call what it gives back when the request is over. */
    begin(): () => void {
      underWay += 1;
      lastMs = performance.now();
      return () => {
        underWay -= 1;
        lastMs = performance.now();
      };
    },
    /** Waits until nothing has happened for `quietMs`, at most `atMostMs`. */
    async quiet(quietMs: number, atMostMs = 5_000): Promise<void> {
      const startedMs = performance.now();
      lastMs = Math.max(lastMs, startedMs);
      for (;;) {
        const nowMs = performance.now();
        const stillMs = underWay > 0 ? quietMs : lastMs + quietMs - nowMs;
        if (stillMs <= 0 || nowMs - startedMs > atMostMs) return;
        await sleep(Math.max(1, Math.min(stillMs, quietMs)));
      }
    },
  };
}
