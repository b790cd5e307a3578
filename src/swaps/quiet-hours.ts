import { localHour, nextOccurrence } from '../schedule/local-time.ts';

const DAY_MS = 86_400_000;
/** So long a keeper may take a fresh offer back before anybody hears of it. */
const AFTER_MS = 60_000;
const FROM_HOUR = 22;
const TO_HOUR = 8;

/** When the night is over where somebody lives; null by day, and where nobody knows where that is. */
export function quietUntil(zone: string | null, now: Date): Date | null {
  if (zone === null) return null;
  const hour = localHour(now, zone);
  if (hour >= TO_HOUR && hour < FROM_HOUR) return null;
  return nextOccurrence({ timeOfDay: `0${TO_HOUR}:00`, zone }, now).at;
}

/** When a member may hear of something new: once a day, and not at night. */
export function newsDueAt(lastTold: Date | null, zone: string | null, now: Date): Date {
  const soon = now.getTime() + AFTER_MS;
  const at = new Date(lastTold === null ? soon : Math.max(soon, lastTold.getTime() + DAY_MS));
  return quietUntil(zone, at) ?? at;
}
