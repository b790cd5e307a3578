/** The one place from which the program takes the time. Rules about time get `now` as an argument. */
export type Clock = {
  /** The present instant. */
  now(): Date;
};

/** The machine's own clock. */
export const systemClock: Clock = { now: () => new Date() };
