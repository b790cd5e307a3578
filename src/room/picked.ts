import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { ActRefused, inAList } from './act-refused.ts';
import { typeOf } from './multipart.ts';
import { channelPayload, memberPayload, userPayload } from './payloads.ts';
import type { GivenFile } from './room.ts';
import type { World } from './world.ts';

/** What an interaction carries about the members, channels and files that it names. */
export type Picked = ReturnType<typeof createPicked>;

/** Collects what is picked by name, for `resolved`. */
export function createPicked(world: World, origin: () => string, channelId: string) {
  const found: Record<string, Record<string, unknown>> = {};
  const note = (kind: string, id: string, payload: unknown) => {
    found[kind] = { ...found[kind], [id]: payload };
  };
  const member = (name: string): string => {
    const plain = name.replace(/^@/, '').trim();
    if (plain === '') throw new ActRefused('a member is needed here, such as @Ana');
    const known = world.members.named(plain) ?? world.members.declare({ name: plain });
    note('users', known.id, userPayload(known));
    note('members', known.id, { ...memberPayload(known), permissions: String(world.guildPermissionsOf(known)) });
    return known.id;
  };
  const role = (name: string): string | null => {
    const plain = name.replace(/^@/, '').trim().toLowerCase();
    const known = [...world.roles.values()].find((one) => one.name.toLowerCase() === plain);
    if (!known) return null;
    note('roles', known.id, {
      ...known,
      permissions: String(known.permissions),
      color: 0,
      hoist: false,
      managed: false,
      mentionable: false,
      flags: 0,
    });
    return known.id;
  };
  return {
    member,
    role(name: string): string {
      const id = role(name);
      if (id === null)
        throw new ActRefused(
          `there is no role "${name}"; there are: ${inAList([...world.roles.values()].map((one) => one.name))}`,
        );
      return id;
    },
    memberOrRole: (name: string): string => role(name) ?? member(name),
    channel(name: string): string {
      const known = world.channels.named(name.trim());
      const names = world.channels.all().filter(({ type }) => type !== 1);
      if (!known)
        throw new ActRefused(
          `there is no channel "${name}"; there are: ${inAList(names.map((one) => `#${one.name}`))}`,
        );
      note('channels', known.id, { ...channelPayload(world, known), permissions: '0' });
      return known.id;
    },
    file(given: GivenFile): string {
      const kept = world.messages.keepFile(origin(), channelId, {
        name: given.name,
        type: typeOf(given.name),
        data: given.data,
        alt: given.alt ?? null,
      });
      note('attachments', kept.id, kept);
      return kept.id;
    },
    /** `resolved` as the payload has it; left out when nothing was picked. */
    resolved: () => (Object.keys(found).length ? { resolved: found } : {}),
  };
}

/** Reads a file named as `@path`. */
export function fileAt(typed: string): GivenFile {
  const path = typed.replace(/^@/, '').trim();
  try {
    return { name: basename(path), data: readFileSync(path) };
  } catch {
    throw new ActRefused(`the file "${path}" cannot be read`);
  }
}
