import { bringsPerGram, ION_KEYS, IONS, type Ion } from '../../shared/reagent.ts';
import { inFigures, shortly } from '../../shared/units/figures.ts';
import { MEQ_PER_L_PER_DKH } from '../../shared/units/alkalinity.ts';
import type { DoseInCourse } from '../calculators/dose-in-course.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import { broughtBy } from '../tanks/dose-text.ts';
import type { TankUnits } from '../tanks/tank.ts';
import { cannotView } from '../water/asked.view.ts';
import { fromWords } from '../water/standing.ts';
import { counted, percent, span } from '../water/words.ts';
import { doseCautions } from './dose-cautions.view.ts';
import { ionOf, type SingleDose, type SingleDoseInput } from './single-dose.ts';

export type Asked = {
  input: SingleDoseInput;
  units: TankUnits;
  assumed: readonly Markdown[];
  /** Somebody measured the salinity, or the tank keeps it. */
  salinityKnown: boolean;
  audience: Worked['audience'];
};
type Found = Extract<SingleDose, { kind: 'dose' }>;

/** An amount of a parameter in the member's unit. */
export const amountOf =
  ({ id }: Pick<Parameter, 'id'>, units: TankUnits) =>
  (value: number): string =>
    inUnits(value, id === 'alkalinity' ? 'alkalinity' : 'concentration', units);

/** What is weighed or poured in one day, or in all. */
export function portion({ stock, massG, massGPerDay }: Found, units: TankUnits, whole: boolean): string {
  return stock
    ? inUnits((whole ? stock.volumeMl : stock.volumeMlPerDay) / 1000, 'dose-volume', units)
    : inUnits(whole ? massG : massGPerDay, 'mass', units);
}

/** The doses, one a day, as reminders and the log of a tank take them. */
export const dosesInCourse = (
  base: KnowledgeBase,
  found: Found,
  { input: { reagent, purity }, units }: Asked,
): DoseInCourse[] =>
  Array.from({ length: found.days }, () => ({
    words: `${portion(found, units, false)} ${substance(reagent.name, found)}`,
    effect: { by: 'total', of: broughtBy(base, reagent, found.massGPerDay * purity) },
  }));

const lower = (name: string) => name.charAt(0).toLowerCase() + name.slice(1);
const substance = (name: string, { stock }: Found) => (stock ? `of your ${lower(name)} stock` : lower(name));

/** The title by which a kept answer is known: "alkalinity 7.0 dKH to 8.5 dKH". */
export function doseTitle({ input: { parameter, now, target }, units }: Asked): string {
  const amount = amountOf(parameter, units);
  return `${parameter.name.toLowerCase()} ${amount(now)} to ${amount(target)}`;
}

export function workedDose(base: KnowledgeBase, asked: Asked, found: Found): Worked {
  const { input, units, assumed, audience } = asked;
  const { parameter, reagent, now, target } = input;
  const amount = amountOf(parameter, units);
  const alarm = [...salinityFirst(base, asked, amount), ...alarmWords(parameter, now, target, amount)];
  return {
    audience,
    tone: alarm.length > 0 ? 'watch' : 'plain',
    answer: md`${portion(found, units, true)} ${substance(reagent.name, found)}${found.days > 1 ? md`, over ${found.days} days` : md``}`,
    first: alarm,
    days: dayLines(found, asked, amount),
    range: rangeWords(found, asked, amount),
    assumed,
    byHand: byHand(found, asked),
    alsoChanges: sideWords(found, asked),
    test: md`${parameter.testing}`,
    cautions: doseCautions(base, { ...input, practicalSalinity: asked.salinityKnown ? input.practicalSalinity : null }),
    from: md`${fromWords(base, 'Masses by the IUPAC 2021 atomic weights.', [parameter.riseADay, parameter.kitError, parameter.target])}`,
    buttons: reagent.firstAid.slice(0, 1).map((row) => ({ label: 'First aid', act: 'aid', args: [row] })),
  };
}

/** The sea that targets are meant for. */
const USUAL_SALINITY = 35;

