const HOURS_A_DAY = 24;
/** Up to here people count hours. */
const COUNTED_IN_HOURS = 48;

/**
 * A span of whole hours as people say it: "1 hour", "48 hours", "3 days", "4 days and 6 hours".
 *
 * @throws RangeError when the hours are not a whole number from 1 up.
 */
export function hoursInWords(hours: number): string {
  if (!Number.isInteger(hours) || hours < 1) throw new RangeError(`hours must be a whole number from 1, got ${hours}`);
  if (hours <= COUNTED_IN_HOURS) return counted(hours, 'hour');
  const rest = hours % HOURS_A_DAY;
  const days = counted((hours - rest) / HOURS_A_DAY, 'day');
  return rest === 0 ? days : `${days} and ${counted(rest, 'hour')}`;
}

const counted = (count: number, unit: string): string => `${count} ${unit}${count === 1 ? '' : 's'}`;
