import {
  PLANNED,
  type JointPlan,
  type JointPlanInput,
  type Level,
  type Planned,
} from '../../shared/joint-plan-model.ts';
import { bringsPerGram } from '../../shared/reagent.ts';
import { densityKgPerM3 } from '../../shared/seawater-density.ts';
import { amountInterval, kitCanTell, landingInterval } from '../../shared/uncertainty.ts';
import { MEQ_PER_L_PER_DKH } from '../../shared/units/alkalinity.ts';
import { inFigures, shortly } from '../../shared/units/figures.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { joined, md, type ButtonView, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Reagent } from '../knowledge/reagent.ts';
import type { TankUnits } from '../tanks/tank.ts';
import { parameterOf } from '../water/known.ts';
import { fromWords } from '../water/standing.ts';
import { percent, span } from '../water/words.ts';
import { isLimewater, isPlanned, isTested, risingOf } from './plan-input.ts';
import { planPicture } from './plan-picture.ts';
import { dayLines, doseInWords, listed, lower, riseOf, sideLines, valueOf } from './plan-words.ts';

export type AskedPlan = {
  input: JointPlanInput;
  reagents: readonly Reagent[];
  units: TankUnits;
  /** As a share, half of a 95 % interval. */
  volumeError: number;
  assumed: readonly Markdown[];
  audience: Worked['audience'];
};
type Base = Pick<KnowledgeBase, 'parameters' | 'reagents' | 'sources'>;

/** The title by which a kept answer is known: "plan for magnesium 1300 mg/L and alkalinity 8.5 dKH". */
export function planTitle({ input, units }: AskedPlan): string {
  const ends = risingOf(input).map(
    (planned) => `${planned} ${valueOf(planned, levelOf(input, planned).target, units)}`,
  );
  return `plan for ${listed(ends)}`;
}

/** Where a value that has to rise stands, and where it goes. */
function levelOf({ levels, practicalSalinity, targetSalinity }: JointPlanInput, planned: Planned): Level {
  const { now, target } =
    planned === 'salinity' ? { now: practicalSalinity, target: targetSalinity } : { ...levels[planned] };
  if (now === undefined || target === undefined) throw new RangeError(`${planned} has no target`);
  return { now, target };
}

export function workedPlan(base: Base, asked: AskedPlan, plan: JointPlan): Worked {
  const { input, units, assumed, audience } = asked;
  const used = inOrderOfUse(asked.reagents, plan);
  const named = { reagents: new Map(used.map((reagent) => [reagent.id, reagent])), units };
  const rising = risingOf(input);
  const shown = PLANNED.filter((planned) => rising.includes(planned) || (isTested(planned) && input.levels[planned]));
  const totals = used.map(({ id }) => doseInWords(totalOf(input, plan, id), named, true));
  const count = plan.days.length;
  const picture = planPicture(base, asked, plan, rising, named);
  const alarm = [...alarmLines(base, asked), ...carriedTooFar(base, asked, plan)];
  return {
    audience,
    tone: alarm.length > 0 ? 'watch' : 'plain',
    answer: md`${listed(totals)}, ${count === 1 ? 'in one day' : `over ${count} days`}`,
    first: [
      ...alarm,
      ...used.filter(isDangerous).map((reagent) => md`**${reagent.name}:** ${handling(reagent, used.length)}`),
    ],
    days: [
      ...dayLines(plan, shown, named),
      ...(used.length > 1 ? [md`Each in its own fresh water, one after the other in this order.`] : []),
    ],
    ...(picture ? { picture } : {}),
    range: rangeWords(base, asked, plan, used),
    assumed: [...assumed, md`pure reagents, and nothing used up meanwhile`],
    byHand: used.map((reagent) => byHand(asked, plan, reagent)),
    alsoChanges: sideLines(plan, rising, used, units),
    test: testWords(rising, count),
    cautions: cautionLines(base, rising, used),
    from: md`${fromWords(
      base,
      'Masses by the IUPAC 2021 atomic weights, natural sea water by Millero et al. (2008). Of all plans that keep the limits this is one with the fewest days, then the least salt and the least drift of sodium, chloride, sulfate and potassium.',
      rising.flatMap((planned) => {
        const { riseADay, kitError, apart } = parameterOf(base, planned);
        return [riseADay, kitError, apart?.minutes];
      }),
    )}`,
    buttons: aidButtons(used),
  };
}

function inOrderOfUse(reagents: readonly Reagent[], { days }: JointPlan): Reagent[] {
  const ids = [...new Set(days.flatMap(({ doses }) => doses.map(({ reagentId }) => reagentId)))];
  return ids.flatMap((id) => reagents.find((reagent) => reagent.id === id) ?? []);
}