/** What rises and falls with salinity looks low in thin water: a dose on top of that ends too high once salinity is right. */
function salinityFirst(
  base: KnowledgeBase,
  { input, salinityKnown }: Asked,
  amount: (value: number) => string,
): Markdown[] {
  const { parameter, practicalSalinity, now } = input;
  const usual = base.parameters.get('salinity')?.target;
  if (!salinityKnown || !usual || !parameter.after.includes('salinity')) return [];
  if (practicalSalinity >= usual.low && practicalSalinity <= usual.high) return [];
  return [
    md`**Put salinity right before you dose.** It is ${shortly(practicalSalinity)} ppt, and ${parameter.name.toLowerCase()} moves with it: at ${USUAL_SALINITY} ppt your ${amount(now)} would be about ${amount((now * USUAL_SALINITY) / practicalSalinity)}. Test again then.`,
  ];
}

function alarmWords(parameter: Parameter, now: number, target: number, amount: (value: number) => string): Markdown[] {
  const { urgentBelow, warnBelow, warnAbove, name, target: targetHigh } = parameter;
  const low = [urgentBelow, warnBelow].find((figure) => figure && now < figure.low);
  return [
    ...(low
      ? [
          md`**${name} is ${low === urgentBelow ? 'urgently ' : ''}low**: under ${amount(low.low)}. ${low.note ?? ''} Test once more before you dose.`,
        ]
      : []),
    ...(warnAbove && target >= warnAbove.high
      ? [md`**Your target is too high**: from ${amount(warnAbove.high)} on keepers step in. ${warnAbove.note ?? ''}`]
      : targetHigh && target > targetHigh.high
        ? [md`Your target lies above what keepers aim for (${span(targetHigh)} ${parameter.unit}).`]
        : []),
  ];
}

const MOST_LISTED = 8;
/** Less than this goes in at once. */
const WORTH_PARTING_G = 1;

function dayLines(
  found: Found,
  { input: { now, parameter }, units }: Asked,
  amount: (value: number) => string,
): Markdown[] {
  const { days, risePerDay, capPerDay } = found;
  const cap = md`at most ${amount(capPerDay)} a day`;
  const slowly = found.massGPerDay >= WORTH_PARTING_G ? md`, slowly and in two or three portions` : md``;
  if (days === 1) return [md`All of it in one day is within bounds (${cap})${slowly}.`];
  const each = md`**${portion(found, units, false)} a day** for ${days} days (${cap})${slowly}.`;
  const steps = Array.from(
    { length: Math.min(days, MOST_LISTED) },
    (_, day) => `day ${day + 1} → ${amount(now + risePerDay * (day + 1))}`,
  );
  const more = days > MOST_LISTED ? `, and so on to day ${days}` : '';
  return [
    each,
    md`${steps.join(', ')}${more}. Test ${parameter.name.toLowerCase()} before each day’s part; stop where it is right.`,
  ];
}

function rangeWords(found: Found, { input, units }: Asked, amount: (value: number) => string): Markdown {
  const { massSpanG, landing, kitTells, stock } = found;
  const ends = [massSpanG.low, massSpanG.high].map((massG) =>
    stock ? inUnits(massG / stock.gPerL, 'dose-volume', units) : inUnits(massG, 'mass', units),
  );
  const doubt = md`given a kit that is off by up to ${amount(input.kitError)} and a volume that is off by ${percent(input.volumeError)}`;
  const land = md`With the whole amount you land between ${amount(landing.low)} and ${amount(landing.high)}.`;
  return kitTells
    ? md`${ends[0] ?? ''} to ${ends[1] ?? ''} may be what it really takes, ${doubt}. ${land}`
    : md`**Your kit cannot tell this rise from none** (off by up to ${amount(input.kitError)}). Test again, twice, before you dose. ${land}`;
}

const ALKALINITY_BY_HAND = {
  dKH: (riseDkh: number) => `${shortly(riseDkh)} dKH × ${inFigures(MEQ_PER_L_PER_DKH, 4)}`,
  'meq/L': (riseDkh: number) => `${shortly(riseDkh * MEQ_PER_L_PER_DKH)} meq/L`,
  'ppm CaCO3': (riseDkh: number) => `${shortly(riseDkh * MEQ_PER_L_PER_DKH * 50.043)} ppm ÷ 50.04`,
} as const;

