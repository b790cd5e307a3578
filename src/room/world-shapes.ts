import type { APIAttachment, APIEmbed } from 'discord-api-types/v10';
import type { Part } from './message-body.ts';
import type { SeenModal } from './room.ts';

// What the room remembers, as plain data.

export type WorldRole = { id: string; name: string; permissions: bigint; position: number };
export type WorldOverwrite = { id: string; type: 0 | 1; allow: bigint; deny: bigint };

export type WorldMember = {
  id: string;
  name: string;
  roleIds: string[];
  bot: boolean;
  dmClosed: boolean;
  zone: string;
  locale: string;
  joinedAt: Date;
};

export type WorldThread = {
  parentId: string;
  ownerId: string;
  archived: boolean;
  locked: boolean;
  invitable: boolean;
  autoArchiveMinutes: number;
  memberIds: Set<string>;
  archivedAt: Date;
};

export type WorldChannel = {
  id: string;
  name: string;
  /** Discord's channel type: 0 text, 1 direct message, 11 public thread, 12 private thread. */
  type: 0 | 1 | 11 | 12;
  topic: string | null;
  position: number;
  overwrites: WorldOverwrite[];
  thread: WorldThread | null;
  /** The member at the other end of a direct message. */
  recipientId: string | null;
  lastMessageId: string | null;
};

export type WorldMessage = {
  id: string;
  channelId: string;
  authorId: string;
  /** Discord's message type: 0 plain, 18 thread created, 19 reply, 20 slash command, 23 menu entry. */
  type: number;
  content: string;
  embeds: APIEmbed[];
  components: Part[];
  attachments: APIAttachment[];
  flags: number;
  createdAt: Date;
  editedAt: Date | null;
  mentionIds: string[];
  mentionRoleIds: string[];
  mentionEveryone: boolean;
  nonce: string | number | null;
  replyTo: string | null;
  interaction: { id: string; type: number; memberId: string; name: string } | null;
  /** The one member who sees it, when it is private. */
  viewerId: string | null;
  reactions: { emoji: string; memberIds: string[] }[];
};

/** Members who were really notified by a message. */
export type Ping = { messageId: string; channelId: string; memberIds: string[]; everyone: boolean; at: Date };

/** Something that changed in the room; a page follows these. */
export type RoomChange =
  | { kind: 'message'; change: 'created' | 'edited' | 'deleted'; message: WorldMessage }
  | { kind: 'channel'; change: 'created' | 'updated'; channel: WorldChannel }
  | { kind: 'member'; member: WorldMember }
  | { kind: 'reaction'; message: WorldMessage; emoji: string; memberId: string }
  | { kind: 'typing'; channelId: string }
  | { kind: 'modal'; memberId: string; modal: SeenModal | null }
  | { kind: 'commands' }
  | { kind: 'interaction'; interactionId: string; memberId: string; state: string }
  | { kind: 'gateway'; connected: boolean };
