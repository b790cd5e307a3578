/** Numbers from 0 to below 1 that look drawn by lot and are the same for the same seed. */
export function seededDice(seed: number): () => number {
  let state = Math.trunc(seed) | 0;
  return () => {
    // Mulberry32, a public-domain generator by T. Ettinger.
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
