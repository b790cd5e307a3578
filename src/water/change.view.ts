import { inFigures, shortly } from '../../shared/units/figures.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Figure, Parameter } from '../knowledge/parameter.ts';
import type { ChangePlan } from './change-plan.ts';
import { cannotView } from './asked.view.ts';
import { known, parameterOf } from './known.ts';
import { fromWords } from './standing.ts';
import type { TankWater } from './tank-water.ts';
import { counted, percent, span } from './words.ts';

/** What an answer about changing water needs to know, whatever was asked. */
export type ChangeGround = {
  of: Parameter;
  water: TankWater;
  assumed: readonly Markdown[];
  start: number;
  newWater: number;
  /** The cap of a day in the direction it moves, if there is one. */
  cap: Figure | null;
};

const value = ({ of }: ChangeGround, amount: number) => `${shortly(amount)} ${unitOf(of)}`;
const unitOf = ({ unit, species }: Parameter) => (species ? `${unit} ${species}` : unit);

/** "10.9% (32.7 L)", or the share alone while nobody knows the volume. */
const shareOf = ({ water }: ChangeGround, share: number) =>
  water.volumeL === null
    ? percent(share)
    : `${percent(share)} (${inUnits(share * water.volumeL, 'volume', water.units)})`;

const MOST_LINES = 10;

/** The plan to a target: equal changes, none too large for a day. */
export function changePlanView(
  base: KnowledgeBase,
  ground: ChangeGround,
  plan: Extract<ChangePlan, { kind: 'plan' }>,
  target: number,
  range: Markdown | null,
): Worked {
  const { start, newWater, cap } = ground;
  const { share, after, oneGoShare, oneGoMoves } = plan;
  const several = after.length > 1;
  const lines = after.map((left, at) => md`- Change ${at + 1}: ${value(ground, left)} left`);
  return view(base, ground, {
    answer: several
      ? md`${counted(after.length, 'change')} of ${shareOf(ground, share)}, a day apart or more`
      : md`One change of ${shareOf(ground, share)}`,
    first: several
      ? [
          md`In one go it would take ${shareOf(ground, oneGoShare)} and move it by ${value(ground, oneGoMoves)}: ${cap && oneGoMoves > cap.low ? md`more than the ${shortly(cap.low)} a day that is kept to` : md`too much water at once`}.${cap?.note ? md` (${cap.note})` : md``}`,
        ]
      : [],
    days: several
      ? lines.length <= MOST_LINES
        ? lines
        : [...lines.slice(0, MOST_LINES - 2), md`- … and so on …`, ...lines.slice(-1)]
      : [],
    byHand: [
      md`One go: (${shortly(start)} − ${shortly(target)}) ÷ (${shortly(start)} − ${shortly(newWater)}) = ${percent(oneGoShare)}`,
      ...(several
        ? [
            md`${after.length} equal ones: 1 − (1 − ${shortly(oneGoShare)})^(1/${after.length}) = ${percent(share)} each`,
          ]
        : []),
    ],
    ...(range ? { range } : {}),
  });
}

/** What so many changes leave, in one go each or pumped through. */
export function changedView(
  base: KnowledgeBase,
  ground: ChangeGround,
  found: { final: number; replaced: number },
  how: ChangeHow,
  byHand: Markdown,
): Worked {
  const moved =
    how === 'pumped' ? Math.abs(ground.start - found.final) : Math.abs(ground.start - ground.newWater) * how;
  return view(base, ground, {
    tone: isTooFast(ground, moved) ? 'watch' : 'plain',
    answer: md`${value(ground, found.final)} left`,
    first: [md`${percent(found.replaced)} of the first water is gone by then.`, ...pace(ground, moved, how)],
    byHand: [byHand],
    range: kitRange(ground, found),
  });
}

/** What is left if the kit was off: its error is thinned out with the rest. */
function kitRange(ground: ChangeGround, { final, replaced }: { final: number; replaced: number }): Markdown {
  const { kitError } = ground.of;
  if (!kitError)
    return md`A reading that is off by a tenth leaves the answer off by about a tenth. Read the kit twice.`;
  const off = kitError.low * (1 - replaced);
  return md`${value(ground, Math.max(0, final - off))} to ${value(ground, final + off)}, if the kit is off by ${kitError.low}.`;
}

/** How a change is made: a share each time, or pumped through at one level. */
export type ChangeHow = number | 'pumped';

const isTooFast = ({ cap }: ChangeGround, moved: number) => cap !== null && moved > cap.low;

