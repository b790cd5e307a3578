import { z } from 'zod';
import {
  quantityOptions,
  quantityShape,
  readQuantities,
  type AskedQuantities,
  type ReadQuantities,
} from '../calculators/quantity-option.ts';
import { TEMPERATURE_C } from '../../shared/water-ranges.ts';
import type { OptionSpec } from '../discord/command.ts';
import type { Answer, Choice, Markdown, Request } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Tank, TankUnits } from '../tanks/tank.ts';
import { chooseTank, tankChoices } from '../tanks/tank-option.ts';
import { whichTankView } from './asked.view.ts';
import { tankWater, type TankWater, type TypedWater } from './tank-water.ts';

/** What every `/water` command answers from. */
export type WaterDeps = {
  base: KnowledgeBase;
  /** A member's own tanks in a club. */
  tanksOf: (guildId: string, memberId: string) => readonly Tank[];
  /** The units of a club, for members without a tank. */
  unitsOf: (guildId: string | null) => TankUnits;
};

/** The options that most commands have: whose water it is. */
export const VOLUME = {
  description: 'Net water: "300 L", "80 gal". Left out: that of your tank',
  required: false,
  quantity: 'volume',
  least: 1,
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
const TANK_OPTION: OptionSpec = {
  name: 'tank',
  description: 'One of your tanks; left out: the only one you have',
  required: false,
  autocomplete: true,
};

/** The options of a command: its amounts, others it has, and the tank. */
export const optionsOf = (asked: AskedQuantities, others: readonly OptionSpec[] = []): OptionSpec[] =>
  [...quantityOptions(asked), ...others, TANK_OPTION].toSorted((a, b) => Number(b.required) - Number(a.required));

/** The zod shape that goes with them. */
export const shapeOf = <Asked extends AskedQuantities>(asked: Asked) => ({
  ...quantityShape(asked),
  tank: z.string().optional(),
});

/** What a command has to answer with, once its options are read. */
export type Ground = { water: TankWater; tank: Tank | null; units: TankUnits; echo: readonly Markdown[] };

type Given<Asked> = { readonly [Name in keyof Asked]?: string | undefined } & { tank?: string | undefined };

/**
 * Reads the options of a command in the units of the tank they are about, and hands over to `answer`. A tank that cannot be told,
 * and text that cannot be read, are answered here.
 */
export function withWater<const Asked extends AskedQuantities>(
  { base, tanksOf, unitsOf }: WaterDeps,
  asked: Asked,
  given: Given<Asked>,
  { guildId, memberId }: Request,
  answer: (values: ReadQuantities<Asked>, ground: Ground) => Answer,
  needs: 'volume' | 'no-volume' = 'volume',
): Answer {
  const tanks = guildId === null ? [] : tanksOf(guildId, memberId);
  const chosen = chooseTank(tanks, given.tank);
  const typedVolume = 'volume' in given && given['volume' as keyof typeof given] !== undefined;
  // Without a name the only tank is meant, unless the volume is another one.
  const tank = chosen.kind === 'tank' && (given.tank !== undefined || !typedVolume) ? chosen.tank : null;
  if (given.tank !== undefined && !tank) return whichTankView(chosen);
  const units = tank?.units ?? unitsOf(guildId);
  const read = readQuantities(asked, given, units);
  if (read.kind === 'problem') return read.view;
  const water = tankWater(base, read.values as TypedWater, tank, units);
  if (needs === 'volume' && water.volumeL === null) return whichTankView(chosen);
  return answer(read.values, { water, tank, units, echo: read.echo });
}

/** Choices while `tank` is typed. */
export const suggestTank =
  ({ tanksOf }: Pick<WaterDeps, 'tanksOf'>) =>
  (option: string, typed: string, { guildId, memberId }: Request): Choice[] =>
    option === 'tank' && guildId !== null ? tankChoices(tanksOf(guildId, memberId), typed) : [];
