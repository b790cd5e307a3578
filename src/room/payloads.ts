import type { World } from './world.ts';
import type { WorldCommand } from './commands.ts';
import type { WorldChannel, WorldMember, WorldMessage } from './world-shapes.ts';

// What Discord's API says about the things of the world.

export function userPayload(member: WorldMember) {
  return {
    id: member.id,
    username: member.name.toLowerCase().replace(/[^a-z0-9_.]+/g, '_'),
    global_name: member.bot ? null : member.name,
    discriminator: member.bot ? '0001' : '0',
    avatar: null,
    bot: member.bot,
    public_flags: 0,
  };
}

export function memberPayload(member: WorldMember) {
  return {
    nick: null,
    avatar: null,
    roles: member.roleIds,
    joined_at: member.joinedAt.toISOString(),
    premium_since: null,
    deaf: false,
    mute: false,
    flags: 0,
    pending: false,
    communication_disabled_until: null,
  };
}

export function channelPayload(world: World, channel: WorldChannel) {
  if (channel.type === 1) {
    const recipient = world.members.get(channel.recipientId ?? '');
    return {
      id: channel.id,
      type: 1,
      flags: 0,
      last_message_id: channel.lastMessageId,
      recipients: recipient ? [userPayload(recipient)] : [],
    };
  }
  const shared = {
    id: channel.id,
    name: channel.name,
    guild_id: world.guild.id,
    flags: 0,
    last_message_id: channel.lastMessageId,
  };
  if (channel.thread) return { ...shared, ...threadFields(world, channel, channel.thread) };
  return {
    ...shared,
    type: channel.type,
    parent_id: null,
    topic: channel.topic,
    position: channel.position,
    nsfw: false,
    rate_limit_per_user: 0,
    permission_overwrites: channel.overwrites.map(({ id, type, allow, deny }) => ({
      id,
      type,
      allow: String(allow),
      deny: String(deny),
    })),
  };
}

function threadFields(world: World, channel: WorldChannel, thread: NonNullable<WorldChannel['thread']>) {
  const botIsIn = thread.memberIds.has(world.members.bot.id);
  const joined = {
    id: channel.id,
    user_id: world.members.bot.id,
    join_timestamp: thread.archivedAt.toISOString(),
    flags: 0,
  };
  return {
    type: channel.type,
    parent_id: thread.parentId,
    owner_id: thread.ownerId,
    message_count: world.messages.in(channel.id).length,
    member_count: thread.memberIds.size,
    rate_limit_per_user: 0,
    thread_metadata: {
      archived: thread.archived,
      locked: thread.locked,
      auto_archive_duration: thread.autoArchiveMinutes,
      archive_timestamp: thread.archivedAt.toISOString(),
      ...(channel.type === 12 ? { invitable: thread.invitable } : {}),
    },
    ...(botIsIn ? { member: joined } : {}),
  };
}

/** A message as REST gives it; `options.deep` is off for the message a reply points at. */
export function messagePayload(world: World, message: WorldMessage, deep = true): Record<string, unknown> {
  const author = world.members.get(message.authorId) ?? world.members.bot;
  const users = (ids: string[]) => ids.flatMap((id) => world.members.get(id) ?? []).map(userPayload);
  const target = message.replyTo === null ? undefined : world.messages.get(message.replyTo);
  const asker = message.interaction && world.members.get(message.interaction.memberId);
  const thread = message.id === message.channelId ? undefined : world.channels.get(message.id);
  return {
    id: message.id,
    type: message.type,
    channel_id: message.channelId,
    author: userPayload(author),
    content: message.content,
    embeds: message.embeds,
    components: message.components,
    attachments: message.attachments,
    flags: message.flags | (thread ? 32 : 0),
    timestamp: message.createdAt.toISOString(),
    edited_timestamp: message.editedAt?.toISOString() ?? null,
    mentions: users(message.mentionIds),
    mention_roles: message.mentionRoleIds,
    mention_everyone: message.mentionEveryone,
    pinned: false,
    tts: false,
    ...(message.nonce === null ? {} : { nonce: message.nonce }),
    ...(author.bot ? { application_id: world.applicationId } : {}),
    ...(author.bot && message.interaction ? { webhook_id: world.applicationId } : {}),
    ...(message.reactions.length ? { reactions: message.reactions.map(reactionPayload(world)) } : {}),
    ...(thread ? { thread: channelPayload(world, thread) } : {}),
    ...(message.replyTo === null ? {} : replyFields(world, message, deep ? target : undefined)),
    ...(message.interaction && asker
      ? {
          interaction_metadata: {
            id: message.interaction.id,
            type: message.interaction.type,
            user: userPayload(asker),
            authorizing_integration_owners: { 0: world.guild.id },
          },
        }
      : {}),
  };
}

