import {
  GuildMember,
  type Attachment,
  type AutocompleteInteraction,
  type ChatInputCommandInteraction,
  type CommandInteractionOption,
  type ModalSubmitInteraction,
  type User,
} from 'discord.js';
import type { GivenFile, GivenMember } from './message-view.ts';

/** The options of a command by name; an attached file as its description, a member by id and name. */
export function optionsOf(interaction: ChatInputCommandInteraction): Record<string, unknown> {
  const given = interaction.options.data[0]?.options ?? [];
  return Object.fromEntries(
    given.map(({ name, value, attachment, user, member }) => [
      name,
      attachment ? fileOf(attachment) : user ? memberOf(user, member) : value,
    ]),
  );
}

/** The options that were filled in so far, while another one is being typed. */
export function optionsSoFar(interaction: AutocompleteInteraction): Record<string, unknown> {
  const given = interaction.options.data[0]?.options ?? [];
  return Object.fromEntries(given.flatMap(({ name, value, focused }) => (focused ? [] : [[name, value]])));
}

function memberOf(user: User, member: CommandInteractionOption['member']): GivenMember {
  const nick = member instanceof GuildMember ? member.displayName : (member && 'nick' in member && member.nick) || null;
  return { id: user.id, name: nick ?? user.displayName, isBot: user.bot };
}

/** An attached file as data. */
export const fileOf = ({ name, url, size, contentType, description }: Attachment): GivenFile => ({
  name,
  url,
  size,
  type: contentType,
  alt: description,
});

/** The files that were attached in a form, by the names of its fields; a field without one is absent. */
export function filesIn(interaction: ModalSubmitInteraction): Record<string, GivenFile> {
  return Object.fromEntries(
    [...interaction.fields.fields.values()].flatMap((field): [string, GivenFile][] => {
      const file = 'attachments' in field ? field.attachments.first() : undefined;
      return file ? [[field.customId, fileOf(file)]] : [];
    }),
  );
}

/** What was filled in, by the names of the fields; a choice that was left open is absent. */
export function filledIn(interaction: ModalSubmitInteraction): Record<string, string> {
  return Object.fromEntries(
    [...interaction.fields.fields.values()].flatMap((field): [string, string][] => {
      if ('value' in field && typeof field.value === 'string') return [[field.customId, field.value]];
      const [chosen] = 'values' in field ? field.values : [];
      return chosen === undefined ? [] : [[field.customId, chosen]];
    }),
  );
}
