import { PermissionFlagsBits, type Message } from 'discord.js';
import type { Log } from '../log.ts';
import type { MentionAnswer } from './command.ts';
import { md, type MessageView, type Request } from './message-view.ts';
import { onceMore } from './once-more.ts';
import { painted, type Paint } from './painted.ts';
import { render } from './render.ts';

type Needed = { bit: bigint; name: string };

const VIEW: Needed = { bit: PermissionFlagsBits.ViewChannel, name: 'View Channel' };
const HISTORY: Needed = { bit: PermissionFlagsBits.ReadMessageHistory, name: 'Read Message History' };
/** What the bot needs to answer in a channel, and in a thread. */
const IN_CHANNEL: readonly Needed[] = [VIEW, { bit: PermissionFlagsBits.SendMessages, name: 'Send Messages' }, HISTORY];
const IN_THREAD: readonly Needed[] = [
  VIEW,
  { bit: PermissionFlagsBits.SendMessagesInThreads, name: 'Send Messages in Threads' },
  HISTORY,
];

/**
 * Answers a message that mentions the bot by name. Nothing else is read; a reply to the bot without its name
 * in the text, as Discord adds one silently, is no question.
 *
 * Where the bot may not write, it says so to the asker in a direct message that names the missing permission,
 * with the answer below it, and once to the log.
 */
export async function answerMention(
  answer: MentionAnswer,
  paint: Paint,
  message: Message,
  now: Date,
  log: Log,
): Promise<void> {
  const me = message.client.user;
  if (message.author.bot || message.system) return;
  if (!new RegExp(`<@!?${me.id}>`).test(message.content)) return;
  try {
    const text = message.content.replace(/<@!?\d+>/g, ' ').trim();
    const view = answer(text, requestOf(message, now));
    if (!view) return;
    const shown = await painted({ ...view, audience: 'everyone' }, paint);
    const missing = missingPermissions(message);
    if (missing.length === 0) await onceMore(() => message.reply({ ...render(shown), ...onceOnly(message) }));
    else await tellPrivately(message, shown, missing, log);
  } catch (error) {
    log.warn({ err: error, channel: message.channelId }, 'a mention could not be answered');
  }
}

const requestOf = (message: Message, now: Date): Request => ({
  memberId: message.author.id,
  memberName: message.member?.displayName ?? message.author.displayName,
  guildId: message.guildId,
  channelId: message.channelId,
  locale: message.guild?.preferredLocale ?? 'en-GB',
  now,
});

/** Discord drops a second message with the same nonce, so a retried send does not answer twice. */
const onceOnly = ({ id }: Message) => ({ nonce: `m${id}`, enforceNonce: true });

/** The permissions that the bot lacks in the channel of a message, by the names that Discord shows. */
export function missingPermissions(message: Message): string[] {
  if (!message.inGuild()) return [];
  const permissions = message.channel.permissionsFor(message.client.user);
  if (!permissions) return [];
  const needed = message.channel.isThread() ? IN_THREAD : IN_CHANNEL;
  return needed.filter(({ bit }) => !permissions.has(bit)).map(({ name }) => name);
}

async function tellPrivately(message: Message, view: MessageView, missing: readonly string[], log: Log) {
  log.warn({ channel: message.channelId, missing }, 'cannot answer in this channel: permissions are missing');
  const where = `#${'name' in message.channel ? (message.channel.name ?? 'that channel') : 'that channel'}`;
  const notice = md`I may not answer in ${where}: I lack **${missing.join(', ')}** there. An officer can grant it in the channel’s settings under Permissions. Here is my answer.`;
  await message.author.send({
    ...render({ ...view, audience: 'everyone', blocks: [{ kind: 'text', text: notice }, ...view.blocks] }),
    ...onceOnly(message),
  });
}
