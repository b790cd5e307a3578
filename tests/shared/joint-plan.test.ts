import { beforeAll, describe, expect, test } from 'vitest';
import { jointPlan } from '../../shared/joint-plan.ts';
import type { JointPlan, JointPlanInput, SolveProgramme } from '../../shared/joint-plan-model.ts';
import { saltForSalinity } from '../../shared/salinity-correction.ts';
import {
  BICARBONATE,
  CALCIUM_CHLORIDE,
  CARBONATE,
  EPSOM,
  HYDROXIDE,
  MAGNESIUM_CHLORIDE,
  RULES,
  SEA_SALT,
  bareSolver,
  tank,
} from './joint-plan-stage.ts';
import { told, workedCases, expectPass } from '../reference/worked-cases.ts';

let solve: SolveProgramme;
beforeAll(async () => {
  solve = await bareSolver();
});
const planOf = async (input: JointPlanInput): Promise<JointPlan> => told(await jointPlan(input, solve), 'plan');

describe('one value', () => {
  test.each(
    workedCases('alk_dose').filter(
      ({ output, row }) => output === 'reagent_g' && /start_dKH.*Na(HCO3|2CO3);/.test(row['inputs'] ?? ''),
    ),
  )('dosing-worked.csv $id', async (row) => {
    const reagents = [row.text('reagent') === 'NaHCO3' ? BICARBONATE : CARBONATE];
    const levels = { alkalinity: { now: row.number('alk_start_dKH'), target: row.number('alk_target_dKH') } };
    const { totalsG } = await planOf(tank({ volumeL: row.number('volume_L'), levels, reagents }));
    expectPass(row, Object.values(totalsG)[0]);
  });

  test('sea salt alone takes what the salinity correction says, in as many days as the cap asks for', async () => {
    const plan = await planOf(
      tank({ volumeL: 300, practicalSalinity: 33, targetSalinity: 35, levels: {}, reagents: [SEA_SALT] }),
    );
    const alone = { volumeL: 300, salinityNow: 33, salinityTarget: 35, temperatureC: 25, saltFraction: 1 };
    // dosing-worked.csv W-89: 635.3351 g.
    expect(plan.totalsG['sea-salt']).toBeCloseTo(told(saltForSalinity(alone), 'salt').saltMixG, 3);
    expect(plan.totalsG['sea-salt']).toBeCloseTo(635.3351, 1);
    expect(plan.days.map(({ after }) => after.salinity?.toFixed(6))).toEqual(['34.000000', '35.000000']);
    expect(plan.drift.sulfate.offShare).toBeCloseTo(0, 5);
  });

  test('a rise above the cap is shared evenly over the fewest days', async () => {
    const plan = await planOf(tank({ levels: { alkalinity: { now: 7, target: 9.4 } }, reagents: [BICARBONATE] }));
    // By hand: 2.4 dKH × 0.356652 meq/L × 100 L × 84.006 g/mol ÷ 1000 = 7.1906 g, a third a day.
    expect(plan.days).toHaveLength(3);
    for (const { doses } of plan.days) expect(doses[0]?.massG).toBeCloseTo(2.3969, 3);
  });

  test('a rise of exactly three caps takes three days, not four', async () => {
    const plan = await planOf(tank({ levels: { calcium: { now: 360, target: 420 } }, reagents: [CALCIUM_CHLORIDE] }));
    expect(plan.days).toHaveLength(3);
  });

  test('a stock is told in millilitres, impure powder in more grams', async () => {
    const levels = { alkalinity: { now: 7, target: 8 } };
    const stock = await planOf(tank({ levels, reagents: [{ ...BICARBONATE, stockGPerL: 80 }] }));
    expect(stock.days[0]?.doses[0]?.stockMl).toBeCloseTo(2.9961 / 0.08, 2);
    const impure = await planOf(tank({ levels, reagents: [{ ...BICARBONATE, purity: 0.5 }] }));
    expect(impure.totalsG['NaHCO3']).toBeCloseTo(2 * 2.9961, 3);
  });
});

