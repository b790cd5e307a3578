import { z } from 'zod';
import { mixNewWater, NEW_WATER_SALINITY } from '../../shared/salinity-correction.ts';
import { brineDensityKgPerL } from '../../shared/brine-density.ts';
import { inFigures, shortly } from '../../shared/units/figures.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import {
  optionsOf,
  shapeOf,
  suggestTank,
  TEMPERATURE,
  VOLUME,
  withWater,
  type Ground,
  type WaterDeps,
} from './asked.ts';
import { cannotView, outOfRangeView } from './asked.view.ts';
import { givenFigure, known, middle, parameterOf } from './known.ts';
import { salinityPlan, totalOf, type SalinityAsked } from './salinity-plan.ts';
import { batchView, salinityView } from './salinity.view.ts';
import { spanOf } from './tank-water.ts';
import { psu } from './words.ts';

const WAYS = ['dry salt', 'stronger water'] as const;
const ANIMALS = ['corals or invertebrates', 'fish only'] as const;
const HOURS_A_DAY = 24;

const ASKED = {
  target: { description: 'Salinity you want: "35 ppt", "1.0264 sg"', required: true, quantity: 'salinity' },
  now: {
    description: 'Salinity now, by a meter you trust. Left out: that of your tank',
    required: false,
    quantity: 'salinity',
  },
  volume: VOLUME,
  temperature: TEMPERATURE,
  'new-water': {
    description: 'Salinity of the stronger water, when you raise with it: "45 ppt"',
    required: false,
    quantity: 'salinity',
    // A little above what an ordinary meter is made for.
    most: NEW_WATER_SALINITY[1],
    example: '45 ppt',
  },
  'salt-share': {
    description: 'How much of the dry mix is salt, from its pack or a trial batch: "90%"',
    required: false,
    quantity: 'percent',
    least: 30,
    most: 100,
    example: '90%',
  },
  batch: {
    description: 'Instead: mix this much new salt water at the target: "50 L"',
    required: false,
    quantity: 'volume',
    least: 0.1,
  },
} as const;
const EXAMPLE = md`**/water salinity** target: 35 ppt now: 36.5 ppt volume: 300 L`;

/** `/water salinity`: corrections down and up in safe steps, hyposalinity for fish, and batches of new water. */
export function salinityCommand(deps: WaterDeps): AnyCommand {
  return defineCommand({
    name: 'water salinity',
    description: 'Raise or lower salinity in safe steps, or mix new salt water',
    options: optionsOf(ASKED, [
      { name: 'with', description: 'What raises it; left out: dry salt', required: false, choices: WAYS },
      {
        name: 'animals',
        description: 'Who lives in it; left out: corals or invertebrates, the slower way',
        required: false,
        choices: ANIMALS,
      },
    ]),
    input: z.object({ ...shapeOf(ASKED), with: z.enum(WAYS).optional(), animals: z.enum(ANIMALS).optional() }),
    suggest: suggestTank(deps),
    run: (given, request) =>
      withWater(
        deps,
        ASKED,
        given,
        request,
        (values, ground) => {
          const usual = known(deps.base, 'salinity', 'salt-in-mix');
          const saltFraction = (values['salt-share']?.si ?? middle(usual) * 100) / 100;
          const saltLine = values['salt-share']
            ? []
            : [md`salt in the dry mix: ${shortly(saltFraction * 100)}%, **assumed**. ${usual.note ?? ''}`];
          if (values.batch) return batch(deps, values.batch.si, values.target.si, saltFraction, saltLine, ground);
          return correction(deps, given, values, saltFraction, saltLine, ground);
        },
        given.batch === undefined ? 'volume' : 'no-volume',
      ),
  });
}

type Values = { target: { si: number }; now?: { si: number } | undefined; 'new-water'?: { si: number } | undefined };

