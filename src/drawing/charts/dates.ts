// Dates on charts. A chart has no clock: it writes the days of the zone offset that it is given.

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const MINUTE = 60_000;
export const DAY = 86_400_000;

/** 1900 to 2200: outside of it a date is a slip. */
const [EARLIEST, LATEST] = [Date.UTC(1900, 0), Date.UTC(2200, 0)];

/** Milliseconds of the local time of a date, as if it were UTC. @throws RangeError when the date is none. */
export function localTime(what: string, date: Date, zoneOffsetMinutes: number): number {
  const time = date.getTime();
  if (!(time >= EARLIEST && time <= LATEST)) throw new RangeError(`${what} is not a date that can be drawn`);
  if (!(Math.abs(zoneOffsetMinutes) <= 24 * 60)) throw new RangeError(`zone offset of ${zoneOffsetMinutes} minutes`);
  return time + zoneOffsetMinutes * MINUTE;
}

/** "12 Nov" */
export function dayInWords(local: number): string {
  const date = new Date(local);
  return `${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]}`;
}

/** "12 Nov 2026" */
export const dateInWords = (local: number) => `${dayInWords(local)} ${new Date(local).getUTCFullYear()}`;

/** How marks on an axis are written when they are this far apart. */
export function dateFormat(stepMs: number): (local: number) => string {
  if (stepMs > 360 * DAY) return (local) => String(new Date(local).getUTCFullYear());
  if (stepMs > 27 * DAY) return (local) => `${MONTHS[new Date(local).getUTCMonth()]} ${new Date(local).getUTCFullYear()}`; // prettier-ignore
  return dayInWords;
}

/** "5 Nov, 9 Nov and 4 more days"; with years where there are several. */
export function daysInWords(locals: readonly number[], most: number): string {
  const years = new Set(locals.map((local) => new Date(local).getUTCFullYear()));
  const written = years.size > 1 ? dateInWords : dayInWords;
  const days = [...new Set(locals.toSorted((one, other) => one - other).map(written))];
  const left = days.length - most;
  return days.slice(0, most).join(', ') + (left > 0 ? ` and ${left} more ${left > 1 ? 'days' : 'day'}` : '');
}