function replyFields(world: World, message: WorldMessage, target: WorldMessage | undefined) {
  return {
    message_reference: {
      type: 0,
      message_id: message.replyTo,
      channel_id: message.channelId,
      guild_id: world.guild.id,
    },
    referenced_message: target ? messagePayload(world, target, false) : null,
  };
}

const reactionPayload =
  (world: World) =>
  ({ emoji, memberIds }: WorldMessage['reactions'][number]) => ({
    emoji: { id: null, name: emoji },
    count: memberIds.length,
    count_details: { burst: 0, normal: memberIds.length },
    burst_colors: [],
    me: memberIds.includes(world.members.bot.id),
    me_burst: false,
  });

export function guildPayload(world: World) {
  const channels = world.channels.all();
  const bot = world.members.bot;
  return {
    id: world.guild.id,
    name: world.guild.name,
    owner_id: world.guild.ownerId,
    icon: null,
    splash: null,
    banner: null,
    description: null,
    afk_channel_id: null,
    afk_timeout: 300,
    application_id: null,
    default_message_notifications: 0,
    explicit_content_filter: 0,
    features: [],
    mfa_level: 0,
    nsfw_level: 0,
    preferred_locale: world.guild.locale,
    premium_tier: 0,
    premium_subscription_count: 0,
    premium_progress_bar_enabled: false,
    public_updates_channel_id: null,
    rules_channel_id: null,
    safety_alerts_channel_id: null,
    system_channel_id: null,
    system_channel_flags: 0,
    vanity_url_code: null,
    verification_level: 1,
    roles: [...world.roles.values()].map((role) => rolePayload(role)),
    emojis: [],
    stickers: [],
    joined_at: bot.joinedAt.toISOString(),
    large: false,
    unavailable: false,
    member_count: world.members.all().length,
    voice_states: [],
    presences: [],
    stage_instances: [],
    guild_scheduled_events: [],
    soundboard_sounds: [],
    members: [{ ...memberPayload(bot), user: userPayload(bot) }],
    channels: channels.filter(({ type }) => type === 0).map((channel) => channelPayload(world, channel)),
    threads: channels
      .filter(({ thread }) => thread && !thread.archived)
      .map((channel) => channelPayload(world, channel)),
  };
}

const rolePayload = (role: { id: string; name: string; permissions: bigint; position: number }) => ({
  id: role.id,
  name: role.name,
  permissions: String(role.permissions),
  position: role.position,
  color: 0,
  colors: { primary_color: 0, secondary_color: null, tertiary_color: null },
  hoist: false,
  managed: false,
  mentionable: false,
  flags: 0,
});

export function commandPayload(world: World, { guildId, ...command }: WorldCommand) {
  return {
    type: 1,
    description: '',
    default_member_permissions: null,
    nsfw: false,
    integration_types: [0],
    contexts: guildId === null ? [0, 1] : null,
    ...command,
    application_id: world.applicationId,
    ...(guildId === null ? {} : { guild_id: guildId }),
  };
}
