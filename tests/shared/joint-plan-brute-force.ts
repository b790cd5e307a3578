import type { JointPlanInput, Planned, PlanReagent } from '../../shared/joint-plan-model.ts';
import { densityKgPerM3 } from '../../shared/seawater-density.ts';
import { ALL_PLANNED, risesOf, saltAndDrift } from './joint-plan-stage.ts';

// A search that knows nothing of linear programming: totals on a grid, each total shared over the days in equal portions,
// every rule looked at one by one. One reagent for each target makes up what the others leave, so targets are met exactly.

/** Portions into which a total is shared; it divides evenly over one, two, three and four days. */
const PORTIONS = 12;

export type Found = { objective: number; days: number };
type Plan = ReadonlyMap<PlanReagent, readonly number[]>;

/** The best plan on the grid in so many days; null when the grid holds none. `makers`: the reagent that makes up each target. */
export function bruteForce(
  input: JointPlanInput,
  makers: ReadonlyMap<Planned, PlanReagent>,
  days: number,
  steps: number,
): Found | null {
  const density = densityKgPerM3(input);
  const rises = new Map(input.reagents.map((each) => [each, risesOf(input, each, density)]));
  const candidates = totals(input, makers, rises, steps)
    .map((grams) => ({ grams, objective: saltAndDrift(grams) }))
    .toSorted((one, other) => one.objective - other.objective);
  const best = candidates.find(({ grams }) => canBeShared(input, grams, rises, days));
  return best ? { objective: best.objective, days } : null;
}

type Rises = ReadonlyMap<PlanReagent, Readonly<Record<Planned, number>>>;

function totals(
  input: JointPlanInput,
  makers: ReadonlyMap<Planned, PlanReagent>,
  rises: Rises,
  steps: number,
): Map<PlanReagent, number>[] {
  const need = (planned: Exclude<Planned, 'salinity'>) => {
    const level = input.levels[planned];
    return level?.target === undefined ? 0 : level.target - level.now;
  };
  const rise = (each: PlanReagent, planned: Planned) => rises.get(each)?.[planned] ?? 0;
  const made = [...makers.keys()].filter((planned) => planned !== 'salinity');
  const free = input.reagents.filter((each) => ![...makers.values()].includes(each));
  let grid: Map<PlanReagent, number>[] = [new Map()];
  for (const each of free) {
    // More than any target asks for is never right.
    const most = Math.min(
      ...made.filter((planned) => rise(each, planned) > 0).map((planned) => need(planned) / rise(each, planned)),
    );
    grid = grid.flatMap((so) =>
      Array.from({ length: steps + 1 }, (_none, step) => new Map(so).set(each, (most * step) / steps)),
    );
  }
  return grid.flatMap((so) => {
    const whole = new Map(so);
    for (const planned of made) {
      const maker = makers.get(planned);
      if (!maker) continue;
      const left = [...so].reduce((left, [each, grams]) => left - grams * rise(each, planned), need(planned));
      if (left < -1e-9) return [];
      whole.set(maker, Math.max(0, left) / rise(maker, planned));
    }
    return [whole];
  });
}

/** Whether the totals can be shared over the days, in portions, so that every rule holds. */
function canBeShared(
  input: JointPlanInput,
  grams: ReadonlyMap<PlanReagent, number>,
  rises: Rises,
  days: number,
): boolean {
  const used = [...grams].filter(([, each]) => each > 1e-9);
  const extend = (at: number, plan: Map<PlanReagent, readonly number[]>): boolean => {
    if (!keepsRules(input, plan, rises, days)) return false;
    const next = used[at];
    if (!next) return true;
    const [reagent, total] = next;
    return shares(days).some((share) =>
      extend(
        at + 1,
        new Map(plan).set(
          reagent,
          share.map((portions) => (total * portions) / PORTIONS),
        ),
      ),
    );
  };
  return extend(0, new Map());
}

const known = new Map<string, number[][]>();
function shares(days: number, portions = PORTIONS): number[][] {
  const key = `${days} ${portions}`;
  const before = known.get(key);
  if (before) return before;
  const all =
    days === 1
      ? [[portions]]
      : Array.from({ length: portions + 1 }, (_none, first) => first).flatMap((first) =>
          shares(days - 1, portions - first).map((rest) => [first, ...rest]),
        );
  known.set(key, all);
  return all;
}

function keepsRules(input: JointPlanInput, plan: Plan, rises: Rises, days: number): boolean {
  for (let day = 0; day < days; day += 1)
    for (const planned of ALL_PLANNED) {
      const rise = [...plan].reduce(
        (sum, [each, daily]) => sum + (daily[day] ?? 0) * (rises.get(each)?.[planned] ?? 0),
        0,
      );
      if (rise > input.rules[planned].riseADay * (1 + 1e-9)) return false;
    }
  return [...plan].every(([later, daily]) => {
    const first = daily.findIndex((grams) => grams > 0);
    return [...plan].every(([earlier, before]) => !waitsFor(input, later, earlier) || lastOf(before) <= first);
  });
}

const lastOf = (daily: readonly number[]) => daily.findLastIndex((grams) => grams > 0);

/** Whether a reagent has to wait until another one is in, over any number of steps. */
function waitsFor({ rules }: JointPlanInput, later: PlanReagent, earlier: PlanReagent): boolean {
  const reaches = (from: Planned): boolean =>
    rules[from].after.some((first) => earlier.raises.includes(first) || reaches(first));
  return later.raises.some(reaches);
}
