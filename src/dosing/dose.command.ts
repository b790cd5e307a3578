import { z } from 'zod';
import { keptAnswer, type KeepsAnswers } from '../calculators/kept-answer.ts';
import { outOfRangeView } from '../calculators/out-of-range.view.ts';
import {
  quantityOptions,
  quantityShape,
  readQuantities,
  type AskedQuantities,
  type AskedQuantity,
} from '../calculators/quantity-option.ts';
import type { Species } from '../../shared/quantity-text.ts';
import { defineCommand, type AnyCommand, type OptionSpec } from '../discord/command.ts';
import { md, type Answer, type GivenMember, type Markdown, type Request } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import { middle, parameterOf } from '../water/known.ts';
import { tankWater } from '../water/tank-water.ts';
import { dosePicture } from './dose-picture.ts';
import { chooseReagent, suggestReagent } from './reagent-option.ts';
import { singleDose, type SingleDoseInput } from './single-dose.ts';
import { amountOf, doseTitle, dosesInCourse, noDoseView, portion, workedDose, type Asked } from './single-dose.view.ts';
import { suggestTank, whoseTank, type WhoseDeps } from './whose-tank.ts';

export type DoseDeps = WhoseDeps & { base: KnowledgeBase; answers: KeepsAnswers };

/** The parameters that one reagent raises, in the order of the list that members see. */
const DOSED = [
  'alkalinity',
  'calcium',
  'magnesium',
  'potassium',
  'strontium',
  'iodide',
  'nitrate',
  'phosphate',
] as const;

/** What a net volume that somebody typed may be off by, either way. Common practice, no source. */
export const TYPED_VOLUME_ERROR = 0.05;

export const OWNER_OPTIONS: readonly OptionSpec[] = [
  { name: 'tank', description: 'One of your tanks, or of theirs with for:', required: false, autocomplete: true },
  { kind: 'member', name: 'for', description: 'For another member’s tank; everybody sees the answer', required: false },
];

export const Member = z.custom<GivenMember>(
  (value) => typeof value === 'object' && value !== null && 'id' in value && 'isBot' in value,
);
export const OWNER_SHAPE = { tank: z.string().max(100).optional(), for: Member.optional() };

/** `/dose alkalinity` to `/dose phosphate`. */
export const doseCommands = (deps: DoseDeps): AnyCommand[] => DOSED.map((id) => doseCommand(deps, id));

function doseCommand(deps: DoseDeps, id: (typeof DOSED)[number]): AnyCommand {
  const name = id;
  // A base that was put together for a test may lack the entry; a real one is checked for it.
  const parameter = deps.base.parameters.get(id);
  const asked = askedFor(id, parameter);
  const options: OptionSpec[] = [
    ...quantityOptions(asked),
    {
      name: 'reagent',
      description: 'What you have: the pure substance. Left out: the usual one',
      required: false,
      autocomplete: true,
    },
    ...OWNER_OPTIONS,
  ];
  return defineCommand({
    name: `dose ${name}`,
    description: `How much lifts ${name}, over how many days, and how sure that is`,
    options,
    input: z.object({ ...quantityShape(asked), reagent: z.string().max(100).optional(), ...OWNER_SHAPE }),
    run: (given, request) => answerDose(deps, parameterOf(deps.base, id), asked, given, request),
    suggest: (option, typed, request, so = {}) =>
      option === 'reagent'
        ? parameter
          ? suggestReagent(deps.base, parameter, typed)
          : []
        : option === 'tank'
          ? suggestTank(deps, typed, request, so)
          : [],
  });
}

function asAmount<const Required extends boolean>(
  id: string,
  parameter: Parameter | undefined,
  rest: { description: string; required: Required },
): AskedQuantity & { required: Required } {
  return id === 'alkalinity'
    ? { ...rest, quantity: 'alkalinity', example: '7.2 dkh' }
    : { ...rest, quantity: 'concentration', species: (parameter?.species ?? 'Ca') as Species };
}

