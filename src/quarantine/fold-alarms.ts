import type { Plan } from '../knowledge/plan.ts';
import { URGENCIES } from '../knowledge/sign.ts';
import type { Happened } from './fold-events.ts';
import { phaseOf } from './fold-holds.ts';
import { limitsOf, readingsOf, uncounted } from './fold-in-range.ts';
import { limitAlarms } from './fold-limits.ts';
import { hoursAfter } from './fold-moment.ts';
import type { Alarm, HoldState } from './plan-state.ts';

/** What cannot wait, the worst first: signs with no good check-in since, and the newest readings past a limit. */
export function alarmsNow(plan: Plan, happened: Happened, holds: readonly HoldState[], completed: boolean): Alarm[] {
  const { signs, started } = happened;
  const well = lastAllWell(happened);
  const alarms: Alarm[] = [];
  if (plan.emergency !== undefined && !completed)
    alarms.push({ at: started.at, urgency: 'emergency', about: plan.id, says: plan.emergency });
  alarms.push(...deathAlarms(plan, happened, well));
  for (const { sign, urgency, at } of signs) {
    if (urgency !== 'watch' && (!well || at > well)) alarms.push({ at, urgency, about: sign, says: sign });
  }
  const told = new Set<string>();
  for (const hold of plan.holds) {
    const { range } = hold;
    const limits = range && limitsOf(range, happened);
    const last = limits && readingsOf(range, limits, happened).at(-1);
    if (last && !told.has(range.reads)) {
      if (last.value >= (limits.stopAt ?? Infinity) || last.value > (limits.stopAbove ?? Infinity)) {
        told.add(range.reads);
        alarms.push({ at: last.at, urgency: 'emergency', about: range.reads, says: range.stopSays ?? plan.never });
      }
    }
    if (range?.stopSigns && phaseOf(plan, holds, hold.id) === 'counting') {
      const { signs: stops, says } = range.stopSigns;
      const seen = badAt(happened, stops, well);
      if (seen) alarms.push({ at: seen, urgency: 'emergency', about: range.reads, says });
    }
  }
  if (!completed) alarms.push(...uncountedNow(plan, happened, holds));
  alarms.push(...limitAlarms(plan, happened, holds));
  return alarms.sort(
    (a, b) => URGENCIES.indexOf(a.urgency) - URGENCIES.indexOf(b.urgency) || a.at.getTime() - b.at.getTime(),
  );
}

/** The newest readings that no hold of the plan can count, with the reason, so that nobody wonders where the days went. */
export function uncountedNow(plan: Plan, happened: Happened, holds: readonly HoldState[]): Alarm[] {
  return plan.holds.flatMap(({ id, range }): Alarm[] => {
    const limits = range && limitsOf(range, happened);
    const open = holds.some((each) => each.id === id && !each.reached);
    const missed = open && limits ? uncounted(range, limits, happened) : null;
    return missed ? [{ ...missed, urgency: 'soon', about: range?.reads ?? id }] : [];
  });
}

const lastAllWell = ({ events }: Happened): Date | null =>
  events.findLast((event) => event.kind === 'check-in' && event.signs.length === 0 && event.appetite !== 'none')?.at ??
  null;

/** The newest of these signs, or of meals that were refused, that no good check-in followed. */
function badAt({ events, signs }: Happened, stops: readonly string[], well: Date | null): Date | null {
  const refused = events.filter((event) => event.kind === 'check-in' && event.appetite === 'none');
  const seen = [...signs.filter(({ sign }) => stops.includes(sign)), ...refused].map(({ at }) => at);
  const newest = seen.reduce<Date | null>((a, b) => (a && a > b ? a : b), null);
  return newest && (!well || newest > well) ? newest : null;
}

/** Several deaths that nobody can explain, close together; over once all was well that long after the last one. */
function deathAlarms({ id, deaths }: Plan, { events }: Happened, well: Date | null): Alarm[] {
  if (!deaths) return [];
  const times = events.flatMap((event) => (event.kind === 'death' && !event.causeKnown ? [event.at] : []));
  const close = times.filter((at, index) => {
    const first = times[index - deaths.atLeast + 1];
    return first !== undefined && hoursAfter(first, deaths.withinH) >= at;
  });
  const last = close.at(-1);
  if (!last || (well && well >= hoursAfter(last, deaths.withinH))) return [];
  return [{ at: last, urgency: 'emergency', about: `${id}-deaths`, says: deaths.says }];
}
