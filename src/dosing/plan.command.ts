import { z } from 'zod';
import { jointPlan, PLAN_RANGES, toldWithoutSolving } from '../../shared/joint-plan.ts';
import { PLANNED, type JointPlanOutcome, type Planned } from '../../shared/joint-plan-model.ts';
import { readQuantity } from '../../shared/quantity-text.ts';
import { stockFor } from '../../shared/stock.ts';
import { shortly } from '../../shared/units/figures.ts';
import { keptAnswer } from '../calculators/kept-answer.ts';
import { outOfRangeView } from '../calculators/out-of-range.view.ts';
import {
  echoLine,
  quantityOptions,
  quantityShape,
  wantedOf,
  type AskedQuantities,
} from '../calculators/quantity-option.ts';
import { quantityProblemView, type QuantityProblem } from '../calculators/quantity-problem.view.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md, type Answer, type Markdown, type MessageView, type Request } from '../discord/message-view.ts';
import type { TankUnits } from '../tanks/tank.ts';
import { cannotView } from '../water/asked.view.ts';
import { parameterOf } from '../water/known.ts';
import { tankWater } from '../water/tank-water.ts';
import { OWNER_OPTIONS, OWNER_SHAPE, TYPED_VOLUME_ERROR, type DoseDeps } from './dose.command.ts';
import { evaporationADay, isLimewater, planInput, risingOf, targetFor, TESTED } from './plan-input.ts';
import { readReagents, suggestReagents, usualReagents, type AtHand } from './plan-reagents.ts';
import { readSpan, type Span } from './plan-span.ts';
import { dayInWords, listed, lower, risenOn, valueOf } from './plan-words.ts';
import { noPlanView, nothingAskedView } from './plan-refused.view.ts';
import { planTitle, workedPlan, type AskedPlan } from './plan.view.ts';
import type { Solver } from './solver.ts';
import { suggestTank, whoseTank } from './whose-tank.ts';

export type PlanDeps = DoseDeps & { solver: Pick<Solver, 'forOneQuestion'> };

const SPANS = {
  alkalinity: {
    description: 'What your test shows and where you want it: "7.2 to 8.5 dkh"',
    required: false,
    quantity: 'alkalinity',
    least: PLAN_RANGES.alkalinityNowDkh[0],
    most: PLAN_RANGES.alkalinityNowDkh[1],
    example: '7.2 to 8.5 dkh',
  },
  calcium: {
    description: 'The same for calcium: "380 to 420"',
    required: false,
    quantity: 'concentration',
    species: 'Ca',
    least: PLAN_RANGES.calciumNowMgPerL[0],
    most: PLAN_RANGES.calciumNowMgPerL[1],
    example: '380 to 420',
  },
  magnesium: {
    description: 'The same for magnesium: "1250 to 1350"',
    required: false,
    quantity: 'concentration',
    species: 'Mg',
    least: PLAN_RANGES.magnesiumNowMgPerL[0],
    most: PLAN_RANGES.magnesiumNowMgPerL[1],
    example: '1250 to 1350',
  },
  salinity: {
    description: 'What it is, "35 ppt", or "34 to 35" to raise it. Left out: that of the tank',
    required: false,
    quantity: 'salinity',
    least: PLAN_RANGES.practicalSalinity[0],
    most: PLAN_RANGES.practicalSalinity[1],
    example: '34 to 35 ppt',
  },
} as const satisfies AskedQuantities & Record<Planned, unknown>;

const WATER = {
  volume: {
    description: 'Net water: "300 L", "80 gal". Left out: that of the tank',
    required: false,
    quantity: 'volume',
    least: 1,
  },
} as const satisfies AskedQuantities;

const Input = z.object({
  ...quantityShape({ ...SPANS, ...WATER }),
  reagents: z.string().max(400).optional(),
  ...OWNER_SHAPE,
});
type Given = z.infer<typeof Input>;

/** `/dose plan`. */
export const planCommands = (deps: PlanDeps): AnyCommand[] => [
  defineCommand({
    name: 'dose plan',
    description: 'Alkalinity, calcium, magnesium and salinity together, day by day',
    options: [
      ...quantityOptions(SPANS),
      ...quantityOptions(WATER),
      {
        name: 'reagents',
        description: 'What you have, parted by commas: "baking soda, epsom salt". Left out: the usual ones',
        required: false,
        autocomplete: true,
      },
      ...OWNER_OPTIONS,
    ],
    input: Input,
    run: (given, request) => answerPlan(deps, given, request),
    suggest: (option, typed, request, so = {}) =>
      option === 'reagents'
        ? suggestReagents(deps.base, typed)
        : option === 'tank'
          ? suggestTank(deps, typed, request, so)
          : [],
  }),
];

