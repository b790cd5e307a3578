/** Dice that fall alike at every run with the same seed (mulberry32). */
export function dice(seed: number) {
  let state = seed >>> 0;
  const share = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  return {
    /** Whether something that happens in this share of cases happens now. */
    falls: (chance: number): boolean => share() < chance,
    /** A whole number from 1 up to `most`. */
    upTo: (most: number): number => 1 + Math.floor(share() * most),
    oneOf<Item>(items: readonly Item[]): Item {
      const item = items[Math.floor(share() * items.length)];
      if (item === undefined) throw new RangeError('nothing to choose from');
      return item;
    },
  };
}
export type Dice = ReturnType<typeof dice>;