/** Two lines with a pocket calculator's worth of digits. */
function byHand({ rise, massG }: Found, { input, units }: Asked): Markdown[] {
  const { parameter, reagent, volumeL, purity } = input;
  const brings = bringsPerGram(reagent.formula);
  const litres = `${shortly(volumeL, 4)} L`;
  const pure = purity === 1 ? '' : ` ÷ ${shortly(purity)} purity`;
  if (parameter.id === 'alkalinity') {
    const meq = rise * MEQ_PER_L_PER_DKH * volumeL;
    return [
      md`${ALKALINITY_BY_HAND[units.alkalinity](rise)} × ${litres} = ${inFigures(meq, 3)} meq`,
      md`${inFigures(meq, 3)} meq ÷ ${inFigures(brings.alkalinityMeq, 4)} meq a gram${pure} = ${inUnits(massG, 'mass', units)}`,
    ];
  }
  const ion = ionOf(parameter);
  return [
    md`${shortly(rise)} mg/L × ${litres} = ${inFigures(rise * volumeL, 3)} mg ${ION_NAMES[ion]}`,
    md`${inFigures(rise * volumeL, 3)} mg ÷ ${inFigures(brings[ION_KEYS[ion]], 4)} mg a gram${pure} = ${inUnits(massG, 'mass', units)}`,
  ];
}

const ION_NAMES: Readonly<Record<Ion, string>> = {
  Na: 'sodium',
  K: 'potassium',
  Ca: 'calcium',
  Mg: 'magnesium',
  Sr: 'strontium',
  Cu: 'copper',
  Cl: 'chloride',
  SO4: 'sulfate',
  NO3: 'nitrate',
  PO4: 'phosphate',
  I: 'iodide',
};

/** Rises too small for anybody to measure are left out. */
const WORTH_SAYING = { mgPerL: 0.05, dkh: 0.05, psu: 0.005 };

function sideWords({ effects }: Found, { input: { parameter }, units }: Asked): Markdown[] {
  const meant = parameter.id === 'alkalinity' ? null : ionOf(parameter);
  const ions = IONS.flatMap((ion) => {
    const more = effects.ionsMgPerL[ion] ?? 0;
    return ion === meant || more < WORTH_SAYING.mgPerL
      ? []
      : [`${ION_NAMES[ion]} +${inUnits(more, 'concentration', units)}`];
  });
  const alkalinity =
    parameter.id !== 'alkalinity' && effects.alkalinityDkh >= WORTH_SAYING.dkh
      ? [`alkalinity +${inUnits(effects.alkalinityDkh, 'alkalinity', units)}`]
      : [];
  const salinity =
    effects.salinityRisePsu >= WORTH_SAYING.psu ? [`salinity +${shortly(effects.salinityRisePsu, 2)} ppt`] : [];
  const ph = {
    'raises strongly': 'pH up sharply',
    raises: 'pH up',
    hardly: 'pH hardly',
    'lowers slightly': 'pH down a little',
  }[effects.ph];
  return [md`${[...ions, ...alkalinity, ...salinity, ph].join(', ')}.`];
}

/** Nothing to dose, or no dose that could help: said in private. */
export function noDoseView(asked: Asked, outcome: Exclude<SingleDose, { kind: 'dose' | 'out-of-range' }>): MessageView {
  const {
    input: { parameter, reagent, target, now },
    units,
  } = asked;
  const amount = amountOf(parameter, units);
  switch (outcome.kind) {
    case 'not-needed':
      return cannotView('Nothing to add', [md`${parameter.name} is at your target of ${amount(target)} already.`]);
    case 'cannot-lower':
      return cannotView(`No dose brings ${parameter.name.toLowerCase()} down`, [
        md`It is ${amount(now)} and you want ${amount(target)}, ${amount(outcome.fall)} less.`,
        md`**What can:** ${parameter.lowering}`,
        ...(parameter.fallADay ? [md`Not faster than ${span(parameter.fallADay)} ${parameter.unit} a day.`] : []),
        md`-# Did you mix up **now** and **target**? Then send it again the other way round.`,
      ]);
    case 'will-not-dissolve':
      return cannotView('That stock cannot be made', [
        md`${outcome.stockGPerL} g in a litre is more than water takes up of ${lower(reagent.name)}: about ${shortly(outcome.mostGPerL, 2)} g/L at ${inUnits(outcome.temperatureC, 'temperature', units)}. The rest lies on the bottom and is not dosed.`,
        md`Make it weaker and send **stock:** again, for example **stock: ${shortly(Math.floor(outcome.mostGPerL * 0.8), 2)} g/L**.`,
      ]);
  }
}

export const daysInWords = (days: number): string => counted(days, 'day');
