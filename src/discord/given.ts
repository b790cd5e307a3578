import type { Attachment, ChatInputCommandInteraction, ModalSubmitInteraction } from 'discord.js';
import type { GivenFile } from './message-view.ts';

/** The options of a command by name; an attached file as its description. */
export function optionsOf(interaction: ChatInputCommandInteraction): Record<string, unknown> {
  const given = interaction.options.data[0]?.options ?? [];
  return Object.fromEntries(
    given.map(({ name, value, attachment }) => [name, attachment ? fileOf(attachment) : value]),
  );
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
