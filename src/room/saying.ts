import { PermissionFlagsBits } from 'discord-api-types/v10';
import { ActRefused } from './act-refused.ts';
import { typeOf } from './multipart.ts';
import type { GivenFile } from './room.ts';
import type { World } from './world.ts';
import type { WorldChannel, WorldMember, WorldMessage } from './world-shapes.ts';

/** Puts what a member says into a channel, with names after @ turned into mentions. */
export function sayInChannel(
  world: World,
  origin: () => string,
  member: WorldMember,
  channel: WorldChannel,
  text: string,
  files: GivenFile[],
): WorldMessage {
  const needed = PermissionFlagsBits[channel.thread ? 'SendMessagesInThreads' : 'SendMessages'];
  const held = world.permissionsOf(member, channel);
  const locked = channel.thread?.locked && !(held & PermissionFlagsBits.ManageThreads);
  if (!(held & needed) || locked) throw new ActRefused(`${member.name} cannot write in #${channel.name}`);
  if (text.trim() === '' && files.length === 0) throw new ActRefused('there is nothing to say');
  if (text.length > 2000) throw new ActRefused(`a message has at most 2000 characters; this one has ${text.length}`);
  const content = withMentions(world, text);
  const mentionIds = [...content.matchAll(/<@!?(\d+)>/g)].flatMap(([, id = '']) => (world.members.get(id) ? [id] : []));
  if (channel.thread) {
    channel.thread.memberIds.add(member.id);
    if (channel.thread.archived) {
      channel.thread.archived = false;
      world.channels.changed(channel);
    }
  }
  return world.messages.add({
    channelId: channel.id,
    authorId: member.id,
    content,
    mentionIds: [...new Set(mentionIds)],
    attachments: files.map(({ name, alt, data }) =>
      world.messages.keepFile(origin(), channel.id, { name, type: typeOf(name), data, alt: alt ?? null }),
    ),
  });
}

/** `@Name` of a member becomes a mention, the longest name first; `@bot` is the bot. */
function withMentions(world: World, text: string): string {
  const names = world.members.all().map(({ id, name }) => ({ id, name }));
  const all = [...names, { id: world.members.bot.id, name: 'bot' }].sort((a, b) => b.name.length - a.name.length);
  return all.reduce((said, { id, name }) => {
    const escaped = name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
    return said.replace(new RegExp(`(?<![\\w<])@${escaped}(?!\\w)`, 'gi'), `<@${id}>`);
  }, text);
}
