import { PermissionFlagsBits } from 'discord-api-types/v10';
import type { WorldChannel, WorldMember, WorldRole } from './world-shapes.ts';

export type PermissionName = keyof typeof PermissionFlagsBits;

const EVERYTHING = Object.values(PermissionFlagsBits).reduce((all, bit) => all | bit, 0n);

/** The bits of the permissions named. */
export const permissionBits = (...names: PermissionName[]): bigint =>
  names.reduce((bits, name) => bits | PermissionFlagsBits[name], 0n);

/** What a member may do in the whole guild, before any channel speaks. */
export function guildPermissions(member: WorldMember, roles: ReadonlyMap<string, WorldRole>, guildId: string): bigint {
  const held = [guildId, ...member.roleIds].reduce((bits, id) => bits | (roles.get(id)?.permissions ?? 0n), 0n);
  return held & PermissionFlagsBits.Administrator ? EVERYTHING : held;
}

/** What a member may do in a channel: the everyone overwrite, then those of their roles, then their own. */
export function channelPermissions(
  member: WorldMember,
  channel: Pick<WorldChannel, 'overwrites'>,
  roles: ReadonlyMap<string, WorldRole>,
  guildId: string,
): bigint {
  let held = guildPermissions(member, roles, guildId);
  if (held & PermissionFlagsBits.Administrator) return EVERYTHING;
  const apply = (allow: bigint, deny: bigint) => {
    held = (held & ~deny) | allow;
  };
  const everyone = channel.overwrites.find(({ id }) => id === guildId);
  if (everyone) apply(everyone.allow, everyone.deny);
  const ofRoles = channel.overwrites.filter(({ id }) => id !== guildId && member.roleIds.includes(id));
  apply(
    ofRoles.reduce((bits, { allow }) => bits | allow, 0n),
    ofRoles.reduce((bits, { deny }) => bits | deny, 0n),
  );
  const own = channel.overwrites.find(({ id }) => id === member.id);
  if (own) apply(own.allow, own.deny);
  // Whoever cannot see a channel can do nothing in it.
  return held & PermissionFlagsBits.ViewChannel ? held : 0n;
}