function answerPlan(deps: PlanDeps, given: Given, request: Request): Answer {
  if (PLANNED.every((planned) => given[planned] === undefined)) return nothingAskedView();
  const whose = whoseTank(deps, given, request);
  if (whose.kind === 'cannot') return whose.view;
  const { tank, units, forMember } = whose;
  const { spans, volume, problems } = readAmounts(given, units);
  if (problems.length > 0) return quantityProblemView(problems);
  const water = tankWater(deps.base, { volume }, tank, units);
  const { volumeL } = water;
  if (volumeL === null) throw new RangeError('a tank or a volume was made sure of, and neither is there');

  const wish = planInput(deps.base, { ...water, volumeL }, spans, []);
  const atHand = given.reagents?.trim()
    ? readReagents(deps.base, given.reagents)
    : { kind: 'reagents' as const, reagents: usualReagents(deps.base, risingOf(wish)) };
  if (atHand.kind === 'cannot') return atHand.view;
  const tooStrong = whatWillNotDissolve(atHand.reagents, water.temperatureC);
  if (tooStrong) return tooStrong;

  const input = planInput(deps.base, { ...water, volumeL }, spans, atHand.reagents);
  const asked: AskedPlan = {
    input,
    reagents: atHand.reagents.map(({ reagent }) => reagent),
    units,
    volumeError: volume ? TYPED_VOLUME_ERROR : (tank?.volumeError ?? TYPED_VOLUME_ERROR),
    assumed: [
      ...PLANNED.flatMap((planned) => spans[planned]?.echo ?? []),
      ...(Object.values(spans).some(({ assumedUnit }) => assumedUnit)
        ? [md`units that you left out: as shown here`]
        : []),
      ...(volume ? [echoLine('volume', volume)] : []),
      ...water.lines.volume,
      ...(spans.salinity ? [] : water.lines.salinity),
      ...assumedTargets(deps, spans, units),
      ...assumedReagents(deps, atHand.reagents, given.reagents === undefined),
    ],
    audience: forMember ? 'everyone' : 'member',
  };
  const answer = (outcome: JointPlanOutcome): MessageView => {
    if (outcome.kind === 'out-of-range') return outOfRangeView(outcome, units);
    if (outcome.kind !== 'plan') return noPlanView(deps.base, asked, outcome);
    const worked = { ...workedPlan(deps.base, asked, outcome), ...(forMember ? { forMember } : {}) };
    const named = { reagents: new Map(asked.reagents.map((reagent) => [reagent.id, reagent])), units };
    return keptAnswer(deps.answers, request, worked, {
      title: `${planTitle(asked)}${tank ? `, ${tank.name}` : ''}`,
      doses: outcome.days.map((day) => ({ words: dayInWords(day, named), effect: { by: 'rise', of: risenOn(day) } })),
      tankId: tank?.id ?? null,
    });
  };
  // What needs no solver is said at once, and stays between the bot and the asker.
  const atOnce = toldWithoutSolving(input);
  if (atOnce) return answer(atOnce);
  return {
    kind: 'work',
    audience: asked.audience,
    work: async () => answer(await jointPlan(input, deps.solver.forOneQuestion())),
  };
}

/** All amounts at once, so that a member hears of everything that was odd in one message. */
function readAmounts(given: Given, units: TankUnits) {
  const spans: Partial<Record<Planned, Span>> = {};
  const problems: QuantityProblem[] = [];
  for (const planned of PLANNED) {
    const text = given[planned];
    if (text === undefined) continue;
    const read = readSpan(planned, text, SPANS[planned], units);
    if (read.kind === 'span') spans[planned] = read.span;
    else problems.push(read.problem);
  }
  const volume = given.volume === undefined ? undefined : readQuantity(given.volume, wantedOf(WATER.volume, units));
  if (volume === undefined || volume.kind === 'read') return { spans, volume, problems };
  return { spans, volume: undefined, problems: [...problems, { name: 'volume', outcome: volume }] };
}

/** Where only a reading was given, what was made of it. */
const assumedTargets = ({ base }: PlanDeps, spans: Partial<Record<Planned, Span>>, units: TankUnits): Markdown[] =>
  TESTED.flatMap((tested) => {
    const span = spans[tested];
    if (!span || span.target !== null) return [];
    const target = targetFor(parameterOf(base, tested), span.now);
    return target === null
      ? [md`${tested}: not raised on purpose, since you gave no target and it is not low`]
      : [md`${tested} target: ${valueOf(tested, target, units)}, the middle of what keepers aim for; you gave none`];
  });

function assumedReagents({ base }: PlanDeps, reagents: readonly AtHand[], usual: boolean): Markdown[] {
  const names = reagents.map(({ reagent }) => `${lower(reagent.name)} (${reagent.formula})`);
  return [
    ...(usual && names.length > 0 ? [md`reagents: ${listed(names)}, the usual ones; you named none`] : []),
    ...(reagents.some(({ reagent }) => isLimewater(reagent))
      ? [md`limewater: no more than evaporates, taken as ${evaporationADay(base)}% of the water a day`]
      : []),
  ];
}

/** A stock that cannot be made would be weaker than it says. */
function whatWillNotDissolve(reagents: readonly AtHand[], temperatureC: number): MessageView | null {
  for (const { reagent, stockGPerL } of reagents) {
    if (stockGPerL === null) continue;
    const { formula, name, solubility } = reagent;
    const stock = stockFor({ formula, massG: 1, stockGPerL, temperatureC, solubility });
    if (stock.kind === 'will-not-dissolve')
      return cannotView('That stock cannot be made', [
        md`${shortly(stockGPerL)} g in a litre is more than water takes up of ${lower(name)}: about ${shortly(stock.mostGPerL, 2)} g/L. The rest lies on the bottom and is not dosed.`,
      ]);
  }
  return null;
}
