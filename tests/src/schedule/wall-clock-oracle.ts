/** A second way from wall time to instant, by looking: what a calendar in that zone shows, minute by minute. */
export function wallClock(zone: string) {
  const format = new Intl.DateTimeFormat('en-CA', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
  });
  /** "2026-03-29 01:30" as a clock on the wall shows an instant. */
  return (at: Date): string => {
    const part = Object.fromEntries(format.formatToParts(at).map(({ type, value }) => [type, value]));
    return `${part['year']}-${part['month']}-${part['day']} ${part['hour']}:${part['minute']}`;
  };
}

const MINUTE_MS = 60_000;
const HALF_A_DAY_MS = 43_200_000;

/**
 * The instant at which the wall shows this: the first of two; null where the clocks skip it. Every minute around is
 * looked at, so nothing is taken from a rule about offsets.
 */
export function firstInstantShowing(zone: string, date: string, timeOfDay: string): Date | null {
  const shows = wallClock(zone);
  const wanted = `${date} ${timeOfDay}`;
  const about = Date.parse(`${date}T${timeOfDay}:00Z`);
  // Zones lie within fourteen hours of UTC; the minutes outside of the offset's neighbourhood cannot match.
  const offsetMs = Date.parse(`${shows(new Date(about)).replace(' ', 'T')}:00Z`) - about;
  for (let ms = about - offsetMs - HALF_A_DAY_MS / 4; ms <= about - offsetMs + HALF_A_DAY_MS / 4; ms += MINUTE_MS)
    if (shows(new Date(ms)) === wanted) return new Date(ms);
  return null;
}
