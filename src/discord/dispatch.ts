import {
  DiscordAPIError,
  MessageFlags,
  type AutocompleteInteraction,
  type ButtonInteraction,
  type ChatInputCommandInteraction,
  type Interaction,
} from 'discord.js';
import type { MessageView, Request } from './message-view.ts';
import type { AnyCommand, ButtonAct } from './command.ts';
import { readCustomId } from './custom-id.ts';
import type { Log } from '../log.ts';
import { problemView, troubleView } from './problem.view.ts';
import { onceMore } from './once-more.ts';
import { painted, type Paint } from './painted.ts';
import { render } from './render.ts';

/** Discord takes a first answer for 3 seconds; one that is older when it reaches us is not worth the work. */
const TOO_OLD_MS = 2_900;
const UNKNOWN_INTERACTION = 10062;
const ALREADY_ANSWERED = 40060;

export type Answers = {
  commands: ReadonlyMap<string, AnyCommand>;
  buttons: ReadonlyMap<string, ButtonAct>;
  /** What a button of another version, or of no act of ours, is told. */
  outOfDate: () => MessageView;
  paint: Paint;
};

/** The one road from an interaction to its reply. Never throws: what went wrong is logged and told in one sentence. */
export async function dispatch(answers: Answers, interaction: Interaction, now: Date, log: Log): Promise<void> {
  const age = now.getTime() - interaction.createdTimestamp;
  if (age > TOO_OLD_MS) {
    log.info(
      { age, interaction: interaction.id },
      'left an interaction alone: Discord no longer takes an answer to it',
    );
    return;
  }
  try {
    if (interaction.isChatInputCommand()) await answerCommand(answers, interaction, now);
    else if (interaction.isAutocomplete()) await answerTyping(answers, interaction, now);
    else if (interaction.isButton()) await answerButton(answers, interaction, now);
  } catch (error) {
    await recover(interaction, error, log);
  }
}

async function answerCommand({ commands, paint }: Answers, interaction: ChatInputCommandInteraction, now: Date) {
  const command = commands.get(fullName(interaction));
  if (!command) throw new Error(`no command named ${fullName(interaction)}; run npm run register`);
  const options = Object.fromEntries(
    (interaction.options.data[0]?.options ?? []).map(({ name, value }) => [name, value]),
  );
  const parsed = command.parse(options);
  const view = parsed.ok ? parsed.run(requestOf(interaction, now)) : problemView(parsed.error);
  const message = render(await painted(view, paint));
  await onceMore(() => interaction.reply(message));
}

async function answerTyping({ commands }: Answers, interaction: AutocompleteInteraction, now: Date) {
  const focused = interaction.options.getFocused(true);
  const choices = commands
    .get(fullName(interaction))
    ?.suggest?.(focused.name, focused.value, requestOf(interaction, now));
  await interaction.respond(choices ?? []);
}

/** A button answers beside the message it sits on, unless its view takes that message's place. */
async function answerButton({ buttons, outOfDate, paint }: Answers, interaction: ButtonInteraction, now: Date) {
  const pressed = readCustomId(interaction.customId);
  const act = pressed ? buttons.get(pressed.act) : undefined;
  const view = act && pressed ? act.run(pressed.args, requestOf(interaction, now)) : outOfDate();
  const { flags, ...message } = render(await painted(view, paint));
  if (view.replaces)
    await onceMore(() => interaction.update({ ...message, flags: MessageFlags.IsComponentsV2, attachments: [] }));
  else await onceMore(() => interaction.reply({ ...message, flags }));
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

function requestOf(
  interaction: ChatInputCommandInteraction | AutocompleteInteraction | ButtonInteraction,
  now: Date,
): Request {
  const nickname = interaction.inCachedGuild() ? interaction.member.displayName : interaction.user.displayName;
  return {
    memberId: interaction.user.id,
    memberName: nickname,
    guildId: interaction.guildId,
    channelId: interaction.channelId,
    locale: interaction.locale,
    now,
  };
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
    await interaction.reply(render(troubleView(ref)));
  } catch (second) {
    log.warn({ err: second, ref }, 'and the member could not be told');
  }
}
