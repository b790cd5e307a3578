import { consumption, type Consumption } from '../../shared/consumption.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import { isUsedUp } from './measured.ts';
import type { Tank } from './tank.ts';
import { riseOf, type LogEntry, type Reading } from './tank-log.ts';

const DAY_MS = 86_400_000;
/** Older readings tell of another time: corals grow, and consumption with them. */
const WINDOW_DAYS = 42;
const MOST_READINGS = 24;
export const WINDOW_MS = WINDOW_DAYS * DAY_MS;

/** What the readings of a parameter show. `kit-unknown`: readings are few, and nobody knows what the kit may be off by. */
export type Shown =
  | { kind: 'not-used-up' }
  | { kind: 'kit-unknown'; readings: number }
  | { kind: 'consumption'; consumption: Consumption };

/** What happened to one parameter, with days counted from the oldest reading that counts. */
export type Course = {
  readings: readonly Reading[];
  /** `byVolume`: its rise follows from grams and the volume, and is as far off as that is. */
  doses: readonly { at: Date; rise: number; byVolume: boolean }[];
  /** `newWater` null: nobody said what the new water held. */
  changes: readonly { at: Date; share: number; newWater: number | null }[];
};

/** What a reading may be off by: as its member said, or as kits of its kind are, at the careful end; null: unknown. */
export const errorOf = (parameter: Parameter, { kitError }: Pick<Reading, 'kitError'>): number | null =>
  kitError ?? parameter.kitError?.high ?? null;

/** The recent course of a parameter: the last readings, and what was dosed and changed since the first of them. */
export function courseOf(parameter: Parameter, tank: Pick<Tank, 'netVolumeL'>, log: readonly LogEntry[]): Course {
  const all = log.flatMap((entry) => (entry.kind === 'reading' && entry.parameter === parameter.id ? [entry] : []));
  const inOrder = all.toSorted((one, other) => one.at.getTime() - other.at.getTime());
  const last = inOrder.at(-1)?.at.getTime() ?? 0;
  const readings = inOrder.filter(({ at }) => last - at.getTime() <= WINDOW_MS).slice(-MOST_READINGS);
  const from = readings[0]?.at.getTime() ?? Number.POSITIVE_INFINITY;
  const since = log.filter(({ at }) => at.getTime() >= from);
  return {
    readings,
    doses: log
      .flatMap((entry) => {
        if (entry.kind !== 'dose') return [];
        const rise = riseOf(entry, parameter.id, tank.netVolumeL);
        return rise === 0 ? [] : daysOf(entry).map((at) => ({ at, rise, byVolume: entry.effect.by === 'total' }));
      })
      .filter(({ at }) => at.getTime() >= from),
    changes: since.flatMap((entry) =>
      entry.kind === 'water-change'
        ? [{ at: entry.at, share: entry.share, newWater: entry.newWater[parameter.id] ?? null }]
        : [],
    ),
  };
}

/** The moments of a dose that was given on several days in a row. */
const daysOf = ({ at, days }: { at: Date; days: number }): Date[] =>
  Array.from({ length: days }, (_, before) => new Date(at.getTime() - (days - 1 - before) * DAY_MS));

/** What a course shows of what the tank uses up in a day. `volumeError`: what the volume may be off by, as a share. */
export function shownBy(parameter: Parameter, { readings, doses, changes }: Course, volumeError: number): Shown {
  if (!isUsedUp(parameter)) return { kind: 'not-used-up' };
  const day = (at: Date) => at.getTime() / DAY_MS;
  const found = consumption({
    readings: readings.map((reading) => ({
      day: day(reading.at),
      value: reading.value,
      kitError: errorOf(parameter, reading) ?? 0,
    })),
    doses: doses.map(({ at, rise }) => ({ day: day(at), rise })),
    waterChanges: changes.map(({ at, share, newWater }) => ({ day: day(at), share, newWater })),
  });
  const kitUnknown = readings.some((reading) => errorOf(parameter, reading) === null);
  if (kitUnknown && found.kind !== 'not-enough' && found.by === 'kit-error')
    return { kind: 'kit-unknown', readings: readings.length };
  return { kind: 'consumption', consumption: withVolumeError(found, { readings, doses, changes }, volumeError) };
}

/**
 * The interval with the volume's error in it: what doses by the gram raised is off by the same share, so the rate is off by that
 * share of what was dosed in a day. The errors are independent and add in quadrature.
 */
function withVolumeError(found: Consumption, { readings, doses }: Course, volumeError: number): Consumption {
  if (found.kind === 'not-enough' || found.days === 0) return found;
  const [first = 0, last = 0] = [readings[0], readings.at(-1)].map((reading) => reading?.at.getTime());
  const dosed = doses
    .filter(({ at, byVolume }) => byVolume && at.getTime() >= first && at.getTime() < last)
    .reduce((sum, { rise }) => sum + rise, 0);
  const off = (volumeError * dosed) / found.days;
  const low = found.perDay - Math.hypot(found.perDay - found.low, off);
  const high = found.perDay + Math.hypot(found.high - found.perDay, off);
  return { ...found, low, high, kind: low > 0 || high < 0 ? 'told' : 'unclear' };
}