function askedFor(id: string, parameter: Parameter | undefined) {
  const unit = id === 'alkalinity' ? 'dkh' : 'ppm';
  return {
    now: asAmount(id, parameter, {
      description: `What your test shows: "${id === 'alkalinity' ? '7.2' : '380'} ${unit}"`,
      required: true,
    }),
    target: asAmount(id, parameter, {
      description: 'Where you want it. Left out: the middle of what keepers aim for',
      required: false,
    }),
    volume: {
      description: 'Net water: "300 L", "80 gal". Left out: that of the tank',
      required: false,
      quantity: 'volume',
      least: 1,
    },
    stock: { description: 'If you dose a solution: its strength, "60 g/L"', required: false, quantity: 'strength' },
    purity: { description: 'How pure it is. Left out: 100 %', required: false, quantity: 'percent', least: 10 },
    kit: asAmount(id, parameter, { description: 'What your test may be off by. Left out: the usual', required: false }),
    salinity: { description: 'Salinity: "35 ppt". Left out: that of the tank', required: false, quantity: 'salinity' },
  } as const satisfies AskedQuantities;
}

type AskedDose = ReturnType<typeof askedFor>;
type Given = { [Name in keyof AskedDose]?: string | undefined } & {
  reagent?: string | undefined;
  tank?: string | undefined;
  for?: GivenMember | undefined;
};

function answerDose(deps: DoseDeps, parameter: Parameter, asked: AskedDose, given: Given, request: Request): Answer {
  const whose = whoseTank(deps, given, request);
  if (whose.kind === 'cannot') return whose.view;
  const { tank, units, forMember } = whose;
  const read = readQuantities(asked, given, units);
  if (read.kind === 'problem') return read.view;
  const chosen = chooseReagent(deps.base, parameter, given.reagent);
  if (chosen.kind === 'cannot') return chosen.view;
  const { values } = read;
  const water = tankWater(deps.base, values, tank, units);
  const volumeL = water.volumeL;
  if (volumeL === null) throw new RangeError('a tank or a volume was made sure of, and neither is there');
  const input: SingleDoseInput = {
    parameter,
    reagent: chosen.reagent,
    now: values.now.si,
    target: values.target?.si ?? usualTarget(parameter),
    volumeL,
    volumeError: values.volume ? TYPED_VOLUME_ERROR : (tank?.volumeError ?? TYPED_VOLUME_ERROR),
    kitError: values.kit?.si ?? usualKitError(parameter),
    purity: (values.purity?.si ?? 100) / 100,
    stockGPerL: values.stock?.si ?? null,
    practicalSalinity: water.practicalSalinity,
    temperatureC: water.temperatureC,
  };
  const amount = amountOf(parameter, units);
  const assumed: Markdown[] = [
    ...read.echo,
    ...(values.target ? [] : [md`target: ${amount(input.target)}, the middle of what keepers aim for; you gave none`]),
    ...(chosen.assumed
      ? [md`reagent: ${input.reagent.name} (${input.reagent.formula}), the usual one; you named none`]
      : []),
    ...(values.kit ? [] : [kitWords(parameter, amount(input.kitError))]),
    ...water.lines.volume,
    ...(parameter.after.includes('salinity') ? water.lines.salinity : []),
  ];
  const salinityKnown = values.salinity !== undefined || (tank?.practicalSalinity ?? null) !== null;
  const about: Asked = { input, units, assumed, salinityKnown, audience: forMember ? 'everyone' : 'member' };
  const found = singleDose(input);
  if (found.kind === 'out-of-range') return outOfRangeView(found, units);
  if (found.kind !== 'dose') return noDoseView(about, found);
  // A public answer is kept as it stands and shown again once it is checked; a picture is not kept.
  const picture = forMember ? null : dosePicture(input, found, portion(found, units, false), units);
  const worked = {
    ...workedDose(deps.base, about, found),
    ...(forMember ? { forMember } : {}),
    ...(picture ? { picture } : {}),
  };
  const title = `${doseTitle(about)}${tank ? `, ${tank.name}` : ''}`;
  return keptAnswer(deps.answers, request, worked, {
    title,
    doses: dosesInCourse(deps.base, found, about),
    tankId: tank?.id ?? null,
  });
}

const kitWords = ({ kitError }: Parameter, amount: string): Markdown =>
  kitError
    ? md`kit: off by up to ${amount}, as hobby kits are`
    : md`kit: off by up to ${amount}, a tenth of the target, since nobody has said how far such kits are off`;

/** The middle of what keepers aim for; natural sea water where nobody aims for anything. */
function usualTarget({ id, target, natural }: Parameter): number {
  const figure = target ?? natural;
  if (!figure) throw new RangeError(`knowledge/parameters/${id}.yaml has neither a target nor a natural level`);
  return middle(figure);
}

/** Where nobody has published or agreed how far a kit may be off, a tenth of the target stands in; the answer says so. */
const usualKitError = (parameter: Parameter): number => parameter.kitError?.low ?? usualTarget(parameter) / 10;
