import { effectsOf, type Effects } from './joint-plan-effects.ts';
import {
  PLANNED,
  type JointPlanInput,
  type JointPlanOutcome,
  type Level,
  type Planned,
  type PlanReagent,
  type Reading,
  type SolveProgramme,
  type Solved,
} from './joint-plan-model.ts';
import { daysOf, sharesOf, spansOf, turnsOf, type Span } from './joint-plan-order.ts';
import {
  above,
  evenestProgramme,
  leastDaysProgramme,
  leastOvershootProgramme,
  leastSaltProgramme,
  type Wanted,
} from './joint-plan-programme.ts';
import { planFrom } from './joint-plan-result.ts';
import { firstOutOfRange } from './range.ts';
import { PRACTICAL_SALINITY, TEMPERATURE_C, VOLUME_L } from './water-ranges.ts';

/** What tests in the house can read, with room on either side. */
export const PLAN_RANGES = {
  volumeL: VOLUME_L,
  temperatureC: TEMPERATURE_C,
  practicalSalinity: PRACTICAL_SALINITY,
  targetSalinity: PRACTICAL_SALINITY,
  alkalinityNowDkh: [0, 25],
  alkalinityTargetDkh: [0, 25],
  calciumNowMgPerL: [0, 1000],
  calciumTargetMgPerL: [0, 1000],
  magnesiumNowMgPerL: [0, 2500],
  magnesiumTargetMgPerL: [0, 2500],
} as const;

/** Above this nobody doses to the end of a plan; only caps that are next to nothing lead there. */
const MOST_DAYS = 365;
/** Relative; a smaller step is the same value. */
const SAME = 1e-9;

/**
 * One plan for alkalinity, calcium, magnesium and salinity together, from the reagents at hand.
 *
 * Relation: of all plans that reach every target exactly, keep every daily cap and the order of the rules, it takes one
 * with the fewest days; of those, one with the least Σ salt + Σ |ion off natural| (`leastSaltProgramme`), a linear
 * programme; of those, the one that doses each reagent most evenly. Reagents that are not dosed for a value that has to
 * rise are left out.
 * Units: litres, °C, practical salinity, dKH and mg/L in; grams and millilitres out, values after each day.
 * Source: arithmetic from formulas and reference sea water; caps, order and spacing come in as `rules`.
 * Error: as the tests' readings go in; the arithmetic itself holds to 1e-9, salinity as `effectsOf` says. Nothing is
 * reckoned for what the animals use up meanwhile.
 *
 * @throws RangeError for rules that contradict themselves: a cap that is not positive, values that wait for each other.
 */
export async function jointPlan(input: JointPlanInput, solve: SolveProgramme): Promise<JointPlanOutcome> {
  const model = modelOf(input);
  if (model.kind !== 'model') return model;
  const { levels, effects, wanted } = model;
  const met = await solve(leastOvershootProgramme(effects, wanted));
  if (met.kind !== 'optimal') return notSolved(met);
  const over = levels.flatMap((level) => {
    const caps = met.values[above(level.planned)] ?? 0;
    const endsAt = level.target + caps * wanted.capADay[level.planned];
    return caps > SAME ? [{ ...level, endsAt }] : [];
  });
  if (over.length > 0) return { kind: 'cannot-reach', why: 'conflict', values: over };
  return fewestDays(input, model, solve);
}

type WithoutSolving = Exclude<JointPlanOutcome, { kind: 'plan' } | { kind: 'not-solved' }>;

/** The outcome where no solver is needed to tell it; null where one is. Throws as `jointPlan` does. */
export function toldWithoutSolving(input: JointPlanInput): WithoutSolving | null {
  const model = modelOf(input);
  return model.kind === 'model' ? null : model;
}

type Model = {
  kind: 'model';
  levels: readonly ({ planned: Planned } & Level)[];
  reagents: readonly PlanReagent[];
  effects: readonly Effects[];
  wanted: Wanted;
};

function modelOf(input: JointPlanInput): Model | WithoutSolving {
  const outside = firstOutOfRange(valuesOf(input), PLAN_RANGES);
  if (outside) return outside;
  checkReagents(input);
  const levels = PLANNED.flatMap((planned) => {
    const level = levelOf(input, planned);
    return level ? [{ planned, ...level }] : [];
  });
  const lower = levels.filter((level) => changeOf(level) < 0);
  if (lower.length > 0) return { kind: 'cannot-lower', values: lower };
  const rising = levels.filter((level) => changeOf(level) > 0).map(({ planned }) => planned);
  if (rising.length === 0) return { kind: 'nothing-to-do' };

  const reagents = input.reagents.filter(({ raises }) => raises.some((planned) => rising.includes(planned)));
  const effects = effectsOf({ ...input, reagents });
  const unraised = rising.filter((planned) => !effects.some(({ rises }) => rises[planned] > 0));
  if (unraised.length > 0) return { kind: 'cannot-reach', why: 'no-reagent', values: unraised };
  const { salinity, magnesium, alkalinity, calcium } = input.rules;
  return {
    kind: 'model',
    levels,
    reagents,
    effects,
    wanted: {
      needs: Object.fromEntries(levels.map((level) => [level.planned, changeOf(level)])),
      capADay: {
        salinity: salinity.riseADay,
        magnesium: magnesium.riseADay,
        alkalinity: alkalinity.riseADay,
        calcium: calcium.riseADay,
      },
    },
  };
}

