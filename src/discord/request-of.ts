import { PermissionFlagsBits, type BaseInteraction } from 'discord.js';
import type { Request } from './message-view.ts';

/** Permissions of the bot that an answer may depend on, by the names that Discord shows. */
const WATCHED = {
  'View Channel': PermissionFlagsBits.ViewChannel,
  'Send Messages': PermissionFlagsBits.SendMessages,
  'Send Messages in Threads': PermissionFlagsBits.SendMessagesInThreads,
  'Create Public Threads': PermissionFlagsBits.CreatePublicThreads,
  'Attach Files': PermissionFlagsBits.AttachFiles,
  'Read Message History': PermissionFlagsBits.ReadMessageHistory,
} as const;

/** Who asked, where, when, and what they and the bot may do there. */
export function requestOf(interaction: BaseInteraction, now: Date): Request {
  const member = interaction.inCachedGuild() ? interaction.member : null;
  return {
    memberId: interaction.user.id,
    memberName: member?.displayName ?? interaction.user.displayName,
    guildId: interaction.guildId,
    channelId: interaction.channelId,
    locale: interaction.locale,
    now,
    ...(member
      ? {
          standing: {
            roles: member.roles.cache.map(({ name }) => name),
            managesMessages: interaction.memberPermissions?.has(PermissionFlagsBits.ManageMessages) ?? false,
            managesServer: interaction.memberPermissions?.has(PermissionFlagsBits.ManageGuild) ?? false,
          },
        }
      : {}),
    ...(interaction.guildId
      ? {
          place: {
            kind: interaction.channel?.isThread() ? 'thread' : 'channel',
            lacks: Object.entries(WATCHED).flatMap(([name, bit]) =>
              interaction.appPermissions.has(bit) ? [] : [name],
            ),
          },
        }
      : {}),
  };
}
