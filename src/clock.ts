/** The one place from which the program takes the time. Rules about time get `now` as an argument. */
export type Clock = {
  /** The present instant. */
  now(): Date;
  /** Calls `listener` when the clock is moved by hand, which only a practice room's can be. */
  onAdvance?(listener: (now: Date) => void): () => void;
};

/** The machine's own clock. */
export const systemClock: Clock = { now: () => new Date() };

/** Work is looked for at least this often. A long timer is never armed: past 24.8 days it would fire at once. */
const POLL_MS = 30_000;
const SHORTEST_WAIT_MS = 100;
/** As short as a timer can be: the timers of others that are due go first. */
const BREATH_MS = 1;

/** One turn of the clock: does what is due, and says when more will be, as far as it knows. */
export type Tick = () => Promise<Date | null>;

export type Ticking = {
  /** Asks for a turn now: there may be something to do. */
  soon(): void;
  /** Ends the turns; resolves when the one that is running is over. */
  stop(): Promise<void>;
};

/** Turns the clock from now on: at once, when asked, when it is moved, and at least every 30 seconds. Never two at once. */
export function startTicking(clock: Clock, tick: Tick, onError: (error: unknown) => void): Ticking {
  let stopped = false;
  let wanted = false;
  let running: Promise<void> | null = null;
  let timer: NodeJS.Timeout | undefined;

  const turn = async (): Promise<void> => {
    let next: Date | null = null;
    do {
      wanted = false;
      try {
        next = await tick();
      } catch (error) {
        onError(error);
        // A locked database holds up everything while it is waited for; answers have their turn before it is tried again.
        await new Promise((resolve) => setTimeout(resolve, BREATH_MS));
      }
    } while (wanted && !stopped);
    running = null;
    if (stopped) return;
    const untilNextMs = next === null ? POLL_MS : next.getTime() - clock.now().getTime();
    timer = setTimeout(soon, Math.min(POLL_MS, Math.max(SHORTEST_WAIT_MS, untilNextMs)));
  };
  const soon = (): void => {
    if (stopped) return;
    clearTimeout(timer);
    if (running) wanted = true;
    else running = turn();
  };

  const stopFollowing = clock.onAdvance?.(soon);
  soon();
  return {
    soon,
    async stop() {
      stopped = true;
      clearTimeout(timer);
      stopFollowing?.();
      await running;
    },
  };
}
