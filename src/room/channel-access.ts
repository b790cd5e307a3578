import { PermissionFlagsBits } from 'discord-api-types/v10';
import { cannotSendToUser, missingAccess, missingPermissions, Refusal, unknownChannel } from './refusal.ts';
import type { World } from './world.ts';
import type { WorldChannel } from './world-shapes.ts';

/** What the bot may do in a channel; whatever it may not is refused with Discord's own codes. */
export function channelAccess(world: World) {
  const bot = world.members.bot;
  const allowed = (channel: WorldChannel, bits: bigint) => (world.permissionsOf(bot, channel) & bits) === bits;
  const require = (channel: WorldChannel, bits: bigint): void => {
    if (!allowed(channel, PermissionFlagsBits.ViewChannel)) throw missingAccess();
    if (!allowed(channel, bits)) throw missingPermissions();
  };
  return {
    allowed,
    require,
    /** The channel, when it exists and the bot sees it. */
    visible(id = ''): WorldChannel {
      const channel = world.channels.get(id);
      if (!channel) throw unknownChannel();
      require(channel, PermissionFlagsBits.ViewChannel);
      return channel;
    },
    /** Refuses when the bot may not write here; writing into an archived thread reopens it. */
    requireWrite(channel: WorldChannel, withFiles: boolean): void {
      const { thread } = channel;
      require(channel, thread ? PermissionFlagsBits.SendMessagesInThreads : PermissionFlagsBits.SendMessages);
      if (withFiles) require(channel, PermissionFlagsBits.AttachFiles);
      if (channel.recipientId !== null && world.members.get(channel.recipientId)?.dmClosed) throw cannotSendToUser();
      if (thread?.locked && !allowed(channel, PermissionFlagsBits.ManageThreads)) {
        throw new Refusal(400, 50083, 'Thread is archived');
      }
      if (!thread) return;
      thread.memberIds.add(bot.id);
      if (!thread.archived) return;
      thread.archived = false;
      world.channels.changed(channel);
    },
  };
}
