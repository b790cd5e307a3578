import { z } from 'zod';
import {
  readQuantity,
  type Quantity,
  type ReadQuantity,
  type Species,
  type Wanted,
} from '../../shared/quantity-text.ts';
import type { OptionSpec } from '../discord/command.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { TankUnits } from '../tanks/tank.ts';
import { quantityProblemView } from './quantity-problem.view.ts';
import { takenForGranted } from './taken-for-granted.ts';
import { gallonOf, usualUnit } from './units-in-words.ts';

/** One option that takes an amount with its unit. Its name is the key it stands under. */
export type AskedQuantity = {
  description: string;
  required: boolean;
  /** The allowed range, both ends included, in the unit in which the quantity is kept. */
  least?: number;
  most?: number;
  /** The unit of a bare number where it is not the member's usual one: "mL" of a dose. */
  unit?: string;
  densityKgPerL?: number;
  spoonDensityGPerMl?: number;
  example?: string;
} & (
  { quantity: 'concentration'; species: Species } | { quantity: Exclude<Quantity, 'concentration'>; species?: never }
);

/** Options by their names. */
export type AskedQuantities = Readonly<Record<string, AskedQuantity>>;

/** The readings by the same names; only what is required is sure to be there. */
export type ReadQuantities<Asked extends AskedQuantities> = {
  [Name in keyof Asked]: Asked[Name]['required'] extends true ? ReadQuantity : ReadQuantity | undefined;
};

/** The option as Discord lists it. It takes any text, so that whoever types something odd hears what was odd. */
export const quantityOption = (name: string, { description, required }: AskedQuantity): OptionSpec => ({
  name,
  description,
  required,
});

/** All the options of a command, in order. Discord wants the required ones first. */
export const quantityOptions = (asked: AskedQuantities): OptionSpec[] =>
  Object.entries(asked).map(([name, each]) => quantityOption(name, each));

/** The zod shape of these options, to be spread into the `input` of a command. */
export function quantityShape<Asked extends AskedQuantities>(asked: Asked) {
  return Object.fromEntries(
    Object.entries(asked).map(([name, { required }]) => [name, required ? z.string() : z.string().optional()]),
  ) as { [Name in keyof Asked]: Asked[Name]['required'] extends true ? z.ZodString : z.ZodOptional<z.ZodString> };
}

/**
 * Reads several options at once: either all of them, with a line each for `Worked.assumed`, or one private message that lists
 * every option that could not be used.
 */
export function readQuantities<const Asked extends AskedQuantities>(
  asked: Asked,
  given: { readonly [Name in keyof Asked]?: string | undefined },
  units: TankUnits,
): { kind: 'read'; values: ReadQuantities<Asked>; echo: Markdown[] } | { kind: 'problem'; view: MessageView } {
  const outcomes = Object.entries(asked).flatMap(([name, each]) => {
    const text = given[name];
    return text === undefined && !each.required
      ? []
      : [{ name, outcome: readQuantity(text ?? '', wantedOf(each, units)) }];
  });
  const problems = outcomes.flatMap(({ name, outcome }) => (outcome.kind === 'read' ? [] : [{ name, outcome }]));
  if (problems.length > 0) return { kind: 'problem', view: quantityProblemView(problems) };
  const read = outcomes.flatMap(({ name, outcome }) => (outcome.kind === 'read' ? [{ name, outcome }] : []));
  return {
    kind: 'read',
    values: Object.fromEntries(read.map(({ name, outcome }) => [name, outcome])) as ReadQuantities<Asked>,
    echo: read.map(({ name, outcome }) => echoLine(name, outcome)),
  };
}

/** What `readQuantity` has to know to read an option of a member with these units. */
export function wantedOf(asked: AskedQuantity, units: TankUnits): Wanted {
  const unit = asked.unit ?? usualUnit(asked.quantity, units);
  return { ...asked, gallon: gallonOf(units), ...(unit === null ? {} : { unit }) };
}

/** "volume: 80 US gal = 303 L (no country given, so US measure)". */
export function echoLine(name: string, read: ReadQuantity): Markdown {
  const notes = takenForGranted(read);
  return notes === '' ? md`${name}: ${read.understood}` : md`${name}: ${read.understood} (${notes})`;
}
