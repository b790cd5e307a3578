import { Routes, type REST, type RESTPostAPIApplicationCommandsJSONBody } from 'discord.js';

/** Where commands live: everywhere the bot is, or in one server only. */
export type Scope = { kind: 'global' } | { kind: 'guild'; guildId: string };

export type RegistrationDiff = { added: string[]; changed: string[]; removed: string[]; unchanged: string[] };

type Definition = RESTPostAPIApplicationCommandsJSONBody;

/**
 * Brings Discord's list of our commands in line with ours, and writes only when something differs.
 *
 * @returns what differed. With `dryRun` nothing is written.
 */
export async function registerCommands(
  rest: REST,
  applicationId: string,
  definitions: readonly Definition[],
  scope: Scope,
  { dryRun = false }: { dryRun?: boolean } = {},
): Promise<RegistrationDiff> {
  const route =
    scope.kind === 'global'
      ? Routes.applicationCommands(applicationId)
      : Routes.applicationGuildCommands(applicationId, scope.guildId);
  const registered = (await rest.get(route)) as Record<string, unknown>[];
  const diff = diffCommands(definitions, registered, scope);
  if (!dryRun && (diff.added.length > 0 || diff.changed.length > 0 || diff.removed.length > 0))
    await rest.put(route, { body: scope.kind === 'global' ? definitions : definitions.map(withoutContexts) });
  return diff;
}

/** What would change, by command name. */
export function diffCommands(
  wanted: readonly Definition[],
  registered: readonly Record<string, unknown>[],
  scope: Scope,
): RegistrationDiff {
  const there = new Map(registered.map((command) => [String(command.name), command]));
  const diff: RegistrationDiff = { added: [], changed: [], removed: [], unchanged: [] };
  for (const definition of wanted) {
    const ours = scope.kind === 'global' ? definition : withoutContexts(definition);
    const theirs = there.get(definition.name);
    there.delete(definition.name);
    if (!theirs) diff.added.push(definition.name);
    else if (differs(ours, theirs)) diff.changed.push(definition.name);
    else diff.unchanged.push(definition.name);
  }
  diff.removed.push(...there.keys());
  return diff;
}

/** Contexts and installation types exist on global commands only. */
function withoutContexts(definition: Definition): Definition {
  const copy = { ...definition };
  delete copy.contexts;
  delete copy.integration_types;
  return copy;
}

/** Keys of old that Discord still answers with, and that we leave to it. */
const FILLED_IN: ReadonlySet<string> = new Set(['dm_permission', 'default_permission']);

/** Whether what we want is not what is there. Keys that Discord adds, and defaults it fills in, do not count. */
function differs(wanted: unknown, there: unknown): boolean {
  if (Array.isArray(wanted)) {
    if (!Array.isArray(there)) return wanted.length > 0;
    return wanted.length !== there.length || wanted.some((item, at) => differs(item, there[at]));
  }
  if (typeof wanted === 'object' && wanted !== null)
    return Object.entries(wanted).some(
      ([key, value]) =>
        !(value === undefined && FILLED_IN.has(key)) &&
        differs(value, typeof there === 'object' && there !== null ? Reflect.get(there, key) : undefined),
    );
  if (wanted === undefined || wanted === null || wanted === false) return Boolean(there);
  return wanted !== there;
}
