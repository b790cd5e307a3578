import { shortly } from '../../shared/units/figures.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Figure, Parameter } from '../knowledge/parameter.ts';
import { known, givenFigure, parameterOf } from './known.ts';
import { totalOf, type SalinityPlan, type SalinityStep } from './salinity-plan.ts';
import { fromWords, SALT_BALANCE } from './standing.ts';
import type { TankWater } from './tank-water.ts';
import { counted, percent, psu, span } from './words.ts';

/** Longer lists say their beginning and their end. */
const MOST_LINES = 10;

export type SalinityFound = {
  plan: Extract<SalinityPlan, { kind: 'plan' }>;
  now: number;
  target: number;
  volumeL: number;
  water: TankWater;
  fishOnly: boolean;
  /** The cap that the steps keep. */
  cap: Figure;
  hoursBetween: number;
  /** All of it if the meter reads a little low and a little high. */
  range: readonly [number, number];
  meterError: number;
  /** How the formula reads with these numbers. */
  byHand: readonly Markdown[];
  assumed: readonly Markdown[];
};

/** A correction of salinity, step by step. */
export function salinityView(base: KnowledgeBase, found: SalinityFound): Worked {
  const { plan, now, target, water, fishOnly, cap, hoursBetween, range, meterError } = found;
  const { steps, by } = plan;
  const say = (amount: number) => inUnits(amount, by === 'dry-salt' ? 'mass' : 'volume', water.units);
  const parameter = parameterOf(base, 'salinity');
  const what = WHAT[by];
  const salt = base.reagents.get('sea-salt');
  const low = fishOnly && target < now;
  const total = totalOf(steps);
  const days = ((steps.length - 1) * hoursBetween) / 24;
  return {
    audience: 'member',
    tone: low || Math.abs(target - now) > 2 * cap.high ? 'watch' : 'plain',
    answer: md`${by === 'dry-salt' ? 'Add' : 'Swap'} ${say(total)} ${what}${steps.length > 1 ? md` in ${counted(steps.length, 'step')}` : md``}`,
    first: [
      ...(fishOnly ? [] : outsideWords(parameter, target)),
      ...(Math.abs(target - now) <= meterError
        ? [
            md`**The whole step is within what a hand refractometer may be off.** Set it with a 35 solution first; there may be nothing to correct.`,
          ]
        : []),
      ...(low ? [md`**A vet first.** ${known(base, 'salinity', 'hyposalinity-level').note ?? ''}`] : []),
    ],
    days: [
      ...listed(steps, (step, at) => stepLine(step, at, by, hoursBetween, say)),
      steps.length > 1
        ? steps.length === 2
          ? md`${inTime(hoursBetween)} or more between the two.`
          : md`${inTime(hoursBetween)} or more between steps: ${counted(days, 'day')} from the first to the last.`
        : md`One step is within the cap of ${span(cap)} ${low ? 'a step' : 'a day'}.`,
    ],
    assumed: found.assumed,
    byHand: found.byHand,
    range: md`${say(range[0])} to ${say(range[1])} in all, if the meter is off by ${shortly(meterError)} and the volume by ${percent(water.volumeError)}. Measure before every step.`,
    alsoChanges:
      by === 'dry-salt'
        ? [md`Everything in the mix comes along: alkalinity, calcium and magnesium rise with it.`]
        : by === 'fresh-water'
          ? [md`Alkalinity, calcium and magnesium fall in the same share as the salinity.`]
          : [],
    test: md`${parameter.testing}`,
    cautions: [
      ...(by === 'dry-salt' ? [md`- ${salt?.making ?? ''}`] : []),
      md`- Match the temperature of new water within ${span(known(base, 'temperature', 'change-matches-within'))} °C. Tap water needs its chlorine gone; purified water is better.`,
      md`- Unplug heater and pumps before the level drops, and switch them on again after.`,
      ...(low
        ? [md`- Top off evaporation with fresh water every day, and test ammonia, pH and alkalinity: all of them move.`]
        : []),
      ...(by !== 'fresh-water' && fishOnly
        ? [md`- ${known(base, 'salinity', 'hyposalinity-rise-a-day').note ?? ''}`]
        : []),
    ],
    from: md`${fromWords(base, SALT_BALANCE, [cap, givenFigure(parameter, 'kitError'), ...(by === 'dry-salt' ? [known(base, 'salinity', 'salt-in-mix')] : [])])}`,
  };
}

const WHAT = {
  'fresh-water': 'for fresh water',
  'dry-salt': 'of dry salt mix',
  'stronger-water': 'for the stronger water',
} as const;

function stepLine(
  { from, to, swapL, saltMixG }: SalinityStep,
  at: number,
  by: keyof typeof WHAT,
  hoursBetween: number,
  say: (amount: number) => string,
): Markdown {
  const when = at === 0 ? 'now' : `after ${inTime(at * hoursBetween)}`;
  return md`- Step ${at + 1}, ${when}: **${say(swapL + saltMixG)}** ${WHAT[by]}, ${psu(from)} to ${psu(to)}`;
}

/** A target at which nobody keeps corals is perhaps meant for fish, or a slip. */
function outsideWords({ warnBelow, warnAbove }: Parameter, target: number): Markdown[] {
  if (!warnBelow || !warnAbove || (target >= warnBelow.low && target <= warnAbove.high)) return [];
  return [
    md`**${psu(target)} is outside ${warnBelow.low} to ${warnAbove.high}, where reef animals are kept.** For a treatment of fish alone add **animals: fish only**.`,
  ];
}

const inTime = (hours: number) => (hours % 24 === 0 ? counted(hours / 24, 'day') : counted(hours, 'hour'));

function listed<T>(items: readonly T[], line: (item: T, at: number) => Markdown): Markdown[] {
  const lines = items.map(line);
  if (lines.length <= MOST_LINES) return lines;
  const last = lines.at(-1);
  return [...lines.slice(0, MOST_LINES - 2), md`- … and so on …`, ...(last ? [last] : [])];
}

export type BatchFound = {
  saltMixG: number;
  freshL: number;
  batchL: number;
  target: number;
  saltFraction: number;
  range: readonly [number, number];
  water: TankWater;
  assumed: readonly Markdown[];
  byHand: Markdown;
};

/** A batch of new salt water. */
export function batchView(base: KnowledgeBase, found: BatchFound): Worked {
  const { saltMixG, freshL, batchL, target, range, water, assumed, byHand } = found;
  const salt = base.reagents.get('sea-salt');
  return {
    audience: 'member',
    answer: md`${inUnits(saltMixG, 'mass', water.units)} of dry salt mix and ${inUnits(freshL, 'volume', water.units)} of fresh water`,
    first: [
      md`Makes ${inUnits(batchL, 'volume', water.units)} of new water at ${inUnits(target, 'salinity', water.units)}.`,
    ],
    assumed,
    byHand: [byHand],
    range: md`${inUnits(range[0], 'mass', water.units)} to ${inUnits(range[1], 'mass', water.units)}, as mixes differ. Begin with the lower and add by the meter.`,
    test: md`Salinity, temperature and alkalinity of the new water, before it goes in.`,
    cautions: [md`- ${salt?.making ?? ''}`, md`- ${salt?.mind ?? ''}`],
    from: md`${fromWords(base, SALT_BALANCE, [known(base, 'salinity', 'salt-in-mix')])}`,
  };
}