function totalOf({ reagents }: JointPlanInput, { totalsG }: JointPlan, reagentId: string) {
  const massG = totalsG[reagentId] ?? 0;
  const stock = reagents.find(({ id }) => id === reagentId)?.stockGPerL;
  return { reagentId, massG, ...(stock === undefined ? {} : { stockMl: (1000 * massG) / stock }) };
}

function alarmLines(base: Base, { input, units }: AskedPlan): Markdown[] {
  const { practicalSalinity, targetSalinity } = input;
  const saltiness = parameterOf(base, 'salinity').target;
  const isOff = saltiness && (practicalSalinity < saltiness.low || practicalSalinity > saltiness.high);
  const salinityFirst =
    isOff && targetSalinity === undefined
      ? [
          md`**Put salinity right first** (${span(saltiness)} ppt): the others move with it, and this plan may then be too much.`,
        ]
      : [];
  const alarms = risingOf(input).map((planned) => {
    const { name, urgentBelow, warnBelow, warnAbove } = parameterOf(base, planned);
    const { now, target } = levelOf(input, planned);
    return {
      urgent: urgentBelow && now < urgentBelow.low ? [md`**${name} is urgently low.** ${urgentBelow.note ?? ''}`] : [],
      low:
        warnBelow && now < warnBelow.low && !(urgentBelow && now < urgentBelow.low)
          ? [`${planned} (under ${valueOf(planned, warnBelow.low, units)})`]
          : [],
      high:
        warnAbove && target >= warnAbove.high
          ? [
              md`**The target for ${lower(name)} is too high**: from ${valueOf(planned, warnAbove.high, units)} on keepers step in. ${warnAbove.note ?? ''}`,
            ]
          : [],
    };
  });
  const low = alarms.flatMap((alarm) => alarm.low);
  return [
    ...alarms.flatMap(({ urgent }) => urgent),
    ...(low.length > 0 ? [md`**Low:** ${listed(low)}. Test once more before you dose.`] : []),
    ...salinityFirst,
    ...alarms.flatMap(({ high }) => high),
  ];
}

/** Values that nobody asked to raise and that the others carry above where keepers step in. */
function carriedTooFar(base: Base, { input, units }: AskedPlan, { ends }: JointPlan): Markdown[] {
  const rising = risingOf(input);
  return PLANNED.filter((planned) => !rising.includes(planned)).flatMap((planned) => {
    const { name, warnAbove } = parameterOf(base, planned);
    const end = ends[planned];
    return warnAbove && end !== undefined && end >= warnAbove.high
      ? [
          md`**${name} ends too high**, at ${valueOf(planned, end, units)}: from ${valueOf(planned, warnAbove.high, units)} on keepers step in.`,
        ]
      : [];
  });
}

/** What the amounts and the ends may really be, given what tests and the volume may be off by. */
function rangeWords(
  base: Base,
  { input, units, volumeError }: AskedPlan,
  plan: JointPlan,
  used: readonly Reagent[],
): Markdown {
  const lines = risingOf(input).map((planned) => {
    const { now, target } = levelOf(input, planned);
    const kitError = parameterOf(base, planned).kitError?.low ?? 0;
    const landing = landingInterval({ target, rise: target - now, kitError, volumeError });
    const land = `you land at ${valueOf(planned, landing.low, units)} to ${valueOf(planned, landing.high, units)}`;
    const kit = `${planned}, test off by ${riseOf(planned, kitError, units)}`;
    if (!kitCanTell({ rise: target - now, kitError }))
      return md`- ${kit}: **that cannot tell this rise from none**, so test twice; ${land}`;
    const own = used.length > MOST_IN_FULL + 1 ? [] : used.filter(({ raises }) => raises[0] === planned);
    // What others bring along is no part of what these have to make.
    const rise = own.reduce((sum, each) => sum + riseBy(input, plan, each, planned), 0);
    const amounts = own.map(({ id, name }) => {
      const { low, high } = amountInterval({ amount: plan.totalsG[id] ?? 0, rise, kitError, volumeError });
      return `${inUnits(low, 'mass', units)} to ${inUnits(high, 'mass', units)} ${lower(name)}`;
    });
    return md`- ${kit}: ${amounts.length > 0 ? `it may really take ${listed(amounts)}; ` : ''}${land}`;
  });
  return joined([md`With a volume off by up to ${percent(volumeError)}:`, ...lines]);
}

function riseBy(
  { volumeL, ...input }: JointPlanInput,
  { totalsG }: JointPlan,
  { id, formula }: Reagent,
  planned: Planned,
): number {
  const brings = bringsPerGram(formula);
  const gPerL = (totalsG[id] ?? 0) / volumeL;
  switch (planned) {
    case 'alkalinity':
      return (gPerL * brings.alkalinityMeq) / MEQ_PER_L_PER_DKH;
    case 'calcium':
      return gPerL * brings.calciumMg;
    case 'magnesium':
      return gPerL * brings.magnesiumMg;
    case 'salinity': {
      const { practicalSalinity, targetSalinity = practicalSalinity } = input;
      return (gPerL * (1000 * brings.saltG - targetSalinity)) / densityKgPerM3(input);
    }
  }
}

