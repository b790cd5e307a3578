import {
  ApplicationCommandType,
  ApplicationIntegrationType,
  ContextMenuCommandBuilder,
  InteractionContextType,
  SlashCommandAttachmentOption,
  SlashCommandBuilder,
  SlashCommandIntegerOption,
  SlashCommandStringOption,
  SlashCommandUserOption,
  type RESTPostAPIApplicationCommandsJSONBody,
} from 'discord.js';
import type { AnyCommand, MenuEntry, OptionSpec } from './command.ts';

const ABOUT: Readonly<Record<string, string>> = {
  critter: 'Pest or cleaner: animals, algae and microbes of the reef tank',
  club: 'How this club has set the bot up',
  water: 'Water changes, salinity, top-off, volume, ammonia, units, light and flow',
  tank: 'Your tanks: their water, what you measured, what they use up, when to test next',
  upkeep: 'Chores of your tank that come again: reminders, history, and how they are done',
  quarantine: 'New animals wait before they join: the plan, its dates, and what to do each day',
  frag: 'Swap frags in the club: offer, look for one, promise it, hand it over',
  dose: 'How much of what, over how many days: worked out so that you can check it',
};

/**
 * The commands as Discord wants them registered: one command a noun, the verbs as subcommands, then the menu entries.
 *
 * For everybody, in servers and in direct messages with the bot; servers may narrow that in their own settings.
 */
export function definitionsOf(
  commands: readonly AnyCommand[],
  menu: readonly MenuEntry[] = [],
): RESTPostAPIApplicationCommandsJSONBody[] {
  const nouns = [...new Set(commands.map(({ name }) => name.split(' ')[0] ?? ''))];
  const slash = nouns.map((noun) => {
    const builder = new SlashCommandBuilder()
      .setName(noun)
      .setDescription(ABOUT[noun] ?? noun)
      .setContexts(InteractionContextType.Guild, InteractionContextType.BotDM)
      .setIntegrationTypes(ApplicationIntegrationType.GuildInstall);
    for (const { name, description, options } of commands.filter((command) => command.name.startsWith(`${noun} `)))
      builder.addSubcommand((sub) => {
        sub.setName(name.slice(noun.length + 1)).setDescription(description);
        for (const option of options)
          if (option.kind === 'picture') sub.addAttachmentOption(pictureOption(option));
          else if (option.kind === 'whole-number') sub.addIntegerOption(wholeNumberOption(option));
          else if (option.kind === 'member') sub.addUserOption(memberOption(option));
          else sub.addStringOption(stringOption(option));
        return sub;
      });
    return builder.toJSON();
  });
  return [...slash, ...menu.map(menuDefinition)];
}

/** A menu entry works on messages of a server only: there is nobody to ask in a direct message. */
const menuDefinition = ({ name }: MenuEntry): RESTPostAPIApplicationCommandsJSONBody =>
  new ContextMenuCommandBuilder()
    .setName(name)
    .setType(ApplicationCommandType.Message)
    .setContexts(InteractionContextType.Guild)
    .setIntegrationTypes(ApplicationIntegrationType.GuildInstall)
    .toJSON();

const pictureOption = ({ name, description, required }: OptionSpec): SlashCommandAttachmentOption =>
  new SlashCommandAttachmentOption().setName(name).setDescription(description).setRequired(required);

const memberOption = ({ name, description, required }: OptionSpec): SlashCommandUserOption =>
  new SlashCommandUserOption().setName(name).setDescription(description).setRequired(required);

function wholeNumberOption({ name, description, required, least, most }: OptionSpec): SlashCommandIntegerOption {
  const option = new SlashCommandIntegerOption().setName(name).setDescription(description).setRequired(required);
  if (least !== undefined) option.setMinValue(least);
  return most === undefined ? option : option.setMaxValue(most);
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
