import { localDays, type LocalDays } from './fold-days.ts';
import type { EventOf, PlanEvent, Reading, Seen } from './plan-event.ts';

/** What can be taken for a mass of copper: copper sulfate pentahydrate is 25.45 % copper (63.546 / 249.68). */
const COPPER_IN_SULFATE = 0.2545;

export type SignAt = Seen & { at: Date };
export type ReadingAt = { at: Date; reading: Reading; value: number };

/** The events that count, in the order in which they happened. */
export type Happened = {
  started: EventOf<'started'>;
  now: Date;
  days: LocalDays;
  events: readonly PlanEvent[];
  signs: readonly SignAt[];
  readings: readonly ReadingAt[];
};

/**
 * Takes out what was undone and what lies ahead of `now`, and puts the rest in order of time. Events of one instant are ordered
 * by id, so that the order of arrival never matters. An undoing can itself be undone.
 */
export function whatHappened(all: readonly PlanEvent[], now: Date, zone: string): Happened | null {
  const undone = undoneIds(all);
  const events = all
    .filter((event) => event.kind !== 'undone' && !undone.has(event.id) && event.at <= now)
    .sort((a, b) => a.at.getTime() - b.at.getTime() || (a.id < b.id ? -1 : 1));
  const started = events.find((event) => event.kind === 'started');
  if (!started) return null;
  const since = events.filter(({ at }) => at >= started.at);
  return {
    started,
    now,
    days: localDays(zone),
    events: since,
    signs: since.flatMap((event) => {
      if (event.kind === 'sign-seen') return [event];
      return event.kind === 'check-in' ? event.signs.map((sign) => ({ ...sign, at: event.at })) : [];
    }),
    readings: since.flatMap((event) =>
      event.kind === 'reading' ? [{ at: event.at, reading: event.reading, value: valueOf(event.reading) }] : [],
    ),
  };
}

/** The value in the unit that limits are written in: mg/L of copper, mg/L of NO2. */
function valueOf(reading: Reading): number {
  if (reading.parameter === 'copper' && reading.unit !== 'mg/L Cu') return reading.value * COPPER_IN_SULFATE;
  // 46.005 / 14.007
  if (reading.parameter === 'nitrite' && reading.unit === 'mg/L NO2-N') return reading.value * 3.284;
  return reading.value;
}

function undoneIds(events: readonly PlanEvent[]): ReadonlySet<string> {
  const undone = new Set<string>();
  const undoings = events.filter((event) => event.kind === 'undone');
  const aimedAt = new Map(undoings.map((event) => [event.id, event.eventId]));
  // Only an undoing that stands takes something out; what it takes out may be another undoing.
  const stands = (id: string, seen: ReadonlySet<string>): boolean =>
    ![...aimedAt].some(([by, target]) => target === id && !seen.has(by) && stands(by, new Set([...seen, by])));
  for (const { id, eventId } of undoings) if (stands(id, new Set([id]))) undone.add(eventId);
  return undone;
}
