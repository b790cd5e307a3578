import type { RoomClock, MemberRole, MemberSpec } from './room.ts';
import { permissionBits } from './permissions.ts';
import { idForName } from './snowflakes.ts';
import type { RoomChange, WorldMember, WorldRole } from './world-shapes.ts';

export const GUILD = {
  id: idForName('guild'),
  name: 'Lagoon Reef Club',
  ownerId: idForName('founder'),
  locale: 'en-GB',
};
export const APPLICATION_ID = idForName('application');
export const BOT_NAME = 'Reef club bot';

const EVERYONE = permissionBits(
  'ViewChannel',
  'SendMessages',
  'SendMessagesInThreads',
  'CreatePublicThreads',
  'ReadMessageHistory',
  'AttachFiles',
  'EmbedLinks',
  'AddReactions',
  'UseApplicationCommands',
);
const CURATOR = permissionBits('ManageMessages', 'ManageThreads');
const OFFICER = permissionBits('ManageGuild', 'ManageChannels', 'ManageRoles', 'ManageMessages', 'ManageThreads');
const BOT = EVERYONE | permissionBits('CreatePrivateThreads');

/** The roles of the club: everyone, curator, officer and the bot's own. */
export function createRoles(): Map<string, WorldRole> {
  const role = (name: string, permissions: bigint, position: number): WorldRole => ({
    id: idForName(`role:${name}`),
    name,
    permissions,
    position,
  });
  const everyone = { ...role('@everyone', EVERYONE, 0), id: GUILD.id };
  const all = [everyone, role(BOT_NAME, BOT, 1), role('curator', CURATOR, 2), role('officer', OFFICER, 3)];
  return new Map(all.map((one) => [one.id, one]));
}

export const roleId = (name: MemberRole | typeof BOT_NAME): string => idForName(`role:${name}`);

export type Members = ReturnType<typeof createMembers>;

/** The members of the club, found by id or by name; the bot is one of them. */
export function createMembers(clock: RoomClock, emit: (change: RoomChange) => void) {
  const byId = new Map<string, WorldMember>();
  const bot: WorldMember = {
    id: idForName('bot'),
    name: BOT_NAME,
    roleIds: [roleId(BOT_NAME)],
    bot: true,
    dmClosed: false,
    zone: 'UTC',
    locale: 'en-GB',
    joinedAt: clock.now(),
  };
  byId.set(bot.id, bot);
  const named = (name: string) => [...byId.values()].find((member) => member.name.toLowerCase() === name.toLowerCase());

  const declare = (spec: MemberSpec): WorldMember => {
    const name = spec.name.replace(/^@/, '').trim();
    if (name === '') throw new RangeError('a member needs a name');
    const before = named(name);
    if (before?.bot) throw new RangeError(`"${name}" is the name of the bot`);
    const member: WorldMember = before ?? {
      id: idForName(`member:${name.toLowerCase()}`),
      name,
      roleIds: [],
      bot: false,
      dmClosed: false,
      zone: 'UTC',
      locale: 'en-GB',
      joinedAt: clock.now(),
    };
    if (spec.roles) member.roleIds = spec.roles.map(roleId);
    if (spec.dmClosed !== undefined) member.dmClosed = spec.dmClosed;
    if (spec.zone !== undefined) member.zone = spec.zone;
    if (spec.locale !== undefined) member.locale = spec.locale;
    byId.set(member.id, member);
    emit({ kind: 'member', member });
    return member;
  };

  return {
    bot,
    get: (id: string) => byId.get(id),
    named,
    all: () => [...byId.values()],
    /** Adds a member, or changes what is declared about them. */
    declare,
  };
}
