import { GatewayIntentBits } from 'discord-api-types/v10';
import { channelPayload, memberPayload, messagePayload } from './payloads.ts';
import type { World } from './world.ts';
import type { RoomChange, WorldChannel, WorldMessage } from './world-shapes.ts';

type GatewayEvent = { type: string; data: unknown };

/** What the bot hears of a change, given the intents it asked for and the channels it can see. */
export function gatewayEvents(world: World, change: RoomChange, intents: number): GatewayEvent[] {
  switch (change.kind) {
    case 'message':
      return messageEvents(world, change.message, change.change, intents);
    case 'channel':
      return channelEvents(world, change.channel, change.change, intents);
    case 'member':
    case 'reaction':
    case 'typing':
    case 'modal':
    case 'commands':
    case 'interaction':
    case 'gateway':
      return [];
  }
}

function messageEvents(
  world: World,
  message: WorldMessage,
  change: 'created' | 'edited' | 'deleted',
  intents: number,
): GatewayEvent[] {
  const channel = world.channels.get(message.channelId);
  // Private replies and placeholders never come over the gateway.
  if (!channel || message.viewerId !== null) return [];
  const direct = channel.type === 1;
  if (!(intents & (direct ? GatewayIntentBits.DirectMessages : GatewayIntentBits.GuildMessages))) return [];
  if (!direct && !world.canSee(world.members.bot, channel)) return [];
  const place = direct ? {} : { guild_id: world.guild.id };
  if (change === 'deleted') {
    return [{ type: 'MESSAGE_DELETE', data: { id: message.id, channel_id: message.channelId, ...place } }];
  }
  const author = world.members.get(message.authorId);
  const data = {
    ...messagePayload(world, message),
    ...place,
    channel_type: channel.type,
    ...(author && !direct ? { member: memberPayload(author) } : {}),
    ...(mayReadContent(world, message, direct, intents)
      ? {}
      : { content: '', embeds: [], attachments: [], components: [] }),
  };
  return [{ type: change === 'created' ? 'MESSAGE_CREATE' : 'MESSAGE_UPDATE', data }];
}

/** Content comes without the privileged intent in own messages, direct messages and mentions of the bot. */
function mayReadContent(world: World, message: WorldMessage, direct: boolean, intents: number): boolean {
  const bot = world.members.bot.id;
  if (intents & GatewayIntentBits.MessageContent) return true;
  return direct || message.authorId === bot || message.mentionIds.includes(bot);
}

function channelEvents(
  world: World,
  channel: WorldChannel,
  change: 'created' | 'updated',
  intents: number,
): GatewayEvent[] {
  if (channel.type === 1 || !(intents & GatewayIntentBits.Guilds)) return [];
  const data = channelPayload(world, channel);
  if (!channel.thread) return [{ type: change === 'created' ? 'CHANNEL_CREATE' : 'CHANNEL_UPDATE', data }];
  if (!world.canSee(world.members.bot, channel)) return [];
  return [
    {
      type: change === 'created' ? 'THREAD_CREATE' : 'THREAD_UPDATE',
      data: change === 'created' ? { ...data, newly_created: true } : data,
    },
  ];
}
