import { z } from 'zod';
import { steadyState } from '../../shared/water-change.ts';
import type { AskedQuantity } from '../calculators/quantity-option.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import { optionsOf, shapeOf, suggestTank, VOLUME, withWater, type WaterDeps } from './asked.ts';
import { cannotView, outOfRangeView, whichTankView } from './asked.view.ts';
import { amountView, changePlanView, outOfReachView, steadyView, type ChangeGround } from './change.view.ts';
import { changePlan } from './change-plan.ts';
import { countAnswer, remainingAnswer } from './change-answers.ts';
import { known, parameterOf } from './known.ts';
import { percent } from './words.ts';

const SPECIES = {
  nitrate: 'NO3',
  phosphate: 'PO4',
  calcium: 'Ca',
  magnesium: 'Mg',
  potassium: 'K',
} as const;
const OF = ['nitrate', 'phosphate', 'alkalinity', 'calcium', 'magnesium', 'potassium'] as const;
type Of = (typeof OF)[number];
const WAYS = ['in one go each', 'pumped through'] as const;
const LEAST_TIMES = 1;
const MOST_TIMES = 100;
const HOURS_A_DAY = 24;

const EXAMPLE = md`**/water change** of: nitrate now: 40 ppm target: 20 ppm volume: 300 L`;

/** One amount of what is changed; which unit it takes follows from `of`. */
const amount = (of: Of, description: string): AskedQuantity & { required: false } =>
  of === 'alkalinity'
    ? { description, required: false, quantity: 'alkalinity' }
    : { description, required: false, quantity: 'concentration', species: SPECIES[of] };

/** A change in litres or as a share. */
const sizeOf = (text: string | undefined): AskedQuantity & { required: false } =>
  /%|percent|pct/i.test(text ?? '')
    ? { description: SIZE, required: false, quantity: 'percent', least: 0.1, most: 100, example: '20%' }
    : { description: SIZE, required: false, quantity: 'volume', least: 0.01, example: '20%' };
const SIZE = 'Size of one change: "20%" or "60 L"; left out: I plan it';

const askedFor = (of: Of, change: string | undefined) => ({
  now: amount(of, 'What a test shows now: "40 ppm", "0.2 ppm"'),
  target: amount(of, 'What you want: "20 ppm"'),
  'new-water': amount(of, 'What the new water holds; left out: none, for nitrate and phosphate'),
  change: sizeOf(change),
  grows: amount(of, 'What it grows by in a day; answers where it settles'),
  every: {
    description: 'Time between changes, with grows: "7 days"',
    required: false,
    quantity: 'duration',
    unit: 'days',
    least: 12,
    most: 2400,
  } as const,
  volume: VOLUME,
});

