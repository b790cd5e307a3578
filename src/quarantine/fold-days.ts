import { Temporal } from 'temporal-polyfill';

const DAY_MS = 86_400_000;

/** Local days of one zone as whole numbers, counted from 1 January 1970. */
export type LocalDays = {
  dayOf: (at: Date) => number;
  /** The first instant of a local day. */
  startOf: (day: number) => Date;
  /** An hour of the clock on a local day. */
  hourOf: (day: number, hour: number) => Date;
  dateOf: (day: number) => string;
};

/** The rules of a zone are slow to ask and never change while the bot runs, so what they said is kept. */
const KNOWN = new Map<string, LocalDays>();
const MOST_ZONES = 100;

/** Local days of a zone. Its rules are asked once a day and not once an event, since a plan has many events on few days. */
export function localDays(zone: string): LocalDays {
  const known = KNOWN.get(zone);
  if (known) return known;
  if (KNOWN.size >= MOST_ZONES) KNOWN.clear();
  const days = daysIn(zone);
  KNOWN.set(zone, days);
  return days;
}

function daysIn(zone: string): LocalDays {
  const starts = new Map<number, number>();
  const dateOf = (day: number) => new Date(day * DAY_MS).toISOString().slice(0, 10);
  const startMs = (day: number): number => {
    const known = starts.get(day);
    if (known !== undefined) return known;
    const start = Temporal.PlainDate.from(dateOf(day)).toZonedDateTime(zone).epochMilliseconds;
    starts.set(day, start);
    return start;
  };
  return {
    dateOf,
    startOf: (day) => new Date(startMs(day)),
    hourOf: (day, hour) =>
      new Date(
        Temporal.PlainDate.from(dateOf(day)).toZonedDateTime({ timeZone: zone, plainTime: { hour } }).epochMilliseconds,
      ),
    dayOf: (at) => {
      const ms = at.getTime();
      let day = Math.floor(ms / DAY_MS);
      while (ms < startMs(day)) day -= 1;
      while (ms >= startMs(day + 1)) day += 1;
      return day;
    },
  };
}
