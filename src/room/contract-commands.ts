import { Locale } from 'discord-api-types/v10';
import { z } from 'zod';
import type { CommandBody, CommandOption } from './commands.ts';
import type { Problem } from './form-refusal.ts';

// Rules for registered commands that Discord's description does not express.

const SIZE_MAX = 8000;
const MOST: Record<number, number> = { 1: 100, 2: 15, 3: 15 };
const NAME = /^[-_'\p{L}\p{N}\p{sc=Deva}\p{sc=Thai}]{1,32}$/u;
const LOCALES = new Set<string>(Object.values(Locale));
const Localizations = z.record(z.string(), z.string()).nullish().catch(null);

export function commandProblems(commands: CommandBody[], ofGuild: boolean): Problem[] {
  const kind = (command: CommandBody) => command.type ?? 1;
  const tooMany = Object.entries(MOST).filter(
    ([type, most]) => commands.filter((one) => kind(one) === Number(type)).length > most,
  );
  return [
    ...tooMany.map(([type, most]) => at([], `there are more than ${most} commands of type ${type}`)),
    ...commands.flatMap((command, n) => {
      const first = commands.findIndex((one) => one.name === command.name && kind(one) === kind(command));
      const again = first === n ? [] : [at([n, 'name'], `"${command.name}" is there more than once`)];
      return [...again, ...oneCommand(command, n, ofGuild)];
    }),
  ];
}

function oneCommand(command: CommandBody, n: number, ofGuild: boolean): Problem[] {
  const problems: Problem[] = [];
  const slash = (command.type ?? 1) === 1;
  if (slash && !command.description) problems.push(at([n, 'description'], 'a slash command needs a description'));
  if (!slash && command.description) problems.push(at([n, 'description'], 'a menu entry has no description'));
  if (!slash && command.options?.length) problems.push(at([n, 'options'], 'a menu entry has no options'));
  if (slash) problems.push(...nameProblems(command.name, [n, 'name']));
  const size = sizeOf(command);
  if (size > SIZE_MAX) problems.push(at([n], `has ${size} characters in all; ${SIZE_MAX} are allowed`));
  for (const key of ofGuild ? ['contexts', 'integration_types'] : []) {
    if (command[key] != null) problems.push(at([n, key], 'is for global commands only'));
  }
  return [...problems, ...localeProblems(command, [n]), ...optionsProblems(command.options ?? [], [n, 'options'])];
}

function optionsProblems(options: CommandOption[], path: PropertyKey[]): Problem[] {
  const nested = options.filter(({ type }) => type <= 2).length;
  const firstOptional = options.findIndex(({ type, required }) => type > 2 && !required);
  return [
    ...(nested > 0 && nested < options.length ? [at(path, 'subcommands and plain options exclude each other')] : []),
    ...options.flatMap((option, n) => {
      const here = [...path, n];
      const late = firstOptional !== -1 && n > firstOptional && option.required;
      const again = options.findIndex(({ name }) => name === option.name) !== n;
      return [
        ...nameProblems(option.name, [...here, 'name']),
        ...(late ? [at([...here, 'required'], 'a required option comes before optional ones')] : []),
        ...(again ? [at([...here, 'name'], `"${option.name}" is there more than once`)] : []),
        ...(option.autocomplete && option.choices?.length
          ? [at(here, 'choices and autocomplete exclude each other')]
          : []),
        ...localeProblems(option, here),
        ...optionsProblems(option.options ?? [], [...here, 'options']),
      ];
    }),
  ];
}

function nameProblems(name: string, path: PropertyKey[]): Problem[] {
  return NAME.test(name) && name === name.toLowerCase()
    ? []
    : [at(path, `"${name}" must be 1 to 32 lower-case letters, digits, - or _`)];
}

function localeProblems(named: object, path: PropertyKey[]): Problem[] {
  return (['name_localizations', 'description_localizations'] as const).flatMap((key) => {
    const given = Localizations.parse(Reflect.get(named, key)) ?? {};
    return Object.keys(given)
      .filter((locale) => !LOCALES.has(locale))
      .map((locale) => at([...path, key, locale], 'is no locale that Discord knows'));
  });
}

/** Characters of names, descriptions and choice values; of translations the longest counts. */
function sizeOf(named: CommandBody | CommandOption): number {
  const longest = (text: string | null | undefined, key: string) => {
    const translated = Object.values(Localizations.parse(Reflect.get(named, key)) ?? {});
    return Math.max(text?.length ?? 0, ...translated.map(({ length }) => length));
  };
  const choices = 'choices' in named && Array.isArray(named.choices) ? named.choices : [];
  return (
    longest(named.name, 'name_localizations') +
    longest(named.description, 'description_localizations') +
    choices.reduce((sum, { name, value }) => sum + name.length + String(value).length, 0) +
    (named.options ?? []).reduce((sum, option) => sum + sizeOf(option), 0)
  );
}

const at = (path: PropertyKey[], message: string): Problem => ({ path, message });