/** `/water change`: what changes leave, how many a target takes, and where a routine settles. */
export function changeCommand(deps: WaterDeps): AnyCommand {
  return defineCommand({
    name: 'water change',
    description: 'Water changes to a target at a safe pace, what they leave, and where a routine settles',
    options: optionsOf(askedFor('nitrate', '%'), [
      { name: 'of', description: 'What is to change; left out: nitrate', required: false, choices: OF },
      {
        kind: 'whole-number',
        name: 'times',
        description: 'How many changes, one after another',
        required: false,
        least: LEAST_TIMES,
        most: MOST_TIMES,
      },
      { name: 'how', description: 'Left out: in one go each', required: false, choices: WAYS },
    ]),
    input: z.object({
      ...shapeOf(askedFor('nitrate', '%')),
      of: z.enum(OF).optional(),
      times: z.int().min(LEAST_TIMES).max(MOST_TIMES).optional(),
      how: z.enum(WAYS).optional(),
    }),
    suggest: suggestTank(deps),
    run: (given, request) => {
      const of = given.of ?? 'nitrate';
      const parameter = parameterOf(deps.base, of);
      return withWater(
        deps,
        askedFor(of, given.change),
        given,
        request,
        (values, { water, echo }): Worked | MessageView => {
          const { now, target, change, grows, every } = values;
          const emptyIsUsual = of === 'nitrate' || of === 'phosphate';
          const newWater = values['new-water']?.si ?? (emptyIsUsual ? 0 : null);
          if (newWater === null && (now || grows)) return needsNewWater(of);
          const goal = target?.si ?? newWater ?? 0;
          const cap = (now && goal > now.si ? parameter.riseADay : parameter.fallADay) ?? null;
          const ground: ChangeGround = {
            of: parameter,
            water,
            start: now?.si ?? 0,
            newWater: newWater ?? 0,
            cap,
            assumed: [
              ...echo,
              ...(given.of || !(now || grows) ? [] : [md`of: nitrate, **assumed**`]),
              ...(values['new-water'] || newWater === null || !(now || grows)
                ? []
                : [md`new water: no ${of} in it, **assumed**`]),
              ...water.lines.volume,
            ],
          };
          const isShare = change?.quantity === 'percent';
          if (change && !isShare && water.volumeL === null) return whichTankView({ kind: 'no-tanks' });
          const share = change ? (isShare ? change.si / 100 : change.si / (water.volumeL ?? 1)) : null;
          if (share !== null && share > 1 && given.how !== 'pumped through') return tooMuch(change?.understood ?? '');
          const pumped = given.how === 'pumped through';
          if (grows) {
            if (share === null || !every) return needs([md`**change:** (its size)`, md`**every:** (such as 7 days)`]);
            const intervalDays = every.si / HOURS_A_DAY;
            const steady = { productionPerDay: grows.si, intervalDays, fraction: share, newWater: ground.newWater };
            const found = steadyState(steady);
            if (found.kind === 'out-of-range') return outOfRangeView(found, EXAMPLE);
            return steadyView(deps.base, ground, { ...found, ...steady, share });
          }
          if (!now) {
            if (share === null || water.volumeL === null)
              return needs([md`**now:** (a test result)`, md`**target:** or **change:**`]);
            return amountView(deps.base, ground, share, water.volumeL);
          }
          if (!target) {
            if (share === null) return needs([md`**target:** (what you want) or **change:** (its size)`]);
            return remainingAnswer(deps.base, ground, { share, times: given.times ?? 1, pumped }, EXAMPLE);
          }
          if (share !== null || pumped)
            return countAnswer(deps.base, ground, { target: target.si, share, pumped }, EXAMPLE);
          return planAnswer(deps, ground, target.si);
        },
        'no-volume',
      );
    },
  });
}

const needs = (what: readonly Markdown[]) =>
  cannotView('What shall I work out?', [
    ...what.map((each) => md`- I also need ${each}.`),
    md`For example: ${EXAMPLE}`,
  ]);

const needsNewWater = (of: Of) =>
  cannotView('What does the new water hold?', [
    md`Add **new-water:** with a test of it. New salt water always holds ${of}, and how much decides the answer.`,
  ]);

const tooMuch = (understood: string) =>
  cannotView('More than the tank holds', [
    md`A change of ${understood} is more than all of the water. Up to 100% is possible; beyond that, use **how: pumped through**.`,
  ]);

function planAnswer({ base }: WaterDeps, ground: ChangeGround, target: number): Worked | MessageView {
  const { of, start, newWater, cap } = ground;
  const mostShare = known(base, 'water-change', 'most-unmatched').high / 100;
  const planned = (from: number) => changePlan({ start: from, newWater, target, capADay: cap?.low ?? null, mostShare });
  const plan = planned(start);
  switch (plan.kind) {
    case 'plan': {
      const error = of.kitError?.low;
      const ends = error === undefined ? [] : [planned(start - error), planned(start + error)];
      const shares = ends.map((end) => (end.kind === 'plan' ? end.oneGoShare : 0));
      const range =
        error === undefined
          ? md`Your kit decides: read it twice. A reading that is off by a tenth moves the answer by about as much.`
          : md`In one go ${percent(Math.min(...shares))} to ${percent(Math.max(...shares))}, if the kit is off by ${error}.`;
      return changePlanView(base, ground, plan, target, range);
    }
    case 'too-many':
      return cannotView('Not by water changes alone', [
        md`At a pace that corals bear it would take more than ${plan.most} daily changes. ${of.lowering}`,
        md`-# In one go it would be ${percent(plan.oneGoShare)} of the water, and too fast.`,
      ]);
    case 'already-there':
      return cannotView('Nothing to do', [md`It is at ${start} already, which is the target you gave.`]);
    case 'out-of-reach':
      return outOfReachView(ground, target, EXAMPLE);
    case 'out-of-range':
      return outOfRangeView(plan, EXAMPLE);
  }
}
