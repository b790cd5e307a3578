import { PermissionFlagsBits } from 'discord-api-types/v10';
import { createChannels, MAIN_CHANNEL } from './channels.ts';
import { createCommands } from './commands.ts';
import { APPLICATION_ID, createMembers, createRoles, GUILD } from './members.ts';
import { createMessages } from './messages.ts';
import { channelPermissions, guildPermissions } from './permissions.ts';
import type { PermissionName } from './permissions.ts';
import type { RoomClock } from './room.ts';
import { createSnowflakes } from './snowflakes.ts';
import type { Ping, RoomChange, WorldChannel, WorldMember, WorldMessage } from './world-shapes.ts';

export type World = ReturnType<typeof createWorld>;

/** Everything that exists in the practice room: one club, its places, its people and what they said. */
export function createWorld(clock: RoomClock) {
  const listeners = new Set<(change: RoomChange) => void>();
  const emit = (change: RoomChange) => {
    for (const listener of [...listeners]) listener(change);
  };
  const { next: nextId } = createSnowflakes(clock);
  const roles = createRoles();
  const members = createMembers(clock, emit);
  const channels = createChannels(clock, nextId, emit);
  const messages = createMessages({ nextId, now: clock.now, emit, channel: channels.get });
  const commands = createCommands(nextId, emit);
  const pings: Ping[] = [];

  /** The text channel that decides about permissions: a thread follows its parent. */
  const ruling = (channel: WorldChannel) =>
    (channel.thread ? channels.get(channel.thread.parentId) : undefined) ?? channel;

  const permissionsOf = (member: WorldMember, channel: WorldChannel): bigint => {
    if (channel.type === 1) return DIRECT;
    const held = channelPermissions(member, ruling(channel), roles, GUILD.id);
    const hidden = channel.type === 12 && !channel.thread?.memberIds.has(member.id);
    return hidden && !(held & PermissionFlagsBits.ManageThreads) ? 0n : held;
  };
  const canSee = (member: WorldMember, channel: WorldChannel) =>
    channel.type === 1
      ? channel.recipientId === member.id || member.bot
      : (permissionsOf(member, channel) & PermissionFlagsBits.ViewChannel) !== 0n;

  return {
    clock,
    nextId,
    guild: GUILD,
    applicationId: APPLICATION_ID,
    roles,
    members,
    channels,
    messages,
    commands,
    pings,
    emit,
    /** Calls `listener` after every change; gives back how to stop that. */
    onChange(listener: (change: RoomChange) => void): () => void {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    mainChannel(): WorldChannel {
      const main = channels.named(MAIN_CHANNEL);
      if (!main) throw new Error('the main channel is gone');
      return main;
    },
    permissionsOf,
    guildPermissionsOf: (member: WorldMember) => guildPermissions(member, roles, GUILD.id),
    canSee,
    /** What one member can see, oldest first. */
    visibleTo(member: WorldMember): WorldMessage[] {
      return messages.all().filter((message) => {
        const channel = channels.get(message.channelId);
        if (!channel || !canSee(member, channel)) return false;
        return message.viewerId === null || message.viewerId === member.id;
      });
    },
    /** Allows or denies the bot permissions in a channel; the bot hears of it as of any channel update. */
    setBotPermissions(channelName: string, change: { allow?: PermissionName[]; deny?: PermissionName[] }) {
      channels.overwrite(channelName, { id: members.bot.id, type: 1 }, change);
    },
  };
}

const DIRECT =
  PermissionFlagsBits.ViewChannel |
  PermissionFlagsBits.SendMessages |
  PermissionFlagsBits.ReadMessageHistory |
  PermissionFlagsBits.AttachFiles |
  PermissionFlagsBits.EmbedLinks |
  PermissionFlagsBits.AddReactions |
  PermissionFlagsBits.UseApplicationCommands;
