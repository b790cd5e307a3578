import { permissionBits } from './permissions.ts';
import type { PermissionName } from './permissions.ts';
import type { RoomClock } from './room.ts';
import { idForName } from './snowflakes.ts';
import type { RoomChange, WorldChannel, WorldMember } from './world-shapes.ts';

export const MAIN_CHANNEL = 'ask';
const CHANNELS = [
  { name: MAIN_CHANNEL, topic: 'Ask what an animal is, or what to do tonight' },
  { name: 'swap', topic: 'Frags and kit to give, trade or look for' },
  { name: 'club-log', topic: 'What the club keeps a record of' },
];

export type NewThread = {
  name: string;
  parentId: string;
  ownerId: string;
  private: boolean;
  autoArchiveMinutes: number;
  invitable: boolean;
};
export type Channels = ReturnType<typeof createChannels>;

/** The places of the club: text channels, threads, and direct messages with the bot. */
export function createChannels(clock: RoomClock, nextId: () => string, emit: (change: RoomChange) => void) {
  const byId = new Map<string, WorldChannel>();
  const blank = { topic: null, position: 0, overwrites: [], thread: null, recipientId: null, lastMessageId: null };
  CHANNELS.forEach(({ name, topic }, position) => {
    const id = idForName(`channel:${name}`);
    byId.set(id, { ...blank, id, name, type: 0, topic, position, overwrites: [] });
  });
  const add = (channel: WorldChannel) => {
    byId.set(channel.id, channel);
    emit({ kind: 'channel', change: 'created', channel });
    return channel;
  };
  const changed = (channel: WorldChannel) => emit({ kind: 'channel', change: 'updated', channel });
  const named = (name: string) => {
    const plain = name.replace(/^#/, '').toLowerCase();
    return [...byId.values()].findLast((channel) => channel.type !== 1 && channel.name.toLowerCase() === plain);
  };

  return {
    get: (id: string) => byId.get(id),
    named,
    all: () => [...byId.values()],
    changed,
    /** The direct messages between a member and the bot. */
    directWith(member: WorldMember): WorldChannel {
      const id = idForName(`direct:${member.id}`);
      return (
        byId.get(id) ?? add({ ...blank, id, name: `@${member.name}`, type: 1, overwrites: [], recipientId: member.id })
      );
    },
    /** Opens a thread; one that starts at a message has that message's id, as on Discord. */
    openThread(thread: NewThread, messageId?: string): WorldChannel {
      return add({
        ...blank,
        id: messageId ?? nextId(),
        name: thread.name,
        type: thread.private ? 12 : 11,
        overwrites: [],
        thread: {
          parentId: thread.parentId,
          ownerId: thread.ownerId,
          archived: false,
          locked: false,
          invitable: thread.invitable,
          autoArchiveMinutes: thread.autoArchiveMinutes,
          memberIds: new Set([thread.ownerId]),
          archivedAt: clock.now(),
        },
      });
    },
    /** Allows or denies permissions of one member or role in a channel; what is not named stays as it was. */
    overwrite(
      channelName: string,
      target: { id: string; type: 0 | 1 },
      change: { allow?: PermissionName[]; deny?: PermissionName[] },
    ) {
      const channel = named(channelName);
      if (!channel) throw new RangeError(`there is no channel "${channelName}"`);
      const allow = permissionBits(...(change.allow ?? []));
      const deny = permissionBits(...(change.deny ?? []));
      const before = channel.overwrites.find(({ id }) => id === target.id) ?? { allow: 0n, deny: 0n };
      const after = { ...target, allow: (before.allow & ~deny) | allow, deny: (before.deny & ~allow) | deny };
      channel.overwrites = [...channel.overwrites.filter(({ id }) => id !== target.id), after];
      changed(channel);
    },
  };
}
