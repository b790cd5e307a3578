import type { PageCommand } from '../page-shapes.ts';

// A slash command as it is typed: `/critter name critter:bristle worm`.

export type TypedOption = { name: string; value: string };
export type TypedLine =
  | { phase: 'words' }
  | { phase: 'command'; query: string }
  | { phase: 'options'; command: PageCommand; typed: TypedOption[]; loose: string };

/** Reads what stands in the entry line. An option's value runs to the next ` option:`. */
export function readLine(line: string, commands: PageCommand[]): TypedLine {
  if (!line.startsWith('/')) return { phase: 'words' };
  const body = line.slice(1).replace(/^\s+/, '');
  const slash = commands.filter(({ kind }) => kind === 'slash').sort((a, b) => b.name.length - a.name.length);
  const command = slash.find(({ name }) => body.toLowerCase().startsWith(`${name} `));
  if (!command) return { phase: 'command', query: body.trim().toLowerCase() };
  const rest = body.slice(command.name.length);
  const names = command.options.map(({ name }) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  const starts = names.length > 0 ? [...rest.matchAll(new RegExp(`\\s(${names.join('|')}):`, 'g'))] : [];
  const typed = starts.map((start, index) => ({
    name: start[1] ?? '',
    value: rest.slice(start.index + start[0].length, starts[index + 1]?.index).trim(),
  }));
  return { phase: 'options', command, typed, loose: rest.slice(0, starts[0]?.index).trim() };
}

/** Commands that match what was typed, best first: those that begin with it, then those that mention it. */
export function findCommands(query: string, commands: PageCommand[]): PageCommand[] {
  const rank = ({ name, description }: PageCommand): number => {
    if (name.startsWith(query)) return 0;
    if (name.split(' ').some((word) => word.startsWith(query))) return 1;
    return name.includes(query) || description.toLowerCase().includes(query) ? 2 : 3;
  };
  return commands
    .filter((command) => command.kind === 'slash' && rank(command) < 3)
    .sort((a, b) => rank(a) - rank(b) || a.name.localeCompare(b.name));
}

/** What is sent for a line: words without an option name belong to the first option that still has no value. */
export function optionsOf(line: TypedLine & { phase: 'options' }): TypedOption[] {
  const free = line.command.options.find(({ name }) => !line.typed.some((typed) => typed.name === name));
  const typed = line.loose !== '' && free ? [{ name: free.name, value: line.loose }, ...line.typed] : line.typed;
  return typed.filter(({ value }) => value !== '');
}

/** Required options that have no value yet. */
export function missingFrom(command: PageCommand, typed: TypedOption[]): string[] {
  return command.options
    .filter(({ name, required }) => required && !typed.some((option) => option.name === name && option.value !== ''))
    .map(({ name }) => name);
}
