import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { defineCommand, type OptionSpec } from '../../../src/discord/command.ts';
import { definitionsOf } from '../../../src/discord/definitions.ts';
import { diffCommands, type RegistrationDiff } from '../../../src/discord/register.ts';

const GLOBAL = { kind: 'global' } as const;
const GUILD = { kind: 'guild', guildId: '123456789012345678' } as const;

const option: OptionSpec = {
  name: 'animal',
  description: 'Its name',
  required: true,
  autocomplete: true,
  mostCharacters: 100,
};

function definitions(options: readonly OptionSpec[] = [option], description = 'What it is') {
  const command = (name: `${string} ${string}`) =>
    defineCommand({
      name,
      description,
      options,
      input: z.object({}),
      run: () => ({ audience: 'member', tone: 'plain', blocks: [] }),
    });
  return definitionsOf([command('critter name'), command('critter compare')]);
}

/** The commands as Discord gives them back: with its own keys, the defaults filled in, old keys still there. */
const asRegistered = (wanted = definitions()): Record<string, unknown>[] =>
  (JSON.parse(JSON.stringify(wanted)) as Record<string, unknown>[]).map((command) => ({
    id: '1',
    application_id: '2',
    version: '3',
    type: 1,
    default_member_permissions: null,
    default_permission: true,
    dm_permission: true,
    name_localizations: null,
    description_localizations: null,
    nsfw: false,
    ...command,
  }));

const NOTHING: RegistrationDiff = { added: [], changed: [], removed: [], unchanged: [] };

describe('diffCommands', () => {
  test('fields and defaults that Discord adds are no difference', () => {
    expect(diffCommands(definitions(), asRegistered(), GLOBAL)).toEqual({ ...NOTHING, unchanged: ['critter'] });
  });

  test('a default that Discord leaves out is no difference', () => {
    const optional = { ...option, required: false, autocomplete: false };
    const registered = JSON.parse(
      JSON.stringify(asRegistered(definitions([optional]))).replaceAll('"required":false,', ''),
    ) as Record<string, unknown>[];
    expect(JSON.stringify(registered)).not.toContain('required');
    expect(diffCommands(definitions([optional]), registered, GLOBAL).unchanged).toEqual(['critter']);
  });

  const other: OptionSpec = { ...option, name: 'with' };
  test.each<[what: string, wanted: ReturnType<typeof definitions>]>([
    ['a description', definitions([option], 'What it does')],
    ['the description of an option', definitions([{ ...option, description: 'Its nickname' }])],
    ['the name of an option', definitions([other])],
    ['an option added', definitions([option, other])],
    ['an option taken away', definitions([])],
    ['an option no longer required', definitions([{ ...option, required: false }])],
    ['an option without choices', definitions([{ ...option, autocomplete: false }])],
    ['a longer text allowed', definitions([{ ...option, mostCharacters: 200 }])],
  ])('%s is a change', (_what, wanted) => {
    expect(diffCommands(wanted, asRegistered(), GLOBAL)).toEqual({ ...NOTHING, changed: ['critter'] });
  });

  test('the order of options is a change', () => {
    const registered = asRegistered(definitions([other, option]));
    expect(diffCommands(definitions([option, other]), registered, GLOBAL).changed).toEqual(['critter']);
  });

  test('a command of ours alone is added, one of Discord alone is removed', () => {
    expect(diffCommands(definitions(), [], GLOBAL)).toEqual({ ...NOTHING, added: ['critter'] });
    expect(diffCommands([], asRegistered(), GLOBAL)).toEqual({ ...NOTHING, removed: ['critter'] });
    const strange = [...asRegistered(), { name: 'old-one', description: 'gone', options: [] }];
    expect(diffCommands(definitions(), strange, GLOBAL)).toEqual({
      ...NOTHING,
      unchanged: ['critter'],
      removed: ['old-one'],
    });
  });

  test('contexts count everywhere, but not in one server, which knows none', () => {
    const without = asRegistered().map((command) => ({ ...command, contexts: null, integration_types: [0] }));
    expect(diffCommands(definitions(), without, GUILD)).toEqual({ ...NOTHING, unchanged: ['critter'] });
    expect(diffCommands(definitions(), without, GLOBAL)).toEqual({ ...NOTHING, changed: ['critter'] });
  });

  test('nothing wanted and nothing there', () => {
    expect(diffCommands([], [], GLOBAL)).toEqual(NOTHING);
  });
});