/** Looks from the least number of days upward; the first number for which any share of it among the turns has a plan is it. */
async function fewestDays(
  input: JointPlanInput,
  { reagents, effects, wanted }: Model,
  solve: SolveProgramme,
): Promise<JointPlanOutcome> {
  const turns = turnsOf(reagents, input.rules);
  const every = Array.from({ length: Math.max(...turns) + 1 }, (_none, turn) => turn);
  // A turn that is too short stays so however the rest is shared, so no plan lies below these.
  const least: number[] = [];
  for (const counted of [...every.map((turn) => [turn]), every]) {
    const solved = await solve(leastDaysProgramme(effects, turns, wanted, counted));
    if (solved.kind !== 'optimal') return notSolved(solved);
    least.push(Math.ceil(solved.objective - SAME * Math.max(1, solved.objective)));
  }
  const together = least.pop() ?? 1;
  for (let days = Math.max(daysOf(least), together - every.length + 1); days <= MOST_DAYS; days += 1) {
    let best: { spans: Span[]; solved: Extract<Solved, { kind: 'optimal' }> } | undefined;
    for (const share of sharesOf(days, least)) {
      const spans = spansOf(turns, share);
      const solved = await solve(leastSaltProgramme(effects, spans, wanted));
      if (solved.kind === 'not-solved') return solved;
      if (solved.kind === 'infeasible') continue;
      if (!best || solved.objective < best.solved.objective * (1 - SAME)) best = { spans, solved };
    }
    if (!best) continue;
    const even = await solve(evenestProgramme(effects, best.spans, wanted, best.solved.objective));
    if (even.kind === 'not-solved') return even;
    const { values } = even.kind === 'optimal' ? even : best.solved;
    return planFrom(input, reagents, effects, best.spans, values);
  }
  return { kind: 'not-solved', reason: `no plan within ${MOST_DAYS} days` };
}

function levelOf({ levels, practicalSalinity, targetSalinity }: JointPlanInput, planned: Planned): Level | undefined {
  const { now, target } =
    planned === 'salinity'
      ? { now: practicalSalinity, target: targetSalinity }
      : (levels[planned] ?? { now: NaN, target: undefined });
  return target === undefined ? undefined : { now, target };
}

const changeOf = ({ now, target }: Level): number =>
  Math.abs(target - now) <= SAME * Math.max(1, Math.abs(target)) ? 0 : target - now;

const notSolved = (solved: Exclude<Solved, { kind: 'optimal' }>): JointPlanOutcome =>
  solved.kind === 'not-solved' ? solved : { kind: 'not-solved', reason: 'the solver found no way to add the reagents' };

function valuesOf({ levels, ...input }: JointPlanInput): Record<string, number> {
  const { alkalinity, calcium, magnesium } = levels;
  const read = (name: string, unit: string, reading: Reading | undefined) => ({
    ...(reading ? { [`${name}Now${unit}`]: reading.now } : {}),
    ...(reading?.target === undefined ? {} : { [`${name}Target${unit}`]: reading.target }),
  });
  const { volumeL, temperatureC, practicalSalinity, targetSalinity } = input;
  return {
    volumeL,
    temperatureC,
    practicalSalinity,
    ...(targetSalinity === undefined ? {} : { targetSalinity }),
    ...read('alkalinity', 'Dkh', alkalinity),
    ...read('calcium', 'MgPerL', calcium),
    ...read('magnesium', 'MgPerL', magnesium),
  };
}

function checkReagents({ reagents, rules }: JointPlanInput): void {
  for (const planned of PLANNED)
    if (!(rules[planned].riseADay > 0)) throw new RangeError(`the daily cap of ${planned} must be positive`);
  for (const { id, raises, purity = 1, stockGPerL = 1, mostGADay = 1 } of reagents) {
    if (raises.length === 0) throw new RangeError(`${id} raises nothing`);
    if (!(purity > 0 && purity <= 1)) throw new RangeError(`the purity of ${id} must lie in (0, 1], got ${purity}`);
    if (!(stockGPerL > 0)) throw new RangeError(`the stock of ${id} must hold something, got ${stockGPerL} g/L`);
    if (!(mostGADay > 0)) throw new RangeError(`${id} may not be dosed at all: ${mostGADay} g a day`);
  }
}
