import { z } from 'zod';
import { PermissionFlagsBits } from 'discord-api-types/v10';
import { channelAccess } from './channel-access.ts';
import { nothing, ok, readBody, route } from './exchange.ts';
import type { Route, RouteDeps } from './exchange.ts';
import { channelPayload } from './payloads.ts';
import { Refusal, unknownChannel, unknownMessage } from './refusal.ts';
import type { WorldChannel } from './world-shapes.ts';

const DAY_MINUTES = 1440;
const NewThread = z.object({
  name: z.string(),
  type: z.number().nullish(),
  auto_archive_duration: z.number().nullish(),
  invitable: z.boolean().nullish(),
});
const ChangeThread = z.object({
  name: z.string().nullish(),
  archived: z.boolean().nullish(),
  locked: z.boolean().nullish(),
  invitable: z.boolean().nullish(),
  auto_archive_duration: z.number().nullish(),
  topic: z.string().nullish(),
});

/** Channels and threads. */
export function channelRoutes({ world, contract }: RouteDeps): Route[] {
  const bot = world.members.bot;
  const access = channelAccess(world);

  const openThread = (parent: WorldChannel, raw: unknown, messageId?: string) => {
    const { name, type, auto_archive_duration, invitable } = readBody(NewThread, raw);
    // Without a type Discord makes a private thread; from a message it is always a public one.
    const isPrivate = messageId === undefined && (type ?? 12) === 12;
    access.require(parent, PermissionFlagsBits[isPrivate ? 'CreatePrivateThreads' : 'CreatePublicThreads']);
    const thread = world.channels.openThread(
      {
        name,
        parentId: parent.id,
        ownerId: bot.id,
        private: isPrivate,
        autoArchiveMinutes: auto_archive_duration ?? DAY_MINUTES,
        invitable: invitable ?? true,
      },
      messageId,
    );
    return { status: 201, body: channelPayload(world, thread) };
  };
  const textChannel = (id = '') => {
    const channel = access.visible(id);
    if (channel.type !== 0) throw new Refusal(400, 50024, 'Cannot execute action on this channel type');
    return channel;
  };

  const change = (channel: WorldChannel, raw: unknown) => {
    const wish = readBody(ChangeThread, raw);
    const thread = channel.thread;
    if (!thread) {
      access.require(channel, PermissionFlagsBits.ManageChannels);
      if (wish.name != null) channel.name = wish.name;
      if (wish.topic !== undefined) channel.topic = wish.topic;
    } else {
      // Whoever opened a thread may rename, archive and reopen it, but only a manager locks it.
      const manager = (world.permissionsOf(bot, channel) & PermissionFlagsBits.ManageThreads) !== 0n;
      const ownDeed = thread.ownerId === bot.id && wish.locked == null && !thread.locked;
      if (!manager && !ownDeed) access.require(channel, PermissionFlagsBits.ManageThreads);
      if (wish.name != null) channel.name = wish.name;
      if (wish.archived != null && wish.archived !== thread.archived) thread.archivedAt = world.clock.now();
      thread.archived = wish.archived ?? thread.archived;
      thread.locked = wish.locked ?? thread.locked;
      thread.invitable = wish.invitable ?? thread.invitable;
      thread.autoArchiveMinutes = wish.auto_archive_duration ?? thread.autoArchiveMinutes;
    }
    world.channels.changed(channel);
    return ok(channelPayload(world, channel));
  };

  const joinThread = (threadId = '', memberId = '') => {
    const channel = access.visible(threadId);
    if (!channel.thread) throw unknownChannel();
    access.require(channel, PermissionFlagsBits.SendMessagesInThreads);
    const member = memberId === '@me' ? bot : world.members.get(memberId);
    if (!member) throw new Refusal(404, 10013, 'Unknown User');
    channel.thread.memberIds.add(member.id);
    world.channels.changed(channel);
    return nothing;
  };

  return [
    route('GET', '/channels/:c', ({ params }) => ok(channelPayload(world, access.visible(params[0])))),
    route('PATCH', '/channels/:c', async ({ params, body }) => {
      const channel = access.visible(params[0]);
      await contract.check(channel.thread ? 'thread-change' : 'channel-change', body);
      return change(channel, body);
    }),
    route('POST', '/channels/:c/threads', async ({ params, body }) => {
      const parent = textChannel(params[0]);
      await contract.check('thread', body);
      return openThread(parent, body);
    }),
    route('POST', '/channels/:c/messages/:m/threads', async ({ params, body }) => {
      const parent = textChannel(params[0]);
      const message = world.messages.get(params[1] ?? '');
      if (!message || message.channelId !== parent.id || message.viewerId !== null) throw unknownMessage();
      if (world.channels.get(message.id))
        throw new Refusal(400, 160004, 'A thread has already been created for this message');
      await contract.check('thread-from-message', body);
      return openThread(parent, body, message.id);
    }),
    route('POST', '/channels/:c/typing', ({ params }) => {
      const channel = access.visible(params[0]);
      world.emit({ kind: 'typing', channelId: channel.id });
      return nothing;
    }),
    route('PUT', '/channels/:c/thread-members/:u', ({ params }) => joinThread(params[0], params[1])),
  ];
}
