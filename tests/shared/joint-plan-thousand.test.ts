import { beforeAll, describe, expect, test } from 'vitest';
import { jointPlan } from '../../shared/joint-plan.ts';
import type { JointPlan, JointPlanInput, Planned, PlanReagent, SolveProgramme } from '../../shared/joint-plan-model.ts';
import { densityKgPerM3 } from '../../shared/seawater-density.ts';
import { seeded, type Seeded } from '../src/identification/seeded.ts';
import {
  ALL_PLANNED,
  BICARBONATE,
  CALCIUM_CHLORIDE,
  CARBONATE,
  EPSOM,
  HYDROXIDE,
  MAGNESIUM_CHLORIDE,
  RULES,
  SEA_SALT,
  bareSolver,
  reagent,
  risesOf,
} from './joint-plan-stage.ts';

const TANKS = 1_000;
const ANHYDROUS = reagent('CaCl2', ['calcium']);

let solve: SolveProgramme;
beforeAll(async () => {
  solve = await bareSolver();
});

const between = (draw: Seeded, least: number, most: number) => least + (most - least) * draw.next();
const some = <T>(draw: Seeded, items: readonly T[]): T[] => {
  const kept = items.filter(() => draw.chance(0.5));
  return kept.length > 0 ? kept : [draw.pick(items)];
};

/** Any tank, any wish, any reagents for it; caps and purities differ too. */
function anyTank(draw: Seeded): JointPlanInput {
  const wishes = some(draw, ALL_PLANNED);
  const at: Record<Planned, () => PlanReagent[]> = {
    salinity: () => [SEA_SALT],
    magnesium: () => some(draw, [MAGNESIUM_CHLORIDE, EPSOM]),
    alkalinity: () => some(draw, [BICARBONATE, CARBONATE, HYDROXIDE]),
    calcium: () => some(draw, [CALCIUM_CHLORIDE, ANHYDROUS, HYDROXIDE]),
  };
  const practicalSalinity = between(draw, 20, 36);
  const reagents = [...new Set(wishes.flatMap((planned) => at[planned]()))].map((each) => ({
    ...each,
    purity: draw.chance(0.7) ? 1 : between(draw, 0.6, 1),
  }));
  const gentle = between(draw, 0.4, 1.4);
  const level = (planned: Planned, least: number, most: number, up: number) => {
    if (!wishes.includes(planned)) return undefined;
    const now = between(draw, least, most);
    // Readings come in round numbers as often as not, and then rises are whole caps.
    return draw.chance(0.5)
      ? { now, target: now + between(draw, 0, up) }
      : { now: Math.round(now), target: Math.round(now) + Math.round(between(draw, 0, up)) };
  };
  const [alkalinity, calcium, magnesium] = [
    level('alkalinity', 4, 8, 5),
    level('calcium', 300, 420, 120),
    level('magnesium', 900, 1300, 400),
  ];
  return {
    volumeL: 10 ** between(draw, 0, 5),
    temperatureC: between(draw, 18, 30),
    practicalSalinity,
    ...(wishes.includes('salinity') ? { targetSalinity: practicalSalinity + between(draw, 0, 5) } : {}),
    levels: {
      ...(alkalinity ? { alkalinity } : {}),
      ...(calcium ? { calcium } : {}),
      ...(magnesium ? { magnesium } : {}),
    },
    reagents,
    rules: {
      salinity: { ...RULES.salinity, riseADay: gentle },
      magnesium: { ...RULES.magnesium, riseADay: 100 * gentle },
      alkalinity: { ...RULES.alkalinity, riseADay: gentle },
      calcium: { ...RULES.calcium, riseADay: 20 * gentle },
    },
  };
}

