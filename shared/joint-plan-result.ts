import { each, naturalMgPerL, offNaturalAsSaltG, offNaturalMg, type Effects } from './joint-plan-effects.ts';
import {
  DRIFTING,
  PLANNED,
  type JointPlan,
  type JointPlanInput,
  type Planned,
  type PlannedDay,
  type PlanReagent,
} from './joint-plan-model.ts';
import { inOrder, type Span } from './joint-plan-order.ts';
import { dosed } from './joint-plan-programme.ts';

/** A share of a reagent's total below which a dose is the solver's dust. */
const DUST = 1e-9;

/** The plan that a solution stands for. `reagents` are those that were in the programme, in its order. */
export function planFrom(
  input: JointPlanInput,
  reagents: readonly PlanReagent[],
  effects: readonly Effects[],
  spans: readonly Span[],
  values: Readonly<Record<string, number>>,
): JointPlan {
  const totals = reagents.map((_reagent, at) =>
    spans.reduce((grams, _span, span) => grams + (values[dosed(at, span)] ?? 0), 0),
  );
  const isDose = (gramsPerL: number, at: number) => gramsPerL > DUST * (totals[at] ?? 0);
  const everyDay = spans.flatMap((span, number) =>
    Array.from({ length: span.days }, () =>
      span.reagents
        .map((reagent) => ({ reagent, gramsPerL: (values[dosed(reagent, number)] ?? 0) / span.days }))
        .filter(({ gramsPerL, reagent }) => isDose(gramsPerL, reagent)),
    ),
  );
  const added = reagents.map(() => 0);
  const days = everyDay.map((doses, at): PlannedDay => {
    for (const { reagent, gramsPerL } of doses) added[reagent] = (added[reagent] ?? 0) + gramsPerL;
    return {
      day: at + 1,
      doses: inOrder(doses, reagents, input.rules).map(({ reagent, gramsPerL, atMinute }) => {
        const { id = '', stockGPerL } = reagents[reagent] ?? {};
        const massG = gramsPerL * input.volumeL;
        return {
          reagentId: id,
          massG,
          ...(stockGPerL ? { stockMl: (1000 * massG) / stockGPerL } : {}),
          atMinute,
        };
      }),
      rises: perPlanned((planned) =>
        doses.reduce((sum, { reagent, gramsPerL }) => sum + gramsPerL * (effects[reagent]?.rises[planned] ?? 0), 0),
      ),
      after: valuesAfter(input, effects, added),
    };
  });
  return {
    kind: 'plan',
    days,
    totalsG: Object.fromEntries(
      reagents.flatMap(({ id }, at) => (added[at] ? [[id, added[at] * input.volumeL] as const] : [])),
    ),
    ends: valuesAfter(input, effects, added),
    rises: perPlanned((planned) => total(effects, added, ({ rises }) => rises[planned])),
    ...sideEffects(input, effects, added),
  };
}

const total = (effects: readonly Effects[], gramsPerL: readonly number[], of: (effect: Effects) => number): number =>
  effects.reduce((sum, effect, at) => sum + of(effect) * (gramsPerL[at] ?? 0), 0);

const perPlanned = <T>(of: (planned: Planned) => T): Record<Planned, T> => ({
  salinity: of('salinity'),
  magnesium: of('magnesium'),
  alkalinity: of('alkalinity'),
  calcium: of('calcium'),
});

function valuesAfter(
  { levels, practicalSalinity }: JointPlanInput,
  effects: readonly Effects[],
  gramsPerL: readonly number[],
): Partial<Record<Planned, number>> {
  const starts: Partial<Record<Planned, number>> = { salinity: practicalSalinity };
  for (const planned of PLANNED) {
    const level = planned === 'salinity' ? undefined : levels[planned];
    if (level) starts[planned] = level.now;
  }
  return Object.fromEntries(
    PLANNED.flatMap((planned) => {
      const start = starts[planned];
      return start === undefined ? [] : [[planned, start + total(effects, gramsPerL, ({ rises }) => rises[planned])]];
    }),
  );
}

function sideEffects({ practicalSalinity }: JointPlanInput, effects: readonly Effects[], gramsPerL: readonly number[]) {
  const sum: Pick<Effects, 'ions' | 'saltG'> = {
    ions: each((ion) => total(effects, gramsPerL, ({ ions }) => ions[ion])),
    saltG: total(effects, gramsPerL, ({ saltG }) => saltG),
  };
  // Practical salinity 35 is 35.165 g of salt in a kilogram; here it only sizes the drift against what is in the tank.
  const saltBefore = 1.0047 * practicalSalinity;
  return {
    drift: each((ion) => {
      const offMgPerL = offNaturalMg(ion, sum);
      return {
        riseMgPerL: sum.ions[ion],
        offMgPerL,
        offShare: offMgPerL / naturalMgPerL(ion, saltBefore + sum.saltG),
      };
    }),
    strontiumRiseMgPerL: total(effects, gramsPerL, ({ strontiumMgPerL }) => strontiumMgPerL),
    saltGPerL: sum.saltG,
    objectiveGPerL: sum.saltG + DRIFTING.reduce((off, ion) => off + Math.abs(offNaturalAsSaltG(ion, sum)), 0),
  };
}
