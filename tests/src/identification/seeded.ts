/** Numbers from 0 up to 1 that are the same on every run, and draws made with them. */
export type Seeded = {
  next(): number;
  /** A whole number below `count`. */
  below(count: number): number;
  chance(share: number): boolean;
  pick<T>(items: readonly T[]): T;
  /** An item by its weight; undefined stands for what is left of 1. */
  weighted<T>(items: readonly T[], weights: ArrayLike<number>): T | undefined;
  /** A draw from the standard normal distribution. */
  normal(): number;
};

/** Lehmer's generator, 48271 modulo 2^31 - 1 (Park & Miller 1988, in the constants of 1993). */
export function seeded(seed: number): Seeded {
  let state = seed;
  const next = () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  const below = (count: number) => Math.floor(next() * count);
  return {
    next,
    below,
    chance: (share) => next() < share,
    pick: <T>(items: readonly T[]): T => {
      const item = items[below(items.length)];
      if (item === undefined) throw new RangeError('nothing to pick from');
      return item;
    },
    weighted: (items, weights) => {
      let left = next();
      return items.find((_item, at) => (left -= weights[at] ?? 0) < 0);
    },
    normal: () => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next()),
  };
}
