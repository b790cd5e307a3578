// Times on the page: in the acting member's zone, against the room's clock.

export type Place = { zone: string; locale: string };

const STYLES: Record<string, Intl.DateTimeFormatOptions> = {
  t: { timeStyle: 'short' },
  T: { timeStyle: 'medium' },
  d: { dateStyle: 'short' },
  D: { dateStyle: 'long' },
  f: { dateStyle: 'long', timeStyle: 'short' },
  F: { dateStyle: 'full', timeStyle: 'short' },
  s: { dateStyle: 'short', timeStyle: 'short' },
  S: { dateStyle: 'short', timeStyle: 'medium' },
};
const STEPS: [Intl.RelativeTimeFormatUnit, number, number][] = [
  ['second', 1000, 60],
  ['minute', 60_000, 60],
  ['hour', 3_600_000, 24],
  ['day', 86_400_000, 30],
  ['month', 2_629_800_000, 12],
  ['year', 31_557_600_000, Infinity],
];

function formatter(place: Place, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  try {
    return new Intl.DateTimeFormat(place.locale, { ...options, timeZone: place.zone });
  } catch {
    return new Intl.DateTimeFormat('en-GB', { ...options, timeZone: 'UTC' });
  }
}

/** Writes an instant in one of Discord's timestamp styles. */
export function writeTime(instant: Date, style: string, place: Place, now: Date): string {
  if (Number.isNaN(instant.getTime())) return 'an impossible date';
  if (style === 'R') return relative(instant, place, now);
  return formatter(place, STYLES[style] ?? STYLES.f ?? {}).format(instant);
}

/** The calendar day of an instant, for the lines between days. */
export function dayOf(instant: Date, place: Place): string {
  return formatter(place, { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' }).format(instant);
}

function relative(instant: Date, place: Place, now: Date): string {
  const apart = instant.getTime() - now.getTime();
  const [unit, size] = STEPS.find(([, length, most]) => Math.round(Math.abs(apart) / length) < most) ?? [
    'year',
    31_557_600_000,
  ];
  // Past and future round alike: 90 minutes are two hours on both sides.
  const count = Math.sign(apart) * Math.round(Math.abs(apart) / size);
  return new Intl.RelativeTimeFormat(place.locale, { numeric: 'auto' }).format(count, unit);
}
