import type { CommandOption, WorldCommand } from './commands.ts';
import { EPHEMERAL, LOADING } from './message-body.ts';
import type { Room } from './open-room.ts';
import type {
  PageAttachment,
  PageChannel,
  PageCommand,
  PageMember,
  PageMessage,
  PageModal,
  PageOption,
  PageState,
} from './page-shapes.ts';
import type { World } from './world.ts';
import type { WorldChannel, WorldMember, WorldMessage } from './world-shapes.ts';

const SUBCOMMAND = 1;
const GROUP = 2;
const KINDS: Record<number, PageCommand['kind']> = { 1: 'slash', 2: 'member', 3: 'message' };
/** Discord's context number of direct messages with the bot. */
const WITH_BOT = 1;

/** Everything that one member can see, as the page draws it. `gone` are places that a fresh start has put away. */
export function pageState(room: Room, member: WorldMember, gone: ReadonlySet<string>): PageState {
  const { world } = room;
  const channels = world.channels.all().filter((channel) => shows(world, member, channel) && !gone.has(channel.id));
  return {
    club: world.guild.name,
    now: room.clock.now().toISOString(),
    acting: member.name,
    botId: world.members.bot.id,
    members: world.members.all().map((one) => memberOf(world, one)),
    roles: [...world.roles.values()].filter(({ id }) => id !== world.guild.id).map(({ id, name }) => ({ id, name })),
    channels: channels.map(channelOf),
    messages: world.visibleTo(member).map((message) => messageOf(world, message)),
    commands: world.commands.all().filter(usableBy(world, member)).flatMap(commandsOf),
    modal: modalOf(room, member),
  };
}

/** A member's direct messages are theirs alone. */
const shows = (world: World, member: WorldMember, channel: WorldChannel): boolean =>
  channel.type === 1 ? channel.recipientId === member.id : world.canSee(member, channel);

function memberOf(world: World, { id, name, bot, dmClosed, zone, locale, roleIds }: WorldMember): PageMember {
  const roles = bot ? [] : roleIds.flatMap((role) => world.roles.get(role)?.name ?? []);
  return { id, name, bot, dmClosed, zone, locale, roles };
}

function channelOf({ id, name, type, thread }: WorldChannel): PageChannel {
  const direct = type === 1;
  return {
    id,
    name: direct ? 'With the bot' : name,
    kind: direct ? 'direct' : thread ? 'thread' : 'channel',
    parentId: thread?.parentId ?? null,
    closed: thread?.archived === true || thread?.locked === true,
    locked: thread?.locked === true,
  };
}

function messageOf(world: World, message: WorldMessage): PageMessage {
  const { interaction } = message;
  const command = interaction?.type === 2 ? `${message.type === 23 ? '' : '/'}${interaction.name}` : null;
  return {
    id: message.id,
    channelId: message.channelId,
    authorId: message.authorId,
    at: message.createdAt.toISOString(),
    edited: message.editedAt !== null,
    private: message.viewerId !== null || (message.flags & EPHEMERAL) !== 0,
    thinking: (message.flags & LOADING) !== 0,
    content: message.content,
    components: message.components,
    embeds: message.embeds,
    attachments: message.attachments.map(attachmentOf),
    flags: message.flags,
    replyTo: message.replyTo,
    use: interaction === null ? null : { memberId: interaction.memberId, command },
    reactions: message.reactions.map(({ emoji, memberIds }) => ({ emoji, count: memberIds.length })),
    // A thread that starts at a message carries that message's id.
    threadId: world.channels.get(message.id)?.id ?? null,
  };
}

const attachmentOf = (file: WorldMessage['attachments'][number]): PageAttachment => ({
  id: file.id,
  name: file.filename,
  alt: file.description ?? '',
  bytes: file.size,
  type: file.content_type ?? 'application/octet-stream',
  // The page has the room's own origin; under another name of this machine the path still fits.
  url: new URL(file.url).pathname,
  width: file.width ?? null,
  height: file.height ?? null,
});

/** Commands that Discord would offer to this member. */
function usableBy(world: World, member: WorldMember): (command: WorldCommand) => boolean {
  const held = world.guildPermissionsOf(member);
  return ({ default_member_permissions: needed }) => {
    if (needed == null) return true;
    const bits = BigInt(needed);
    // "0" keeps a command for administrators, whose permissions hold every bit.
    return bits === 0n ? (held & 8n) !== 0n : (held & bits) === bits;
  };
}

function commandsOf(command: WorldCommand): PageCommand[] {
  const { id, guildId, contexts } = command;
  const kind = KINDS[command.type ?? 1] ?? 'slash';
  const direct = guildId === null && (contexts == null || contexts.includes(WITH_BOT));
  const leaves = (name: string, description: string, options: CommandOption[]): PageCommand[] => {
    const nested = options.filter(({ type }) => type === SUBCOMMAND || type === GROUP);
    if (nested.length > 0) {
      return nested.flatMap((one) => leaves(`${name} ${one.name}`, one.description ?? '', one.options ?? []));
    }
    return [{ id, kind, name, description, options: options.map(optionOf), direct }];
  };
  return leaves(command.name, command.description ?? '', command.options ?? []);
}

const optionOf = (option: CommandOption): PageOption => ({
  name: option.name,
  description: option.description ?? '',
  type: option.type,
  required: option.required === true,
  choices: (option.choices ?? []).map(({ name, value }) => ({ name, value })),
  autocomplete: option.autocomplete === true,
  min: option.min_value ?? null,
  max: option.max_value ?? null,
});

function modalOf(room: Room, member: WorldMember): PageModal | null {
  const open = room.interactions.modals.get(member.id);
  return open ? { id: open.customId, customId: open.customId, title: open.title, components: open.parts } : null;
}