describe('several values', () => {
  const all = {
    levels: {
      alkalinity: { now: 7, target: 8.5 },
      calcium: { now: 380, target: 420 },
      magnesium: { now: 1150, target: 1300 },
    },
    reagents: [BICARBONATE, CALCIUM_CHLORIDE, MAGNESIUM_CHLORIDE],
  };

  test('magnesium is at its target before alkalinity and calcium begin; the day they meet counts for both', async () => {
    const plan = await planOf(tank(all));
    expect(plan.days.map(({ doses }) => doses.map(({ reagentId }) => reagentId))).toEqual([
      ['MgCl2.6H2O'],
      ['MgCl2.6H2O', 'NaHCO3', 'CaCl2.2H2O'],
      ['NaHCO3', 'CaCl2.2H2O'],
    ]);
    expect(plan.days[1]?.after.magnesium).toBeCloseTo(1300, 6);
  });

  test('alkalinity and calcium keep their minutes from each other within a day', async () => {
    const { days } = await planOf(tank(all));
    expect(days[2]?.doses.map(({ atMinute }) => atMinute)).toEqual([0, 15]);
  });

  test('salinity comes first, and what the sea salt brings along is not dosed again', async () => {
    const input = tank({ ...all, practicalSalinity: 34, targetSalinity: 35, reagents: [...all.reagents, SEA_SALT] });
    const plan = await planOf(input);
    const alone = await planOf(tank(all));
    expect(plan.days[0]?.doses[0]?.reagentId).toBe('sea-salt');
    expect(plan.ends).toEqual({
      salinity: expect.closeTo(35, 8),
      magnesium: expect.closeTo(1300, 6),
      alkalinity: expect.closeTo(8.5, 8),
      calcium: expect.closeTo(420, 6),
    });
    for (const { id } of all.reagents) expect(plan.totalsG[id]).toBeLessThan(alone.totalsG[id] ?? 0);
  });

  test('of both magnesium salts as much sulfate is taken as keeps the natural proportion', async () => {
    const levels = { magnesium: { now: 1250, target: 1300 } };
    const { drift, totalsG } = await planOf(tank({ levels, reagents: [MAGNESIUM_CHLORIDE, EPSOM] }));
    expect(drift.sulfate.offShare).toBeCloseTo(0, 8);
    expect(totalsG['MgSO4.7H2O']).toBeGreaterThan(1);
    const chlorideOnly = await planOf(tank({ levels, reagents: [MAGNESIUM_CHLORIDE] }));
    expect(chlorideOnly.drift.sulfate.offMgPerL).toBeLessThan(-10);
  });

  test('calcium hydroxide serves both where both have to rise, with less salt than the chloride', async () => {
    const levels = { alkalinity: { now: 7, target: 9 }, calcium: { now: 400, target: 420 } };
    const { totalsG } = await planOf(tank({ levels, reagents: [BICARBONATE, CALCIUM_CHLORIDE, HYDROXIDE] }));
    // By hand: 2 dKH are 0.7133 meq/L; half as many mmol Ca(OH)2 weigh 0.02643 g/L and bring 14.3 of the 20 mg/L calcium.
    expect(totalsG['Ca(OH)2']).toBeCloseTo(2.643, 2);
    expect(totalsG['NaHCO3'] ?? 0).toBeCloseTo(0, 6);
  });

  test('no more limewater goes in on a day than its limit, however the rest is shared', async () => {
    const levels = { alkalinity: { now: 7, target: 8 } };
    const limited = { ...HYDROXIDE, mostGADay: 0.5 };
    const alone = await planOf(tank({ levels, reagents: [limited] }));
    // By hand: 0.356652 meq/L × 100 L ÷ 26.99347 meq/g = 1.3213 g, half a gram a day.
    expect(alone.days).toHaveLength(3);
    const shared = await planOf(tank({ levels, reagents: [limited, BICARBONATE] }));
    expect(shared.days).toHaveLength(1);
    expect(shared.totalsG['Ca(OH)2']).toBeCloseTo(0.5, 6);
  });

  test('a cap of salinity holds where nobody asked for salinity', async () => {
    const levels = { magnesium: { now: 1000, target: 1400 } };
    const rules = {
      ...RULES,
      magnesium: { ...RULES.magnesium, riseADay: 400 },
      salinity: { riseADay: 0.5, after: [] },
    };
    const plan = await planOf(tank({ levels, rules, reagents: [MAGNESIUM_CHLORIDE] }));
    // By hand: 400 mg/L take 3.346 g/L, of which 1.567 is salt; (1566.9 − 3.346 × 35) ÷ 1023.3 = 1.417 psu.
    expect(plan.days).toHaveLength(3);
    expect(plan.rises.salinity).toBeCloseTo(1.417, 3);
  });
});