/** What to do where the first change moves a value by more than a day's cap. */
function pace(ground: ChangeGround, moved: number, how: ChangeHow): Markdown[] {
  const { cap } = ground;
  if (cap === null || moved <= cap.low) return [];
  const days = counted(Math.ceil(moved / cap.low), 'day');
  const said = md`${value(ground, moved)}; ${shortly(cap.low)} a day is kept to.**${cap.note ? md` (${cap.note})` : md``}`;
  return how === 'pumped'
    ? [md`**That moves it by ${said} Pump it over ${days} or more.`]
    : [
        md`**The first one moves it by ${said} Leave ${days} between changes, or give **target:** without **change:** and I plan smaller ones.`,
      ];
}

/** How many changes of a given size, or how many litres pumped, a target takes. */
export function changeCountView(
  base: KnowledgeBase,
  ground: ChangeGround,
  found: { count: Markdown; final: number; moved: number; how: ChangeHow; byHand: Markdown },
): Worked {
  const { count, final, moved, how, byHand } = found;
  return view(base, ground, {
    tone: isTooFast(ground, moved) ? 'watch' : 'plain',
    answer: how === 'pumped' ? count : md`${count} of ${shareOf(ground, how)}`,
    first: [md`Then ${value(ground, final)} is left.`, ...pace(ground, moved, how)],
    byHand: [byHand],
  });
}

/** Where a nutrient settles with a routine of changes. */
export function steadyView(
  base: KnowledgeBase,
  ground: ChangeGround,
  found: { beforeChange: number; afterChange: number; productionPerDay: number; intervalDays: number; share: number },
): Worked {
  const { of, newWater } = ground;
  const { beforeChange, afterChange, productionPerDay, intervalDays, share } = found;
  const warn = of.warnAbove && beforeChange > of.warnAbove.high;
  return view(base, ground, {
    tone: warn ? 'watch' : 'plain',
    answer: md`It settles at ${value(ground, beforeChange)} before a change and ${value(ground, afterChange)} after it`,
    first: warn
      ? [
          md`**That is above ${shortly(of.warnAbove?.high ?? 0)}, where keepers act.** Larger or more frequent changes bring it down; so does less food.`,
        ]
      : [],
    byHand: [
      md`${shortly(newWater)} + ${shortly(productionPerDay)} × ${shortly(intervalDays)} days ÷ ${shortly(share)} = ${inFigures(beforeChange)}`,
    ],
    range: md`What algae, rock and bacteria take up is not in it, so a test after some weeks decides.`,
  });
}

/** A change as litres and share, and what the new water has to match. */
export function amountView(base: KnowledgeBase, ground: ChangeGround, share: number, volumeL: number): Worked {
  const { units } = ground.water;
  return view(base, ground, {
    answer: md`${inUnits(share * volumeL, 'volume', units)} is ${percent(share)} of ${inUnits(volumeL, 'volume', units)}`,
    first: [md`Add **now:** with a test result, and I say what is left afterwards.`],
    byHand: [md`${shortly(share * volumeL)} L ÷ ${shortly(volumeL)} L = ${percent(share)}`],
    test: md`${parameterOf(base, 'water-change').testing}`,
  });
}

function view(
  base: KnowledgeBase,
  { of, cap, assumed }: ChangeGround,
  worked: Partial<Worked> & { answer: Markdown },
): Worked {
  const change = parameterOf(base, 'water-change');
  const [most, alkalinity] = [
    known(base, 'water-change', 'most-unmatched'),
    known(base, 'water-change', 'alkalinity-matches-within'),
  ];
  const [warmth, salt] = [
    known(base, 'temperature', 'change-matches-within'),
    known(base, 'salinity', 'change-matches-within'),
  ];
  return {
    audience: 'member',
    assumed,
    test: md`${of.testing}`,
    cautions: [
      md`- Match new water: temperature within ${span(warmth)} °C, salinity within ${span(salt)} ppt, alkalinity within ${span(alkalinity)} dKH. Never more than ${span(most)}% at once without.`,
      md`- Unplug heater and pumps before the level drops, and switch them on again after.`,
      ...change.mind.map((sentence) => md`- ${sentence}`),
    ],
    from: md`${fromWords(base, 'Mass balance of a well-mixed tank.', [cap ?? undefined, most, warmth, salt])}`,
    ...worked,
  };
}

/** Where no change of water leads: the target lies beyond what the new water holds. */
export function outOfReachView({ of, start, newWater }: ChangeGround, target: number, example: Markdown): MessageView {
  const limit = target === newWater ? md`: changes come ever closer to it and never arrive` : md``;
  return cannotView('No water change leads there', [
    md`You have ${shortly(start)}, the new water holds ${shortly(newWater)}, and ${shortly(target)} does not lie between them${limit}.`,
    target > start ? md`To raise it, see **/dose**.` : md`What lowers it: ${of.lowering}`,
    md`For example: ${example}`,
  ]);
}
