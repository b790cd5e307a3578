import {
  ApplicationIntegrationType,
  InteractionContextType,
  SlashCommandBuilder,
  SlashCommandStringOption,
  type RESTPostAPIChatInputApplicationCommandsJSONBody,
} from 'discord.js';
import type { AnyCommand, OptionSpec } from './command.ts';

const ABOUT: Readonly<Record<string, string>> = {
  critter: 'Pest or cleaner: animals, algae and microbes of the reef tank',
};

/**
 * The commands as Discord wants them registered: one command a noun, the verbs as subcommands.
 *
 * For everybody, in servers and in direct messages with the bot; servers may narrow that in their own settings.
 */
export function definitionsOf(commands: readonly AnyCommand[]): RESTPostAPIChatInputApplicationCommandsJSONBody[] {
  const nouns = [...new Set(commands.map(({ name }) => name.split(' ')[0] ?? ''))];
  return nouns.map((noun) => {
    const builder = new SlashCommandBuilder()
      .setName(noun)
      .setDescription(ABOUT[noun] ?? noun)
      .setContexts(InteractionContextType.Guild, InteractionContextType.BotDM)
      .setIntegrationTypes(ApplicationIntegrationType.GuildInstall);
    for (const { name, description, options } of commands.filter((command) => command.name.startsWith(`${noun} `)))
      builder.addSubcommand((sub) => {
        sub.setName(name.slice(noun.length + 1)).setDescription(description);
        for (const option of options) sub.addStringOption(stringOption(option));
        return sub;
      });
    return builder.toJSON();
  });
}

function stringOption({
  name,
  description,
  required,
  autocomplete,
  choices,
  mostCharacters,
}: OptionSpec): SlashCommandStringOption {
  const option = new SlashCommandStringOption()
    .setName(name)
    .setDescription(description)
    .setRequired(required)
    .setAutocomplete(autocomplete ?? false);
  if (choices) option.addChoices(...choices.map((choice) => ({ name: choice, value: choice })));
  return mostCharacters ? option.setMaxLength(mostCharacters) : option;
}
