import { z } from 'zod';
import {
  quantityOptions,
  quantityShape,
  readQuantities,
  type AskedQuantities,
  type ReadQuantities,
} from '../calculators/quantity-option.ts';
import type { ReadQuantity } from '../../shared/quantity-text.ts';
import { TEMPERATURE_C } from '../../shared/water-ranges.ts';
import { keptAnswer, type KeepsAnswers } from '../calculators/kept-answer.ts';
import type { Worked } from '../calculators/worked.view.ts';
import type { OptionSpec } from '../discord/command.ts';
import type { Choice, GivenMember, Markdown, MessageView, Request } from '../discord/message-view.ts';
import { suggestTank as suggestOwned, whoseTank, type SeenTanks } from '../dosing/whose-tank.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { UNITS, type Tank, type TankUnits } from '../tanks/tank.ts';
import { chooseTank } from '../tanks/tank-option.ts';
import { tankWater, type TankWater, type TypedWater } from './tank-water.ts';

/** What every `/water` command answers from. */
export type WaterDeps = {
  base: KnowledgeBase;
  tanks: SeenTanks;
  /** The units of a club, for members without a tank. */
  unitsOf: (guildId: string | null) => TankUnits;
  /** Where answers wait for a second person to check them. */
  answers: KeepsAnswers;
};

/** The options that most commands have: whose water it is. */
export const VOLUME = {
  description: 'Net water: "300 L", "80 gal". Left out: that of your tank',
  required: false,
  quantity: 'volume',
  least: 1,
  most: 100_000,
} as const;
export const SALINITY = {
  description: 'Salinity: "35 ppt", "1.0264 sg". Left out: that of your tank',
  required: false,
  quantity: 'salinity',
} as const;
export const TEMPERATURE = {
  description: 'Temperature: "25 C", "78 F". Left out: that of your tank',
  required: false,
  quantity: 'temperature',
  least: TEMPERATURE_C[0],
  most: 35,
} as const;
const OWNER_OPTIONS: readonly OptionSpec[] = [
  { name: 'tank', description: 'One of your tanks, or of theirs with for:', required: false, autocomplete: true },
  { kind: 'member', name: 'for', description: 'For another member’s tank; everybody sees the answer', required: false },
];
const Member = z.custom<GivenMember>(
  (value) => typeof value === 'object' && value !== null && 'id' in value && 'isBot' in value,
);

/** The options of a command: its amounts, others it has, and whose tank it is. */
export const optionsOf = (asked: AskedQuantities, others: readonly OptionSpec[] = []): OptionSpec[] =>
  [...quantityOptions(asked), ...others, ...OWNER_OPTIONS].toSorted((a, b) => Number(b.required) - Number(a.required));

/** The zod shape that goes with them. */
export const shapeOf = <Asked extends AskedQuantities>(asked: Asked) => ({
  ...quantityShape(asked),
  tank: z.string().optional(),
  for: Member.optional(),
});

/** What a command has to answer with, once its options are read. */
export type Ground = { water: TankWater; tank: Tank | null; units: TankUnits; echo: readonly Markdown[] };

type Given<Asked> = { readonly [Name in keyof Asked]?: string | undefined } & {
  tank?: string | undefined;
  for?: GivenMember | undefined;
};

/**
 * Reads the options of a command in the units of the tank they are about, and hands over to `answer`. A tank that cannot be told,
 * and text that cannot be read, are answered here, in private. What comes out for another member goes to everybody.
 */
export function withWater<const Asked extends AskedQuantities>(
  deps: WaterDeps,
  asked: Asked,
  given: Given<Asked>,
  request: Request,
  answer: (values: ReadQuantities<Asked>, ground: Ground) => Worked | MessageView,
  needs: 'volume' | 'no-volume' = 'volume',
): MessageView {
  const volume = 'volume' in given ? (given['volume' as keyof typeof given] as string | undefined) : undefined;
  const owned = { tank: given.tank, for: given.for, volume };
  const whose =
    needs === 'no-volume' && !given.tank && !given.for
      ? perhapsOwn(deps, volume, request)
      : whoseTank(deps, owned, request);
  if (whose.kind === 'cannot') return whose.view;
  const { tank, forMember } = whose;
  const read = readQuantities(asked, given, whose.units);
  if (read.kind === 'problem') return read.view;
  const units = tank ? whose.units : unitsAsTyped(whose.units, read.values);
  const water = tankWater(deps.base, read.values as TypedWater, tank, units);
  const worked = answer(read.values, { water, tank, units, echo: read.echo });
  if ('blocks' in worked) return worked;
  const title = plainly(worked.answer).slice(0, LONGEST_TITLE);
  return keptAnswer(deps.answers, request, forMember ? { ...worked, forMember, audience: 'everyone' } : worked, {
    title,
    doses: [],
  });
}

const LONGEST_TITLE = 100;
/** The words without the marks that keep them from being read as markdown. */
const plainly = ({ markdown }: Markdown) => markdown.replace(/\\(?=[^\w\s])/g, '').replaceAll('**', '');

/** Whoever types gallons reads gallons, where no tank says otherwise. */
function unitsAsTyped(units: TankUnits, values: Readonly<Record<string, ReadQuantity | undefined>>): TankUnits {
  const volume = UNITS.volume.find((unit) => unit === values['volume']?.unit);
  const temperature = UNITS.temperature.find((unit) => unit === values['temperature']?.unit);
  return { ...units, ...(volume ? { volume } : {}), ...(temperature ? { temperature } : {}) };
}

/** The asker's only tank, where an answer is better with one and does without. */
function perhapsOwn({ tanks, unitsOf }: WaterDeps, volume: string | undefined, { guildId, memberId }: Request) {
  const chosen = guildId === null ? null : chooseTank(tanks.tanksOf(guildId, memberId), undefined);
  const tank = chosen?.kind === 'tank' && volume === undefined ? chosen.tank : null;
  return { kind: 'whose', tank, units: tank?.units ?? unitsOf(guildId), forMember: null } as const;
}

/** Choices while `tank` is typed: one's own, or with `for:` those that member shares. */
export const suggestTank =
  (deps: Pick<WaterDeps, 'tanks' | 'unitsOf'>) =>
  (option: string, typed: string, request: Request, given?: Readonly<Record<string, unknown>>): Choice[] =>
    option === 'tank' ? suggestOwned(deps, typed, request, given) : [];
