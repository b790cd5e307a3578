import { PermissionFlagsBits } from 'discord-api-types/v10';
import { ActRefused, inAList } from './act-refused.ts';
import type { CommandOption, WorldCommand } from './commands.ts';
import { fileAt } from './picked.ts';
import type { Picked } from './picked.ts';
import type { TypedOptions } from './room.ts';
import type { World } from './world.ts';
import type { WorldChannel, WorldMember } from './world-shapes.ts';

const SUBCOMMAND = 1;
const GROUP = 2;

export type SentOption = {
  type: number;
  name: string;
  value?: string | number | boolean;
  focused?: boolean;
  options?: SentOption[];
};

/** The commands of a kind that a member is offered in a channel: Discord hides the others. */
export function commandsFor(world: World, member: WorldMember, channel: WorldChannel, type: number): WorldCommand[] {
  const context = channel.type === 1 ? 1 : 0;
  const held = world.guildPermissionsOf(member);
  const manager = (held & PermissionFlagsBits.Administrator) !== 0n;
  const mayUse = (world.permissionsOf(member, channel) & PermissionFlagsBits.UseApplicationCommands) !== 0n;
  const offered = world.commands.all().filter((command) => {
    if ((command.type ?? 1) !== type || !mayUse) return false;
    if (command.guildId !== null ? context !== 0 : command.contexts && !command.contexts.includes(context))
      return false;
    const needed = command.default_member_permissions;
    // Nobody needs a permission in their own direct messages.
    if (needed == null || manager || context === 1) return true;
    return BigInt(needed) !== 0n && (held & BigInt(needed)) === BigInt(needed);
  });
  // A command of the guild stands before the global one of the same name.
  return offered.filter(
    (one) => one.guildId !== null || !offered.some((other) => other.guildId !== null && other.name === one.name),
  );
}

/** Finds the command that `critter name` means, down to its subcommand. */
export function findCommand(commands: WorldCommand[], typed: string) {
  const [name = '', ...rest] = typed.replace(/^\//, '').trim().split(/\s+/);
  const command = commands.find((one) => one.name === name);
  if (!command)
    throw new ActRefused(
      `there is no command "/${name}" here; there are: ${inAList(commands.map((one) => `/${one.name}`))}`,
    );
  const path: CommandOption[] = [];
  let options = command.options ?? [];
  for (;;) {
    const nested = options.filter(({ type }) => type === SUBCOMMAND || type === GROUP);
    if (nested.length === 0) break;
    const word = rest.shift();
    const next = nested.find((one) => one.name === word);
    const soFar = ['', command.name, ...path.map((one) => one.name)].join(' ').trim();
    if (!next) {
      const wrong = word === undefined ? 'needs a subcommand' : `has no subcommand "${word}"`;
      throw new ActRefused(`"/${soFar}" ${wrong}; there are: ${inAList(nested.map((one) => one.name))}`);
    }
    path.push(next);
    options = next.options ?? [];
  }
  if (rest.length)
    throw new ActRefused(
      `"/${command.name}" has no subcommand "${rest[0]}"; its options are: ${inAList(options.map((one) => one.name))}`,
    );
  return { command, path, options };
}

/** What was typed, as the interaction carries it, inside its subcommand. */
export function sentOptions(
  found: ReturnType<typeof findCommand>,
  typed: TypedOptions,
  picked: Picked,
  typing: boolean,
): SentOption[] {
  const { options, path } = found;
  const sent = typed.map((one, n): SentOption => {
    const option = options.find(({ name }) => name === one.name);
    if (!option)
      throw new ActRefused(`there is no option "${one.name}"; there are: ${inAList(options.map(({ name }) => name))}`);
    if (typing && n === typed.length - 1) {
      if (!option.autocomplete) throw new ActRefused(`the option "${one.name}" offers nothing while it is typed`);
      return { type: option.type, name: option.name, value: one.value, focused: true };
    }
    return { type: option.type, name: option.name, value: typedValue(option, one, picked) };
  });
  const missing = options.filter(({ name, required }) => required && !typed.some((one) => one.name === name));
  if (missing.length && !typing)
    throw new ActRefused(`this is still needed: ${inAList(missing.map(({ name }) => name))}`);
  return path.toReversed().reduce<SentOption[]>((inner, { type, name }) => [{ type, name, options: inner }], sent);
}

function typedValue(option: CommandOption, typed: TypedOptions[number], picked: Picked): string | number | boolean {
  switch (option.type) {
    case 3:
      return typedText(option, typed.value);
    case 4:
    case 10:
      return typedNumber(option, typed.value);
    case 5:
      return typedYesOrNo(option, typed.value);
    case 6:
      return picked.member(typed.value);
    case 7:
      return picked.channel(typed.value);
    case 8:
      return picked.role(typed.value);
    case 9:
      return picked.memberOrRole(typed.value);
    case 11:
      return picked.file(typed.file ?? fileAt(typed.value));
    default:
      throw new ActRefused(`the option "${option.name}" is of a kind that cannot be typed`);
  }
}

function chosen(option: CommandOption, typed: string): string | number | null {
  if (!option.choices?.length) return null;
  const plain = typed.trim().toLowerCase();
  const choice = option.choices.find(
    ({ name, value }) => name.toLowerCase() === plain || String(value).toLowerCase() === plain,
  );
  if (!choice)
    throw new ActRefused(
      `"${typed}" is no choice for "${option.name}"; there are: ${inAList(option.choices.map(({ name }) => name))}`,
    );
  return choice.value;
}

function typedText(option: CommandOption, typed: string): string | number {
  const choice = chosen(option, typed);
  if (choice !== null) return choice;
  const { min_length: least, max_length: most } = option;
  if (typed.length < (least ?? 0)) throw new ActRefused(`"${option.name}" needs at least ${least} characters`);
  if (typed.length > (most ?? 6000)) throw new ActRefused(`"${option.name}" takes at most ${most ?? 6000} characters`);
  return typed;
}

function typedNumber(option: CommandOption, typed: string): string | number {
  const choice = chosen(option, typed);
  if (choice !== null) return choice;
  const value = typed.trim() === '' ? NaN : Number(typed);
  if (!Number.isFinite(value)) throw new ActRefused(`"${option.name}" needs a number; "${typed}" is none`);
  if (option.type === 4 && !Number.isInteger(value))
    throw new ActRefused(`"${option.name}" needs a whole number; ${typed} is none`);
  const { min_value: least, max_value: most } = option;
  if (least != null && value < least) throw new ActRefused(`"${option.name}" must be ${least} or more`);
  if (most != null && value > most) throw new ActRefused(`"${option.name}" must be ${most} or less`);
  return value;
}

function typedYesOrNo(option: CommandOption, typed: string): boolean {
  const plain = typed.trim().toLowerCase();
  if (['true', 'yes', 'on'].includes(plain)) return true;
  if (['false', 'no', 'off'].includes(plain)) return false;
  throw new ActRefused(`"${option.name}" is yes or no; "${typed}" is neither`);
}