describe('what cannot be done', () => {
  const ask = (rest: Parameters<typeof tank>[0]) => jointPlan(tank(rest), solve);

  test('all is there', async () => {
    const levels = { alkalinity: { now: 8, target: 8 }, calcium: { now: 420, target: 420 } };
    expect(await ask({ levels, reagents: [BICARBONATE] })).toEqual({ kind: 'nothing-to-do' });
    expect(await ask({ levels: {}, reagents: [] })).toEqual({ kind: 'nothing-to-do' });
  });

  test('a target below the value', async () => {
    const levels = { alkalinity: { now: 9, target: 8 }, calcium: { now: 400, target: 420 } };
    expect(await ask({ levels, reagents: [BICARBONATE, CALCIUM_CHLORIDE] })).toEqual({
      kind: 'cannot-lower',
      values: [{ planned: 'alkalinity', now: 9, target: 8 }],
    });
  });

  test('nothing at hand raises it', async () => {
    const levels = { alkalinity: { now: 7, target: 8 }, calcium: { now: 400, target: 420 } };
    expect(await ask({ levels, reagents: [BICARBONATE, EPSOM] })).toEqual({
      kind: 'cannot-reach',
      why: 'no-reagent',
      values: ['calcium'],
    });
  });

  test('only calcium hydroxide, and calcium is to stay', async () => {
    const levels = { alkalinity: { now: 7, target: 8 }, calcium: { now: 420, target: 420 } };
    // 1 dKH is 0.356652 meq/L, and half as many mmol of calcium are 7.147 mg/L.
    expect(await ask({ levels, reagents: [HYDROXIDE] })).toEqual({
      kind: 'cannot-reach',
      why: 'conflict',
      values: [{ planned: 'calcium', now: 420, target: 420, endsAt: expect.closeTo(427.147, 2) }],
    });
    const free = await ask({ levels: { alkalinity: levels.alkalinity }, reagents: [HYDROXIDE] });
    expect(told(free, 'plan').rises.calcium).toBeCloseTo(7.147, 2);
  });

  test.each([
    [{ volumeL: 0 }, 'volumeL'],
    [{ volumeL: Number.NaN }, 'volumeL'],
    [{ practicalSalinity: 1.9 }, 'practicalSalinity'],
    [{ targetSalinity: 43 }, 'targetSalinity'],
    [{ temperatureC: -5 }, 'temperatureC'],
    [{ levels: { alkalinity: { now: -1, target: 8 } } }, 'alkalinityNowDkh'],
    [{ levels: { calcium: { now: 400, target: 40_000 } } }, 'calciumTargetMgPerL'],
    [{ levels: { magnesium: { now: 400, target: Number.POSITIVE_INFINITY } } }, 'magnesiumTargetMgPerL'],
  ])('%j is out of range', async (rest, quantity) => {
    expect(await ask({ levels: {}, reagents: [BICARBONATE], ...rest })).toMatchObject({
      kind: 'out-of-range',
      quantity,
    });
  });

  test('a solver that fails is an answer, not an error', async () => {
    const failing: SolveProgramme = async () => ({ kind: 'not-solved', reason: 'no time' });
    const input = tank({ levels: { alkalinity: { now: 7, target: 8 } }, reagents: [BICARBONATE] });
    expect(await jointPlan(input, failing)).toEqual({ kind: 'not-solved', reason: 'no time' });
  });

  test('rules that contradict themselves are a mistake of ours', async () => {
    const levels = { alkalinity: { now: 7, target: 8 } };
    const none = { ...RULES, alkalinity: { riseADay: 0, after: [] } };
    await expect(ask({ levels, reagents: [BICARBONATE], rules: none })).rejects.toThrow(RangeError);
    const loop = { ...RULES, salinity: { riseADay: 1, after: ['alkalinity'] as const } };
    await expect(ask({ levels, reagents: [BICARBONATE], rules: loop })).rejects.toThrow(/waits for itself/);
  });
});
