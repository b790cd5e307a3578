import type { Consumption } from '../../shared/consumption.ts';

const DAY_MS = 86_400_000;
/** Nobody should go longer without a look; a doser can fail on any day. Common practice, no source. */
export const MOST_DAYS = 7;
/** With one reading there is nothing to compare yet. Common practice, no source. */
const DAYS_TO_SECOND = 3;
/** Whatever was done about it has mixed by then. Common practice, no source. */
const DAYS_AFTER_URGENT = 0.25;

/** When to test again, and why then. */
export type NextTest = { at: Date; days: number } &
  /** After something urgent has been done about, the same day. */
  (
    | { why: 'urgent' }
    | { why: 'outside' }
    /** One reading tells no consumption. */
    | { why: 'second-reading' }
    /** By then the change, positive when it is used up, is larger than what two readings can be off by. */
    | { why: 'change-shows'; change: number; swamped: number }
    /** The change would take longer than a week to show. */
    | { why: 'week' }
    /** Nothing that is used up, or a kit that nobody knows. */
    | { why: 'look' }
  );

/**
 * When the next test tells something: as soon as what the tank uses up is more than the errors of two readings together
 * (√2 times the kit error), in whole days, and at most a week after the last.
 *
 * Where the consumption is unclear, its careful end counts, since the tank may use as much. A reading outside of the limits
 * is looked at again the next day, an urgent one the same day.
 *
 * Units: kit error in the unit of the parameter; `null` where nobody knows it. Common practice, no source: the seven days, the
 * three before a second reading, the one after a reading outside.
 */
export function nextTest({
  lastAt,
  outside,
  consumption,
  kitError,
}: {
  lastAt: Date;
  outside: 'urgent' | 'warn' | null;
  consumption: Consumption | null;
  kitError: number | null;
}): NextTest {
  const inDays = (days: number) => ({ days, at: new Date(lastAt.getTime() + days * DAY_MS) });
  if (outside === 'urgent') return { ...inDays(DAYS_AFTER_URGENT), why: 'urgent' };
  if (outside === 'warn') return { ...inDays(1), why: 'outside' };
  if (consumption === null) return { ...inDays(MOST_DAYS), why: 'look' };
  if (consumption.kind === 'not-enough') return { ...inDays(DAYS_TO_SECOND), why: 'second-reading' };
  if (kitError === null) return { ...inDays(MOST_DAYS), why: 'look' };
  const { kind, perDay, low, high } = consumption;
  const aDay = kind === 'told' ? Math.abs(perDay) : Math.max(Math.abs(low), Math.abs(high));
  const swamped = Math.SQRT2 * kitError;
  const days = Math.max(1, Math.ceil(swamped / aDay - 1e-9));
  if (!(days < MOST_DAYS)) return { ...inDays(MOST_DAYS), why: 'week' };
  return { ...inDays(days), why: 'change-shows', change: (perDay < 0 ? -1 : 1) * aDay * days, swamped };
}