/** One line a reagent: its grams back into the rise that they make. */
function byHand({ input, units }: AskedPlan, plan: JointPlan, reagent: Reagent): Markdown {
  const [planned = 'alkalinity'] = reagent.raises.filter(isPlanned);
  const brings = bringsPerGram(reagent.formula);
  const rise = riseBy(input, plan, reagent, planned);
  const litres = `${shortly(input.volumeL, 4)} L`;
  const grams = `${lower(reagent.name)}: ${inFigures(plan.totalsG[reagent.id] ?? 0, 4)} g`;
  switch (planned) {
    case 'alkalinity':
      return md`${grams} × ${inFigures(brings.alkalinityMeq, 4)} meq ÷ ${litres} = ${inFigures(rise * MEQ_PER_L_PER_DKH, 3)} meq/L = ${valueOf(planned, rise, units)}`;
    case 'calcium':
      return md`${grams} × ${inFigures(brings.calciumMg, 4)} mg ÷ ${litres} = ${inFigures(rise, 3)} mg/L calcium`;
    case 'magnesium':
      return md`${grams} × ${inFigures(brings.magnesiumMg, 4)} mg ÷ ${litres} = ${inFigures(rise, 3)} mg/L magnesium`;
    case 'salinity':
      return md`${grams} × (1000 − ${shortly(input.targetSalinity ?? input.practicalSalinity)}) ÷ (${litres} × ${inFigures(densityKgPerM3(input), 4)} g) = ${inFigures(rise, 3)} ppt`;
  }
}

function testWords(rising: readonly Planned[], days: number): Markdown {
  const names = listed(rising);
  const begin = `${names.charAt(0).toUpperCase()}${names.slice(1)} before`;
  return days === 1
    ? md`${begin} you begin, and again on the next day.`
    : md`${begin} each day’s part, and on the day after the last. Leave out what is right already. Ask anew when a test surprises you: corals use it up while you dose.`;
}

/** What can hurt somebody stands above the days; what is mild stands here. The rest is in the answer about it alone. */
function cautionLines(base: Base, rising: readonly Planned[], used: readonly Reagent[]): Markdown[] {
  const aparts = rising.flatMap((planned) => parameterOf(base, planned).apart ?? []);
  const parted = used.some(({ raises }) => raises.includes('alkalinity') !== raises.includes('calcium'));
  const toRead = [
    ...rising.filter((planned) => planned !== 'salinity').map((planned) => `/dose ${planned}`),
    ...(used.some(isLimewater) ? ['/dose limewater'] : []),
  ];
  return [
    ...used
      .filter((reagent) => !isDangerous(reagent))
      .map((reagent) => md`- **${reagent.name}:** ${handling(reagent, used.length)}`),
    ...(parted ? aparts : [])
      .slice(0, 1)
      .map(
        ({ minutes, why }) =>
          md`- Alkalinity and calcium never together: at least ${minutes.high} minutes and another place between them.${used.length > MOST_IN_FULL ? '' : ` ${why}`}`,
      ),
    md`- Pour slowly where the flow is strong, never onto an animal.${toRead.length > 0 ? md` How to dissolve each: **${listed(toRead)}**.` : md``}`,
  ];
}

const isDangerous = ({ dangers }: Reagent): boolean => dangers.length > 0;

/** A message holds so much; with more reagents than this, how to dissolve each is left to the answers about it alone. */
const MOST_IN_FULL = 3;

const handling = ({ hazard, protect, making, mind, raises, dangers }: Reagent, among: number): string => {
  const isFull = among <= MOST_IN_FULL;
  const isMix = raises.includes('salinity');
  return [
    hazard,
    protect,
    ...((isFull && dangers.length > 0) || isMix ? [making] : []),
    ...(mind && isFull && (isMix || dangers.includes('strong-alkali')) ? [mind] : []),
  ].join(' ');
};

/** The longest label that a phone shows whole on a button. */
const MOST_ON_LABEL = 60;

function aidButtons(used: readonly Reagent[]): ButtonView[] {
  const rows = new Map<string, string[]>();
  for (const { firstAid, name } of used.toSorted(
    (one, other) => Number(isDangerous(other)) - Number(isDangerous(one)),
  )) {
    const [row] = firstAid;
    if (row) rows.set(row, [...(rows.get(row) ?? []), lower(name)]);
  }
  return [...rows].map(([row, names]) => {
    const all = listed(names);
    const shown = all.length <= MOST_ON_LABEL ? all : `${names[0] ?? ''} and ${names.length - 1} others`;
    return { label: rows.size === 1 ? 'First aid' : `First aid: ${shown}`, act: 'aid', args: [row] };
  });
}
