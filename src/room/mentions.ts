import type { AllowedMentions } from './message-body.ts';
import type { World } from './world.ts';
import type { WorldMessage } from './world-shapes.ts';

export type Mentions = { userIds: string[]; roleIds: string[]; everyone: boolean };

/** Whom a text of the bot really mentions: what it says, cut down to what `allowed_mentions` lets through. */
export function mentionsIn(
  world: World,
  text: string,
  allowed: AllowedMentions | null,
  replyTo: string | null,
): Mentions {
  const ids = (pattern: RegExp) => [...new Set([...text.matchAll(pattern)].map(([, id = '']) => id))];
  const letsThrough = (kind: 'users' | 'roles', id: string) =>
    allowed === null || allowed.parse?.includes(kind) === true || allowed[kind]?.includes(id) === true;
  const named = ids(/<@!?(\d+)>/g).filter((id) => world.members.get(id) && letsThrough('users', id));
  const target = replyTo === null ? undefined : world.messages.get(replyTo);
  const replied = target && (allowed === null || allowed.replied_user === true) ? [target.authorId] : [];
  return {
    userIds: [...new Set([...named, ...replied])],
    roleIds: ids(/<@&(\d+)>/g).filter((id) => world.roles.has(id) && letsThrough('roles', id)),
    // The bot's role does not hold Mention Everyone, so this stays text.
    everyone: false,
  };
}

/** Notes who was notified; somebody who cannot see the message is not. */
export function recordPing(world: World, message: WorldMessage, mentions: Mentions): void {
  const channel = world.channels.get(message.channelId);
  const ofRoles = world.members.all().filter(({ roleIds }) => roleIds.some((id) => mentions.roleIds.includes(id)));
  const memberIds = [...new Set([...mentions.userIds, ...ofRoles.map(({ id }) => id)])].filter((id) => {
    const member = world.members.get(id);
    if (!member || member.bot || !channel || !world.canSee(member, channel)) return false;
    return message.viewerId === null || message.viewerId === id;
  });
  if (memberIds.length === 0) return;
  world.pings.push({
    messageId: message.id,
    channelId: message.channelId,
    memberIds,
    everyone: false,
    at: message.createdAt,
  });
}
