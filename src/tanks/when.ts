const MINUTE_MS = 60_000;
const UNITS = { minute: MINUTE_MS, hour: 60 * MINUTE_MS, day: 1_440 * MINUTE_MS, week: 10_080 * MINUTE_MS } as const;
const NOON_H = 12;
/** Readings of a lifetime of a tank; before that it is a slip of the year. */
const LONGEST_AGO_MS = 20 * 365 * UNITS.day;
/** Where clocks are furthest ahead, a date begins so long before it does in UTC. */
const FURTHEST_AHEAD_MS = 14 * UNITS.hour;

export type When =
  { kind: 'at'; at: Date } | { kind: 'unreadable' } | { kind: 'ahead'; at: Date } | { kind: 'long-ago' };

const AGO = /^(\d{1,4}|an?|one|two|three|four|five|six|seven) ?(m|min|minute|h|hr|hour|d|day|w|wk|week)s?(?: ago)?$/;
const NUMBERS: Readonly<Record<string, number>> = {
  a: 1,
  an: 1,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
};
const DATE = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[t ]+(\d{1,2}):(\d{2})(?::\d{2}(?:\.\d+)?)?\s*(z|utc)?)?$/;

/**
 * When something was done: "now", "yesterday", "2 days ago", "3 h ago", "2026-11-20", "2026-11-20 18:30" (UTC).
 *
 * A date alone is its noon in UTC, or now where that has not come yet; "yesterday" is 24 hours ago.
 */
export function readWhen(text: string, now: Date): When {
  const typed = text.normalize('NFKC').trim().toLowerCase().replace(/\s+/g, ' ').replace(/\.$/, '');
  const ago = millisecondsAgo(typed);
  if (ago !== null) return within(new Date(now.getTime() - ago), now);
  const found = DATE.exec(typed);
  if (!found) return { kind: 'unreadable' };
  const [year, month, day] = [found[1], found[2], found[3]].map(Number) as [number, number, number];
  const [hour, minute] = found[4] === undefined ? [NOON_H, 0] : [Number(found[4]), Number(found[5])];
  const at = new Date(Date.UTC(year, month - 1, day, hour, minute));
  // Months and days that there are not roll over.
  if (at.getUTCMonth() !== month - 1 || at.getUTCDate() !== day || hour > 23 || minute > 59)
    return { kind: 'unreadable' };
  const begins = at.getTime() - NOON_H * UNITS.hour - FURTHEST_AHEAD_MS;
  const isToday = at.getTime() > now.getTime() && begins <= now.getTime();
  return found[4] === undefined && isToday ? { kind: 'at', at: now } : within(at, now);
}

function millisecondsAgo(typed: string): number | null {
  if (/^(?:|now|just now|today)$/.test(typed)) return 0;
  if (typed === 'yesterday') return UNITS.day;
  const [, count = '', unit = ''] = AGO.exec(typed) ?? [];
  const times = NUMBERS[count] ?? Number(count);
  if (unit === '' || !Number.isFinite(times)) return null;
  const named = unit.startsWith('m') ? 'minute' : unit.startsWith('h') ? 'hour' : unit.startsWith('d') ? 'day' : 'week';
  return times * UNITS[named];
}

function within(at: Date, now: Date): When {
  if (at.getTime() > now.getTime()) return { kind: 'ahead', at };
  return now.getTime() - at.getTime() > LONGEST_AGO_MS ? { kind: 'long-ago' } : { kind: 'at', at };
}
