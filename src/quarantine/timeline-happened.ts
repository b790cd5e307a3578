// What happened during a plan, as marks: signs, deaths, moves, and of the readings those that mattered.
import type { TimelineData } from '../drawing/charts/charts.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Sign } from '../knowledge/sign.ts';
import type { Happened, ReadingAt } from './fold-events.ts';
import { limitsOf, readingsOf } from './fold-in-range.ts';
import { isTurn } from './fold-run.ts';
import type { PlanState } from './plan-state.ts';
import { signName } from './state-words.ts';

type Mark = TimelineData['marks'][number];

export function timelineMarks(
  signs: ReadonlyMap<string, Sign>,
  plan: Plan,
  { broken }: PlanState,
  happened: Happened,
): Mark[] {
  const seen = happened.signs.map(({ at, sign }): Mark => ({ at, kind: 'sign', label: signName(signs, sign) }));
  const acts = happened.events.flatMap((event): Mark[] => {
    const { at } = event;
    if (event.kind === 'death') return [{ at, kind: 'death', label: event.causeKnown ? 'cause known' : 'cause unknown' }]; // prettier-ignore
    if (event.kind === 'animal-added') return [{ at, kind: 'moved', label: 'a new animal came in' }];
    if (event.kind === 'shared-water') return [{ at, kind: 'moved', label: 'water or a wet tool from another tank' }]; // prettier-ignore
    if (event.kind !== 'moved-tank') return [];
    // A move that is a turn of the plan stands in its lane, unless it did not go as planned.
    const run = plan.runs.find((each) => isTurn(each, event));
    const amiss = broken.find((each) => each.of === run?.id && each.at.getTime() === at.getTime());
    return run && !amiss
      ? []
      : [{ at, kind: 'moved', label: amiss?.says.replace(`${run?.title}: `, '') ?? 'to the next tank' }];
  });
  const notable = notableReadings(plan, happened).map((reading): Mark => ({ at: reading.at, kind: 'reading', label: readingWords(reading) })); // prettier-ignore
  return [...seen, ...acts, ...notable];
}

/** Readings past a limit of the plan, and those outside the range of a hold once it had begun. */
function notableReadings(plan: Plan, happened: Happened): ReadingAt[] {
  const notable = new Set<ReadingAt>();
  for (const { reads, atLeast, atMost } of plan.limits) {
    for (const each of happened.readings) {
      if (each.reading.parameter !== reads) continue;
      if (each.value >= (atLeast ?? Infinity) || each.value <= (atMost ?? -Infinity)) notable.add(each);
    }
  }
  for (const { range } of plan.holds) {
    const limits = range && limitsOf(range, happened);
    if (!limits) continue;
    const low = limits.low ?? range.pauseBelow ?? -Infinity;
    const high = Math.min(limits.stopAt ?? Infinity, limits.stopAbove ?? range.pauseAbove ?? limits.high ?? Infinity);
    const readings = readingsOf(range, limits, happened);
    const begins = readings.findIndex(({ value }) => value >= low && value <= (limits.high ?? Infinity));
    for (const [at, each] of readings.entries()) {
      // On the way to the range nothing is amiss, unless it went too far.
      const began = begins >= 0 && at > begins;
      const past = each.value > high && (range.pauseAbove === undefined || began);
      if (past || (began && each.value < low)) notable.add(each);
    }
  }
  return [...notable];
}

const READS: Readonly<Record<string, string>> = { ph: 'pH' };

function readingWords({ reading }: ReadingAt): string {
  const { parameter, value, unit } = reading;
  const figures = String(Math.round(value * 1000) / 1000);
  return `${READS[parameter] ?? parameter} ${figures}${unit === 'pH' ? '' : ` ${unit}`}`;
}
