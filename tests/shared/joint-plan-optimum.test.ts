import { beforeAll, describe, expect, test } from 'vitest';
import { jointPlan } from '../../shared/joint-plan.ts';
import type { JointPlanInput, Planned, PlanReagent, SolveProgramme } from '../../shared/joint-plan-model.ts';
import { told } from '../reference/worked-cases.ts';
import { seeded, type Seeded } from '../src/identification/seeded.ts';
import { bruteForce } from './joint-plan-brute-force.ts';
import {
  BICARBONATE,
  CALCIUM_CHLORIDE,
  CARBONATE,
  EPSOM,
  HYDROXIDE,
  MAGNESIUM_CHLORIDE,
  bareSolver,
  saltAndDrift,
  tank,
} from './joint-plan-stage.ts';

let solve: SolveProgramme;
beforeAll(async () => {
  solve = await bareSolver();
});

type Family = {
  name: string;
  reagents: readonly PlanReagent[];
  makers: readonly (readonly [Planned, PlanReagent])[];
  levels: (draw: Seeded) => JointPlanInput['levels'];
  /** How far the objective may lie above the optimum, as a share: one step of the grid. */
  step: number;
};

const between = (draw: Seeded, least: number, most: number) => least + (most - least) * draw.next();
const STEPS = 100;

const FAMILIES: readonly Family[] = [
  {
    name: 'two salts of magnesium',
    reagents: [MAGNESIUM_CHLORIDE, EPSOM],
    makers: [['magnesium', MAGNESIUM_CHLORIDE]],
    levels: (draw) => ({ magnesium: { now: 1250, target: between(draw, 1270, 1520) } }),
    step: 0.02,
  },
  {
    name: 'bicarbonate, calcium chloride and calcium hydroxide',
    reagents: [BICARBONATE, CALCIUM_CHLORIDE, HYDROXIDE],
    makers: [
      ['alkalinity', BICARBONATE],
      ['calcium', CALCIUM_CHLORIDE],
    ],
    levels: (draw) => ({
      alkalinity: { now: 7, target: between(draw, 7.2, 9.8) },
      calcium: { now: 400, target: between(draw, 405, 455) },
    }),
    step: 0.02,
  },
  {
    name: 'two alkalinities behind magnesium',
    reagents: [MAGNESIUM_CHLORIDE, BICARBONATE, CARBONATE],
    makers: [
      ['magnesium', MAGNESIUM_CHLORIDE],
      ['alkalinity', BICARBONATE],
    ],
    levels: (draw) => ({
      magnesium: { now: 1200, target: between(draw, 1230, 1390) },
      alkalinity: { now: 7, target: between(draw, 7.2, 8.9) },
    }),
    step: 0.02,
  },
];

describe.each(FAMILIES)('$name: no plan on a grid is shorter, or as short with less salt and drift', (family) => {
  test.each(Array.from({ length: 12 }, (_none, at) => at + 1))('tank %i', async (number) => {
    const draw = seeded(7_919 * number);
    const input = tank({ levels: family.levels(draw), reagents: family.reagents });
    const solved: number[] = [];
    const watched: SolveProgramme = async (programme) => {
      const answer = await solve(programme);
      if (answer.kind === 'optimal') solved.push(answer.objective);
      return answer;
    };
    const plan = told(await jointPlan(input, watched), 'plan');
    // What the programme made least is the figure that the plan states.
    expect(solved.some((objective) => Math.abs(objective - plan.objectiveGPerL) < 1e-7)).toBe(true);
    const makers = new Map(family.makers);
    if (plan.days.length > 1) expect(bruteForce(input, makers, plan.days.length - 1, STEPS)).toBeNull();
    const onGrid = bruteForce(input, makers, plan.days.length, STEPS);
    if (!onGrid) throw new Error('the grid holds no plan in as many days; make it finer');
    // The shares of natural salt in the check are those that the reference file prints, to seven digits.
    expect(plan.objectiveGPerL).toBeLessThanOrEqual(onGrid.objective * (1 + 1e-7));
    expect(plan.objectiveGPerL).toBeGreaterThan(onGrid.objective * (1 - family.step));
    // The figure that the plan states is that of its own grams, by the reference file's mass fractions.
    const grams = new Map(input.reagents.map((each) => [each, (plan.totalsG[each.id] ?? 0) / input.volumeL]));
    expect(plan.objectiveGPerL).toBeCloseTo(saltAndDrift(grams), 5);
  });
});