function correction(
  { base }: WaterDeps,
  given: { with?: (typeof WAYS)[number] | undefined; animals?: (typeof ANIMALS)[number] | undefined },
  values: Values,
  saltFraction: number,
  saltLine: readonly Markdown[],
  { water, tank, echo }: Ground,
): Worked | MessageView {
  const now = values.now?.si ?? tank?.practicalSalinity ?? null;
  if (now === null)
    return cannotView('How salty is it now?', [
      md`Add **now:** with a reading of the tank, such as **now: 36.5 ppt**. I do not guess what I correct.`,
      md`For example: ${EXAMPLE}`,
    ]);
  const target = values.target.si;
  const lowers = target < now;
  const fishOnly = given.animals === 'fish only';
  const salinity = parameterOf(base, 'salinity');
  const cap = fishOnly
    ? known(base, 'salinity', lowers ? 'hyposalinity-drop-a-step' : 'hyposalinity-rise-a-day')
    : givenFigure(salinity, lowers ? 'fallADay' : 'riseADay');
  // A drop of fish tanks may be 2 to 6 a step: the middle keeps 35 to 12 within the two to four days.
  const mostPerStep = fishOnly && lowers ? middle(cap) : cap.high;
  const hoursBetween =
    fishOnly && lowers ? known(base, 'salinity', 'hyposalinity-hours-between-steps').low : HOURS_A_DAY;
  const withWater_ = given.with === 'stronger water';
  const stronger = values['new-water']?.si;
  if (!lowers && withWater_ && stronger === undefined)
    return cannotView('How strong is the new water?', [
      md`Add **new-water:** with its salinity, such as **new-water: 45 ppt**.`,
    ]);
  const volumeL = water.volumeL ?? 0;
  const asked: SalinityAsked = {
    volumeL,
    now,
    target,
    temperatureC: water.temperatureC,
    mostPerStep,
    raiseBy:
      withWater_ && stronger !== undefined
        ? { kind: 'stronger-water', salinity: stronger }
        : { kind: 'dry-salt', saltFraction },
  };
  const plan = salinityPlan(asked);
  if (plan.kind === 'out-of-range') return outOfRangeView(plan, EXAMPLE);
  if (plan.kind === 'already-there')
    return cannotView('Nothing to do', [md`It is at ${psu(now)} already, which is the target you gave.`]);
  if (plan.kind === 'too-weak')
    return cannotView('That water is not stronger', [
      md`To reach ${psu(target)}, the new water has to be above it. You gave ${psu(stronger ?? 0)}. Use stronger water, or **with: dry salt**.`,
    ]);
  const meterError = givenFigure(salinity, 'kitError').low;
  const withMeter = (by: number) => {
    const other = salinityPlan({ ...asked, now: now + by });
    return other.kind === 'plan' && other.by === plan.by ? totalOf(other.steps) : 0;
  };
  return salinityView(base, {
    plan,
    now,
    target,
    volumeL,
    water,
    fishOnly,
    cap,
    hoursBetween,
    range: spanOf(totalOf(plan.steps), [withMeter(-meterError), withMeter(meterError)], water),
    meterError,
    byHand: byHand(asked, plan),
    assumed: [
      ...echo,
      ...(values.now ? [] : [md`now: ${psu(now)}, as kept for **${tank?.name ?? ''}**`]),
      ...water.lines.volume,
      ...water.lines.temperature,
      ...(plan.by === 'dry-salt' ? saltLine : []),
      ...(given.animals ? [] : [md`animals: corals or invertebrates, **assumed**, so at most ${cap.high} a day`]),
    ],
  });
}

function byHand({ volumeL, now, target, temperatureC, raiseBy }: SalinityAsked, plan: { by: string; roughL: number }) {
  const litres = shortly(volumeL);
  const gap = psu(Math.abs(Number((target - now).toFixed(4))));
  if (plan.by === 'dry-salt' && raiseBy.kind === 'dry-salt') {
    const density = brineDensityKgPerL(now, temperatureC).toFixed(3);
    return [
      md`${litres} L × ${density} kg/L × 1000 × ${gap} ÷ (1000 × ${shortly(raiseBy.saltFraction)} − ${psu(target)}) = ${inFigures((volumeL * brineDensityKgPerL(now, temperatureC) * 1000 * (target - now)) / (1000 * raiseBy.saltFraction - target))} g`,
    ];
  }
  const other = raiseBy.kind === 'stronger-water' && plan.by === 'stronger-water' ? raiseBy.salinity : 0;
  return [
    md`In one go, roughly: ${litres} L × ${gap} ÷ ${psu(Math.abs(now - other))} = ${inFigures(plan.roughL)} L. By mass and in steps it is a little more.`,
  ];
}

function batch(
  { base }: WaterDeps,
  batchL: number,
  target: number,
  saltFraction: number,
  saltLine: readonly Markdown[],
  { water, echo }: Ground,
): Worked | MessageView {
  const usual = known(base, 'salinity', 'salt-in-mix');
  const input = { volumeL: batchL, salinityTarget: target, temperatureC: water.temperatureC };
  const [mix, least, most] = [saltFraction, usual.high, usual.low].map((share) =>
    mixNewWater({ ...input, saltFraction: share }),
  );
  if (mix?.kind !== 'mix' || least?.kind !== 'mix' || most?.kind !== 'mix')
    return mix?.kind === 'out-of-range'
      ? outOfRangeView(mix, md`**/water salinity** target: 35 ppt batch: 50 L`)
      : cannotView('I couldn’t use that', [md`For example: **/water salinity** target: 35 ppt batch: 50 L`]);
  return batchView(base, {
    ...mix,
    batchL,
    target,
    saltFraction,
    range: [least.saltMixG, most.saltMixG],
    water,
    assumed: [...echo, ...water.lines.temperature, ...saltLine],
    byHand: md`${shortly(batchL)} L × ${brineDensityKgPerL(target, water.temperatureC).toFixed(3)} kg/L × ${psu(target)} g/kg ÷ ${shortly(saltFraction)} = ${inFigures(mix.saltMixG)} g`,
  });
}
