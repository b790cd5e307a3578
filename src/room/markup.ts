import type { World } from './world.ts';
import type { WorldMember } from './world-shapes.ts';

const DAY_S = 86_400;
const STEPS: [Intl.RelativeTimeFormatUnit, number][] = [
  ['year', 365 * DAY_S],
  ['month', 30 * DAY_S],
  ['day', DAY_S],
  ['hour', 3600],
  ['minute', 60],
  ['second', 1],
];
const STYLES: Record<string, Intl.DateTimeFormatOptions> = {
  t: { timeStyle: 'short' },
  T: { timeStyle: 'medium' },
  d: { dateStyle: 'short' },
  D: { dateStyle: 'long' },
  f: { dateStyle: 'long', timeStyle: 'short' },
  F: { dateStyle: 'full', timeStyle: 'short' },
};

/** A text as the reader has it before them: names in place of ids, instants in the reader's own zone and words. */
export function readMarkup(text: string, world: World, reader: WorldMember): string {
  return text
    .replace(/<@!?(\d+)>/g, (whole, id: string) => named('@', world.members.get(id)?.name, whole))
    .replace(/<@&(\d+)>/g, (whole, id: string) => named('@', world.roles.get(id)?.name, whole))
    .replace(/<#(\d+)>/g, (whole, id: string) => named('#', world.channels.get(id)?.name, whole))
    .replace(/<\/([^:>]+):\d+>/g, '/$1')
    .replace(/<t:(-?\d+)(?::([tTdDfFR]))?>/g, (_whole, seconds: string, style = 'f') =>
      readInstant(Number(seconds), style, world.clock.now(), reader),
    );
}

const named = (mark: string, name: string | undefined, whole: string) => (name === undefined ? whole : mark + name);

function readInstant(seconds: number, style: string, now: Date, { locale, zone }: WorldMember): string {
  if (style !== 'R')
    return new Intl.DateTimeFormat(locale, { ...STYLES[style], timeZone: zone }).format(seconds * 1000);
  const away = seconds - Math.round(now.getTime() / 1000);
  const [unit, size] = STEPS.find(([, one]) => Math.abs(away) >= one) ?? ['second', 1];
  return new Intl.RelativeTimeFormat(locale, { numeric: 'always' }).format(Math.round(away / size), unit);
}
