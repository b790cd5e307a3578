import { unionisedAmmonia } from '../../shared/ammonia.ts';
import type { Limit } from '../knowledge/plan.ts';
import { URGENCIES } from '../knowledge/sign.ts';
import type { Happened, ReadingAt } from './fold-events.ts';
import { hoursAfter } from './fold-moment.ts';
import type { Alarm } from './plan-state.ts';

/** Full sea water, where nobody measured the salinity; low salinity has a slightly larger poisonous part. */
const ASSUMED_SALINITY = 35;
const AMMONIA_UNITS = { 'mg/L NH3-N': 'NH3-N', 'mg/L NH3': 'NH3', 'mg/L NH4': 'NH4' } as const;

type Measured = { at: Date; value: number };

/** What the newest readings ask for; of several limits on one quantity the worst alone. */
export function limitAlarms(limits: readonly Limit[], happened: Happened): Alarm[] {
  const series = new Map<Limit['reads'], Measured[]>();
  const worst = new Map<Limit['reads'], Alarm>();
  for (const { reads, urgency, says, ...limit } of limits) {
    const measured = series.get(reads) ?? seriesOf(reads, happened.readings);
    series.set(reads, measured);
    const past = ({ value }: Measured) => value >= (limit.atLeast ?? Infinity) || value <= (limit.atMost ?? -Infinity);
    const last = measured.at(-1);
    if (!last || !past(last)) continue;
    const since = measured.slice(measured.findLastIndex((each) => !past(each)) + 1)[0];
    if (limit.forH !== undefined && since && hoursAfter(since.at, limit.forH) > last.at) continue;
    const known = worst.get(reads);
    if (!known || URGENCIES.indexOf(urgency) < URGENCIES.indexOf(known.urgency))
      worst.set(reads, { at: last.at, urgency, about: reads, says });
  }
  return [...worst.values()];
}

function seriesOf(reads: Limit['reads'], readings: readonly ReadingAt[]): Measured[] {
  return reads === 'nh3' ? poisonousPart(readings) : readings.filter(({ reading }) => reading.parameter === reads);
}

/** Un-ionised ammonia at every ammonia reading, with the water as it was last measured by then. */
function poisonousPart(readings: readonly ReadingAt[]): Measured[] {
  const water: { ph?: number; temperature?: number; salinity?: number } = {};
  return readings.flatMap(({ at, reading }) => {
    if (reading.parameter === 'ph' || reading.parameter === 'temperature' || reading.parameter === 'salinity')
      water[reading.parameter] = reading.value;
    if (reading.parameter !== 'ammonia' || water.ph === undefined || water.temperature === undefined) return [];
    const told = unionisedAmmonia({
      totalMgPerL: reading.value,
      unit: AMMONIA_UNITS[reading.unit],
      ph: water.ph,
      temperatureC: water.temperature,
      practicalSalinity: water.salinity ?? ASSUMED_SALINITY,
    });
    return told.kind === 'ammonia' ? [{ at, value: told.nh3MgPerL }] : [];
  });
}
