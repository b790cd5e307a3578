import type { Clock } from '../clock.ts';

const EPOCH_MS = 1_420_070_400_000n;
// discord.js recognises ids in request paths by 17 to 19 digits.
const SMALLEST = 10n ** 16n;
const NAMED_FROM = 10n ** 18n;

/** Makes ids from the clock: 17 to 19 digits and strictly increasing, even when the clock is set back. */
export function createSnowflakes(clock: Clock): { next(): string } {
  let last = SMALLEST;
  return {
    next() {
      const fromTime = (BigInt(clock.now().getTime()) - EPOCH_MS) << 22n;
      last = fromTime > last ? fromTime : last + 1n;
      return String(last);
    },
  };
}

/**
 * The id that belongs to a name. A club, its channels and its members keep their ids from one room to the next,
 * so that a database kept between two rooms still knows them.
 */
export function idForName(name: string): string {
  let hash = 0xcbf29ce484222325n;
  for (const byte of Buffer.from(name)) hash = ((hash ^ BigInt(byte)) * 0x100000001b3n) & 0xffffffffffffffffn;
  return String(NAMED_FROM + (hash % 10n ** 17n));
}

/** The instant that an id carries. */
export const snowflakeTime = (id: string): Date => new Date(Number((BigInt(id) >> 22n) + EPOCH_MS));
