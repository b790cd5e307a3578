import type { Consumption } from '../../shared/consumption.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import { valueIn } from './measured.ts';
import { MOST_DAYS, type NextTest } from './next-test.ts';
import type { TankUnits } from './tank.ts';
import type { Course, Shown } from './what-it-shows.ts';

/** What the readings of a parameter show, in a sentence or two; empty for what no tank uses up. */
export function shownInWords(parameter: Parameter, shown: Shown, course: Course, units: TankUnits): string {
  switch (shown.kind) {
    case 'not-used-up':
      return '';
    case 'kit-unknown':
      return `Not enough to tell how it changes: I do not know what your kit may be off by. Give it as kit-error, or note a few more readings; five are enough.`;
    case 'consumption':
      return consumptionInWords(parameter, shown.consumption, course, units);
  }
}

function consumptionInWords(parameter: Parameter, found: Consumption, course: Course, units: TankUnits): string {
  if (found.kind === 'not-enough') return notEnough(found.why);
  const size = (value: number) => valueIn(parameter, Math.abs(value), units);
  const { perDay, low, high, readings, days } = found;
  const from = `from ${readings} readings over ${inDays(days)}${countedIn(parameter, course, units)}`;
  if (found.kind === 'unclear')
    return `Not enough to tell yet, ${from}: anything between a rise of ${size(low)} and a use of ${size(high)} a day would fit.`;
  const [least, most] = [Math.abs(low), Math.abs(high)].sort((one, other) => one - other) as [number, number];
  const span = spanInWords(size(least), size(most));
  return `${perDay > 0 ? 'Uses' : 'Goes up by'} about ${size(perDay)} a day (95 %: ${span}), ${from}.`;
}

/** "0.30 to 0.54 dKH": the unit once, where both ends have the same. */
export function spanInWords(low: string, high: string): string {
  const unit = / .*$/.exec(high)?.[0] ?? '';
  return unit !== '' && low.endsWith(unit) ? `${low.slice(0, -unit.length)} to ${high}` : `${low} to ${high}`;
}

function notEnough(why: Extract<Consumption, { kind: 'not-enough' }>['why']): string {
  switch (why) {
    case 'one-reading':
      return 'One reading is not enough to tell how it changes.';
    case 'one-moment':
      return 'These readings lie too close together to tell how it changes.';
    case 'water-changed':
      return 'Not enough to tell: water was changed between the readings, and I do not know what the new water held.';
  }
}

/** What was reckoned with between the readings. */
function countedIn(parameter: Parameter, { readings, doses, changes }: Course, units: TankUnits): string {
  const until = readings.at(-1)?.at.getTime() ?? 0;
  const given = doses.filter(({ at }) => at.getTime() < until);
  const changed = changes.filter(({ at }) => at.getTime() < until);
  const rise = given.reduce((sum, dose) => sum + dose.rise, 0);
  const parts = [
    ...(given.length > 0
      ? [
          `${counted(given.length, 'dose')} of ${valueIn(parameter, rise, units)} in all${given.some(({ byVolume }) => byVolume) ? ' by the volume kept here' : ''}`,
        ]
      : []),
    ...(changed.length > 0 ? [counted(changed.length, 'water change')] : []),
  ];
  return parts.length > 0 ? `, reckoning with ${parts.join(' and ')}` : '';
}

/** Why the next test is due when it is. */
export function nextTestInWords(parameter: Parameter, next: NextTest, units: TankUnits): string {
  switch (next.why) {
    case 'urgent':
      return 'once you have acted on it; the last reading is urgent';
    case 'outside':
      return 'the last reading is outside of the limits';
    case 'second-reading':
      return 'a second reading shows how it changes';
    case 'change-shows': {
      const change = valueIn(parameter, Math.abs(next.change), units);
      const what = next.change > 0 ? `about ${change} will be used up` : `it will be up by about ${change}`;
      return `by then ${what}, more than the ${valueIn(parameter, next.swamped, units)} that two readings can be off by`;
    }
    case 'week':
      return `a look every ${MOST_DAYS} days, though the change may be too small to show`;
    case 'look':
      return `a look every ${MOST_DAYS} days`;
  }
}

const counted = (count: number, what: string) => `${count} ${what}${count === 1 ? '' : 's'}`;
const inDays = (days: number) => (days < 1.5 ? `${Math.round(days * 24)} hours` : `${Math.round(days)} days`);
