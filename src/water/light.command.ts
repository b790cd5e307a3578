import { z } from 'zod';
import { dailyLight, parForDailyLight, type LightDay } from '../../shared/daily-light.ts';
import { shortly } from '../../shared/units/figures.ts';
import { quantityOptions, quantityShape, readQuantities } from '../calculators/quantity-option.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md, type Answer } from '../discord/message-view.ts';
import type { WaterDeps } from './asked.ts';
import { cannotView, outOfRangeView } from './asked.view.ts';
import { known } from './known.ts';
import { rampRules, weeklyRamp } from './light.ts';
import { dailyView, rampView } from './light.view.ts';

const SHAPES = ['steady', 'like the sun'] as const;
const LEAST_MOL = 1;
const MOST_MOL = 100;

const par = (description: string, most = 3000) =>
  ({ description, required: false, quantity: 'light', least: 1, most }) as const;
const hours = (description: string, least = 0) =>
  ({ description, required: false, quantity: 'duration', least, most: 24 }) as const;
const ASKED = {
  par: par('Light at the coral now, in µmol/m²/s: "150"'),
  target: par('Light you want there; answers with weekly steps'),
  full: par('What the lamp gives there at 100 %; adds lamp settings to the steps', 5000),
  hours: hours('Hours of light in a day: "10"; with ramps, only the full part', 0.1),
  'ramp-up': hours('Hours of dawn, when the lamp rises'),
  'ramp-down': hours('Hours of dusk, when it fades'),
} as const;
const EXAMPLE = md`**/water light** par: 120 target: 300`;

/** `/water light`: a light ramp, the light of a day, or the brightness that brings it. */
export function lightCommand({ base, unitsOf }: WaterDeps): AnyCommand {
  return defineCommand({
    name: 'water light',
    description: 'Light in weekly steps up to a target, or the light of a whole day',
    options: [
      ...quantityOptions(ASKED),
      {
        kind: 'whole-number',
        name: 'daily-light',
        description: 'Light of the whole day that you want, in mol/m²/day; answers with the brightness',
        required: false,
        least: LEAST_MOL,
        most: MOST_MOL,
      },
      { name: 'day', description: 'How the day runs; left out: steady', required: false, choices: SHAPES },
    ],
    input: z.object({
      ...quantityShape(ASKED),
      'daily-light': z.int().min(LEAST_MOL).max(MOST_MOL).optional(),
      day: z.enum(SHAPES).optional(),
    }),
    run: (given, { guildId }): Answer => {
      const read = readQuantities(ASKED, given, unitsOf(guildId));
      if (read.kind === 'problem') return read.view;
      const { par: now, target, full, hours: lit, 'ramp-up': up, 'ramp-down': down } = read.values;
      if (target) {
        if (!now) return missing('par', 'the light at the coral now');
        return ramp(base, now.si, target.si, full?.si, read.echo);
      }
      if (!now && given['daily-light'] === undefined)
        return cannotView('Which light?', [
          md`Give **par:** and **target:** for weekly steps, **par:** and **hours:** for the light of a day, or **daily-light:** and **hours:** for the brightness.`,
          md`For example: ${EXAMPLE}`,
        ]);
      const usual = known(base, 'light', 'hours-a-day');
      const full_ = lit?.si ?? usual.low;
      const sun = given.day === 'like the sun';
      const day: LightDay = sun
        ? { kind: 'half-sine', dayLengthH: full_ }
        : { kind: 'plateau', plateauH: full_, rampUpH: up?.si ?? 0, rampDownH: down?.si ?? 0 };
      const found =
        given['daily-light'] !== undefined
          ? parForDailyLight({ dailyLightMol: given['daily-light'], day })
          : dailyLight({ parUmol: now?.si ?? 0, day });
      if (found.kind === 'out-of-range') return outOfRangeView(found, md`**/water light** par: 200 hours: 10`);
      return dailyView(base, {
        asked: found.kind,
        parUmol: found.kind === 'par' ? found.parUmol : (now?.si ?? 0),
        dailyLightMol: found.kind === 'par' ? (given['daily-light'] ?? 0) : found.dailyLightMol,
        equivalentH: found.equivalentH,
        hours: hoursInWords(day),
        assumed: [
          ...read.echo,
          ...(lit ? [] : [md`hours: ${usual.low}, **assumed**`]),
          sun
            ? md`day: a half sine, like the sun`
            : md`day: steady between the ramps${given.day ? md`` : md`, **assumed**`}`,
        ],
      });
    },
  });
}

function hoursInWords(day: LightDay): string {
  if (day.kind === 'half-sine') return `${shortly(day.dayLengthH)} × 2 ÷ π`;
  const { plateauH, rampUpH, rampDownH } = day;
  return rampUpH + rampDownH === 0
    ? shortly(plateauH)
    : `${shortly(plateauH)} + (${shortly(rampUpH)} + ${shortly(rampDownH)}) ÷ 2`;
}

const missing = (option: string, what: string) =>
  cannotView('One more number', [md`I also need **${option}:**, ${what}.`, md`For example: ${EXAMPLE}`]);

function ramp(
  base: WaterDeps['base'],
  startPar: number,
  targetPar: number,
  parAtFull: number | undefined,
  assumed: Parameters<typeof rampView>[1]['assumed'],
): Answer {
  const rules = rampRules(base);
  const { ramp: found, capPar } = weeklyRamp(rules, {
    startPar,
    targetPar,
    ...(parAtFull === undefined ? {} : { parAtFull }),
  });
  switch (found.kind) {
    case 'ramp':
      return rampView(base, { ...found, startPar, targetPar, capPar, rules, assumed });
    case 'not-brighter':
      return cannotView('Less light needs no ramp', [
        md`You have ${shortly(startPar)} and want ${shortly(targetPar)} µmol/m²/s. Turn the lamp down at once, or move the coral: going down does no harm.`,
        md`To go up, give a **target:** above **par:**. For example: ${EXAMPLE}`,
      ]);
    case 'beyond-lamp':
      return cannotView('The lamp does not give that much', [
        md`You want ${shortly(targetPar)}, and it gives ${shortly(found.parAtFull)} µmol/m²/s there at 100 %. Move the coral up, hang the lamp lower, or aim for less.`,
      ]);
    case 'too-many-steps':
      return cannotView('I couldn’t use that', [
        md`From ${shortly(startPar)} to ${shortly(targetPar)} takes more than ${found.most} weekly steps.`,
        md`For example: ${EXAMPLE}`,
      ]);
    case 'out-of-range':
      return outOfRangeView(found, EXAMPLE);
  }
}
