import { PermissionFlagsBits } from 'discord-api-types/v10';
import { channelAccess } from './channel-access.ts';
import { nothing, ok, readBody, route } from './exchange.ts';
import type { Route, RouteDeps } from './exchange.ts';
import { COMPONENTS_V2, MessageBody } from './message-body.ts';
import { messagePayload } from './payloads.ts';
import { Refusal, unknownMessage } from './refusal.ts';
import type { WorldMessage } from './world-shapes.ts';

/** Messages that the bot writes and reads outside of interactions. */
export function messageRoutes({ world, writer, contract }: RouteDeps): Route[] {
  const bot = world.members.bot;
  const access = channelAccess(world);
  const history = PermissionFlagsBits.ReadMessageHistory;

  /** A message of a channel that the bot sees; private replies are not to be had this way. */
  const messageAt = ([channelId, messageId = '']: string[]): WorldMessage => {
    const channel = access.visible(channelId);
    const message = world.messages.get(messageId);
    if (!message || message.channelId !== channel.id || message.viewerId !== null) throw unknownMessage();
    return message;
  };
  const readable = (params: string[]) => {
    access.require(access.visible(params[0]), history);
    return messageAt(params);
  };

  return [
    route('GET', '/channels/:c/messages', ({ params, query }) => {
      const channel = access.visible(params[0]);
      if (!access.allowed(channel, history)) return ok([]);
      const before = query.get('before');
      const after = query.get('after');
      const limit = Math.min(100, Math.max(1, Number(query.get('limit') ?? 50)));
      const found = world.messages
        .in(channel.id)
        .filter(
          ({ id, viewerId }) =>
            viewerId === null && (!before || BigInt(id) < BigInt(before)) && (!after || BigInt(id) > BigInt(after)),
        );
      const chosen = after ? found.slice(0, limit) : found.slice(-limit);
      return ok(chosen.reverse().map((message) => messagePayload(world, message)));
    }),
    route('POST', '/channels/:c/messages', async ({ params, body: raw, files }) => {
      const channel = access.visible(params[0]);
      access.requireWrite(channel, files.size > 0);
      await contract.check('message', raw, { files });
      const body = readBody(MessageBody, raw);
      const sentBefore =
        body.nonce != null && body.enforce_nonce === true && world.messages.withNonce(bot.id, channel.id, body.nonce);
      if (sentBefore) return ok(messagePayload(world, sentBefore));
      const reply = body.message_reference;
      if (reply) {
        if (!access.allowed(channel, history))
          throw new Refusal(403, 160002, 'Cannot reply without permission to read message history');
        const gone = world.messages.get(reply.message_id)?.channelId !== channel.id;
        if (gone && reply.fail_if_not_exists !== false) throw new Refusal(400, 10008, 'Unknown Message');
        if (gone) body.message_reference = null;
      }
      return ok(messagePayload(world, writer.create({ body, files }, { channelId: channel.id })));
    }),
    route('GET', '/channels/:c/messages/:m', ({ params }) => ok(messagePayload(world, readable(params)))),
    route('PATCH', '/channels/:c/messages/:m', async ({ params, body: raw, files }) => {
      const message = messageAt(params);
      if (message.authorId !== bot.id) throw new Refusal(403, 50005, 'Cannot edit a message authored by another user');
      await contract.check('message-edit', raw, { files, existing: message });
      const body = readBody(MessageBody, raw);
      if (message.flags & COMPONENTS_V2 && body.flags == null) body.flags = COMPONENTS_V2;
      return ok(messagePayload(world, writer.edit(message, { body, files })));
    }),
    route('DELETE', '/channels/:c/messages/:m', ({ params }) => {
      const message = messageAt(params);
      const channel = access.visible(params[0]);
      if (message.authorId !== bot.id) access.require(channel, PermissionFlagsBits.ManageMessages);
      world.messages.remove(message);
      return nothing;
    }),
    route('PUT', '/channels/:c/messages/:m/reactions/:e/@me', ({ params }) => {
      const message = readable(params);
      access.require(access.visible(params[0]), PermissionFlagsBits.AddReactions);
      const emoji = params[2] ?? '';
      const before = message.reactions.find((one) => one.emoji === emoji);
      if (before && !before.memberIds.includes(bot.id)) before.memberIds.push(bot.id);
      if (!before) message.reactions.push({ emoji, memberIds: [bot.id] });
      world.emit({ kind: 'reaction', message, emoji, memberId: bot.id });
      return nothing;
    }),
  ];
}
