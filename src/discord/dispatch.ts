import {
  DiscordAPIError,
  MessageFlags,
  type AutocompleteInteraction,
  type ButtonInteraction,
  type ChatInputCommandInteraction,
  type Interaction,
  type MessageContextMenuCommandInteraction,
  type ModalSubmitInteraction,
  type StringSelectMenuInteraction,
} from 'discord.js';
import { ALREADY_ANSWERED, carryOut, type Answerable } from './answer.ts';
import type { AnyCommand, ButtonAct, FormAct, MenuEntry } from './command.ts';
import { readCustomId } from './custom-id.ts';
import { filesIn, filledIn, fileOf, optionsOf, optionsSoFar } from './given.ts';
import type { Answer, MessageView, Request } from './message-view.ts';
import type { Log } from '../log.ts';
import { problemView, troubleView } from './problem.view.ts';
import { painted, type Paint } from './painted.ts';
import { render } from './render.ts';
import { requestOf } from './request-of.ts';

const UNKNOWN_INTERACTION = 10062;

export type Answers = {
  commands: ReadonlyMap<string, AnyCommand>;
  /** Buttons and selects, by act. */
  buttons: ReadonlyMap<string, ButtonAct>;
  forms: ReadonlyMap<string, FormAct>;
  menu: ReadonlyMap<string, MenuEntry>;
  /** What a button of another version, or of no act of ours, is told. */
  outOfDate: () => MessageView;
  /** What the member was to be told earlier and could not be; each is given out once. */
  owed: (request: Request) => MessageView[];
  paint: Paint;
};

/**
 * The one road from an interaction to its reply. Never throws: what went wrong is logged and told in one sentence.
 *
 * How old an interaction is, is left to Discord to judge (10062): a clock three seconds ahead of Discord's would leave
 * every command unanswered.
 */
export async function dispatch(answers: Answers, interaction: Interaction, now: Date, log: Log): Promise<void> {
  try {
    if (interaction.isAutocomplete()) return await answerTyping(answers, interaction, now);
    const answer = answerTo(answers, interaction, requestOf(interaction, now));
    if (!answer) return;
    await carryOut(answer.interaction, answer.answer, answers.paint);
    await tellWhatIsOwed(answers, answer.interaction, answer.answer, now);
  } catch (error) {
    await recover(interaction, error, log);
  }
}

/** The answer to an interaction, and the interaction as a kind that takes one; null when it is none of ours. */
function answerTo(
  answers: Answers,
  interaction: Interaction,
  request: Request,
): { interaction: Answerable; answer: Answer } | null {
  if (interaction.isChatInputCommand()) return { interaction, answer: answerCommand(answers, interaction, request) };
  if (interaction.isMessageContextMenuCommand())
    return { interaction, answer: answerMenu(answers, interaction, request) };
  if (interaction.isButton() || interaction.isStringSelectMenu())
    return { interaction, answer: answerComponent(answers, interaction, request) };
  if (interaction.isModalSubmit()) return { interaction, answer: answerForm(answers, interaction, request) };
  return null;
}

function answerCommand({ commands }: Answers, interaction: ChatInputCommandInteraction, request: Request): Answer {
  const command = commands.get(fullName(interaction));
  if (!command) throw new Error(`no command named ${fullName(interaction)}; run npm run register`);
  const parsed = command.parse(optionsOf(interaction));
  return parsed.ok ? parsed.run(request) : problemView(parsed.error);
}

async function answerTyping({ commands }: Answers, interaction: AutocompleteInteraction, now: Date) {
  const focused = interaction.options.getFocused(true);
  const choices = commands
    .get(fullName(interaction))
    ?.suggest?.(focused.name, focused.value, requestOf(interaction, now), optionsSoFar(interaction));
  await interaction.respond(choices ?? []);
}

function answerMenu({ menu }: Answers, interaction: MessageContextMenuCommandInteraction, request: Request): Answer {
  const entry = menu.get(interaction.commandName);
  if (!entry) throw new Error(`no menu entry named ${interaction.commandName}; run npm run register`);
  const { id, author, content, attachments } = interaction.targetMessage;
  return entry.run({ id, authorName: author.displayName, text: content, files: attachments.map(fileOf) }, request);
}

function answerComponent(
  { buttons, outOfDate }: Answers,
  interaction: ButtonInteraction | StringSelectMenuInteraction,
  request: Request,
): Answer {
  const used = readCustomId(interaction.customId);
  const act = used ? buttons.get(used.act) : undefined;
  const chosen = interaction.isStringSelectMenu() ? interaction.values : [];
  return act && used ? act.run(used.args, request, chosen) : outOfDate();
}

function answerForm({ forms, outOfDate }: Answers, interaction: ModalSubmitInteraction, request: Request): Answer {
  const sent = readCustomId(interaction.customId);
  const act = sent ? forms.get(sent.act) : undefined;
  return act && sent ? act.run(sent.args, filledIn(interaction), request, filesIn(interaction)) : outOfDate();
}

/** A form takes no word after it, so what is owed waits for the next answer. */
async function tellWhatIsOwed({ owed, paint }: Answers, interaction: Answerable, answer: Answer, now: Date) {
  if ('kind' in answer && answer.kind === 'form') return;
  for (const view of owed(requestOf(interaction, now))) {
    const { flags, ...message } = render(await painted({ ...view, audience: 'member' }, paint));
    await interaction.followUp({ ...message, flags: flags | MessageFlags.Ephemeral });
  }
}

function fullName(interaction: ChatInputCommandInteraction | AutocompleteInteraction): string {
  return [
    interaction.commandName,
    interaction.options.getSubcommandGroup(false),
    interaction.options.getSubcommand(false),
  ]
    .filter(Boolean)
    .join(' ');
}

/**
 * After an error: 40060 means that an earlier try of this answer did arrive, 10062 that Discord gave up waiting;
 * both end here. Anything else is a mistake of ours, and the member gets one sentence with the code from the log.
 */
async function recover(interaction: Interaction, error: unknown, log: Log): Promise<void> {
  if (error instanceof DiscordAPIError && (error.code === ALREADY_ANSWERED || error.code === UNKNOWN_INTERACTION)) {
    log.info(
      { code: error.code, interaction: interaction.id },
      'an answer was not taken: answered already, or too late',
    );
    return;
  }
  const ref = interaction.id.slice(-6);
  log.error({ err: error, ref }, 'an interaction failed');
  if (!interaction.isRepliable() || interaction.replied) return;
  try {
    const { flags, ...trouble } = render(troubleView(ref));
    if (interaction.deferred) await interaction.editReply({ ...trouble, flags: MessageFlags.IsComponentsV2 });
    else await interaction.reply({ ...trouble, flags });
  } catch (second) {
    log.warn({ err: second, ref }, 'and the member could not be told');
  }
}
