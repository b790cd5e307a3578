import {
  DiscordAPIError,
  MessageFlags,
  type ButtonInteraction,
  type ChatInputCommandInteraction,
  type MessageContextMenuCommandInteraction,
  type ModalSubmitInteraction,
  type StringSelectMenuInteraction,
} from 'discord.js';
import { fetchFile } from './fetch-file.ts';
import type { Answer, MessageView } from './message-view.ts';
import { onceMore } from './once-more.ts';
import { painted, type Paint } from './painted.ts';
import { renderForm } from './render-form.ts';
import { render } from './render.ts';

export const ALREADY_ANSWERED = 40060;

/** Every kind of interaction that takes an answer. */
export type Answerable =
  | ChatInputCommandInteraction
  | MessageContextMenuCommandInteraction
  | ButtonInteraction
  | StringSelectMenuInteraction
  | ModalSubmitInteraction;

/** Carries an answer out: a reply, a change of the message that was used, a form, or work followed by a reply. */
export async function carryOut(interaction: Answerable, answer: Answer, paint: Paint): Promise<void> {
  if (!('kind' in answer)) return show(interaction, answer, paint);
  if (answer.kind === 'form') {
    if (interaction.isModalSubmit()) throw new Error('a form cannot answer a form');
    return void (await interaction.showModal(renderForm(answer)));
  }
  await sayAtWork(interaction, answer.kind === 'work' ? answer.audience : 'member');
  const view = answer.kind === 'work' ? await answer.work() : answer.use(await fetchFile(answer.url, answer.mostBytes));
  const { components, files, allowedMentions } = render(await painted(view, paint));
  await onceMore(() =>
    interaction.editReply({ components, files, allowedMentions, flags: MessageFlags.IsComponentsV2 }),
  );
}

/** Says that the bot is at work. When an earlier try of that did arrive, the work goes on all the same. */
async function sayAtWork(interaction: Answerable, audience: MessageView['audience']): Promise<void> {
  const isPrivate = audience === 'member';
  try {
    await onceMore(() => interaction.deferReply(isPrivate ? { flags: MessageFlags.Ephemeral } : {}));
  } catch (error) {
    if (!(error instanceof DiscordAPIError) || error.code !== ALREADY_ANSWERED) throw error;
    interaction.deferred = true;
    interaction.ephemeral = isPrivate;
  }
}

/** A view answers beside the message that was used, unless it takes that message's place. */
async function show(interaction: Answerable, view: MessageView, paint: Paint): Promise<void> {
  const { flags, ...message } = render(await painted(view, paint));
  if (view.replaces && canUpdate(interaction))
    await onceMore(() => interaction.update({ ...message, flags: MessageFlags.IsComponentsV2, attachments: [] }));
  else await onceMore(() => interaction.reply({ ...message, flags }));
}

const canUpdate = (interaction: Answerable) =>
  interaction.isMessageComponent() || (interaction.isModalSubmit() && interaction.isFromMessage());