/** Everything that a plan promises, each reckoned from its grams alone. */
function brokenPromises(input: JointPlanInput, plan: JointPlan): string[] {
  const density = densityKgPerM3(input);
  const rises = new Map(
    input.reagents.map((each) => {
      const pure = risesOf(input, each, density);
      const end = input.targetSalinity ?? input.practicalSalinity;
      const { purity = 1 } = each;
      const salinity = (1000 * each.brings.saltG * purity - end) / density;
      const scaled = Object.fromEntries(ALL_PLANNED.map((planned) => [planned, pure[planned] * purity]));
      return [each.id, { ...scaled, salinity } as Record<Planned, number>];
    }),
  );
  const broken: string[] = [];
  const targeted = Object.entries(input.levels).map(
    ([planned, { now, target = now }]) => [planned, { now, target }] as const,
  );
  const risen: Record<Planned, number> = { salinity: 0, magnesium: 0, alkalinity: 0, calcium: 0 };
  const totals = new Map<string, number>();
  const turnOf = (id: string) =>
    Math.max(...(input.reagents.find((each) => each.id === id)?.raises ?? []).map((planned) => ORDER[planned]));
  let turn = 0;
  for (const { day, doses, after } of plan.days) {
    const today: Record<Planned, number> = { salinity: 0, magnesium: 0, alkalinity: 0, calcium: 0 };
    const minutes = new Map<string, number>();
    if (doses.length === 0) broken.push(`day ${day} is empty`);
    for (const { reagentId, massG, atMinute } of doses) {
      if (!(massG > 0)) broken.push(`${massG} g of ${reagentId} on day ${day}`);
      if (turnOf(reagentId) < turn) broken.push(`${reagentId} comes too late on day ${day}`);
      turn = turnOf(reagentId);
      minutes.set(reagentId, atMinute);
      totals.set(reagentId, (totals.get(reagentId) ?? 0) + massG);
      for (const planned of ALL_PLANNED)
        today[planned] += (massG / input.volumeL) * (rises.get(reagentId)?.[planned] ?? 0);
    }
    for (const planned of ALL_PLANNED) {
      if (today[planned] > input.rules[planned].riseADay * (1 + 1e-9))
        broken.push(`${planned} rises too fast on day ${day}`);
      risen[planned] += today[planned];
    }
    for (const alkalinity of [BICARBONATE.id, CARBONATE.id, HYDROXIDE.id])
      for (const calcium of [CALCIUM_CHLORIDE.id, ANHYDROUS.id, HYDROXIDE.id]) {
        const [one, other] = [minutes.get(alkalinity), minutes.get(calcium)];
        if (alkalinity !== calcium && one !== undefined && other !== undefined && Math.abs(one - other) < 15)
          broken.push(`${alkalinity} and ${calcium} go in together on day ${day}`);
      }
    for (const [planned, value] of targeted)
      if (Math.abs((after[planned as Planned] ?? NaN) - (value.now + risen[planned as Planned])) > 1e-6 * value.target)
        broken.push(`${planned} after day ${day} is not what its doses make`);
  }
  for (const [planned, { now, target }] of targeted)
    if (Math.abs(now + risen[planned as Planned] - target) > 1e-6 * target) broken.push(`${planned} misses its target`);
  if (
    input.targetSalinity !== undefined &&
    Math.abs(input.practicalSalinity + risen.salinity - input.targetSalinity) > 1e-6
  )
    broken.push('salinity misses its target');
  for (const [id, total] of totals)
    if (Math.abs(total - (plan.totalsG[id] ?? 0)) > 1e-9 * total) broken.push(`the days of ${id} are not its total`);
  if (totals.size !== Object.keys(plan.totalsG).length) broken.push('a total without a dose');
  return broken;
}
const ORDER: Readonly<Record<Planned, number>> = { salinity: 0, magnesium: 1, alkalinity: 2, calcium: 2 };

describe(`${TANKS} random tanks`, () => {
  test('every plan reaches all targets, breaks no cap, keeps the order, and adds up', async () => {
    const draw = seeded(20_261);
    const kinds = new Map<string, number>();
    for (let number = 1; number <= TANKS; number += 1) {
      const input = anyTank(draw);
      const outcome = await jointPlan(input, solve);
      const kind = outcome.kind === 'cannot-reach' ? `${outcome.kind}: ${outcome.why}` : outcome.kind;
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
      if (outcome.kind === 'plan')
        expect({ number, broken: brokenPromises(input, outcome) }).toEqual({ number, broken: [] });
    }
    expect(kinds.get('not-solved') ?? 0).toBe(0);
    expect(kinds.get('out-of-range') ?? 0).toBe(0);
    expect(kinds.get('plan')).toBeGreaterThan(TANKS / 2);
  }, 120_000);
});
