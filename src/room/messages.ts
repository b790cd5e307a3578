import type { APIAttachment } from 'discord-api-types/v10';
import type { RoomChange, WorldChannel, WorldMessage } from './world-shapes.ts';

// Discord says "in the past few minutes"; it does not say how many.
const NONCE_WINDOW_MS = 5 * 60_000;

export type NewMessage = Partial<Omit<WorldMessage, 'id' | 'channelId' | 'authorId' | 'createdAt'>> & {
  channelId: string;
  authorId: string;
};
export type Messages = ReturnType<typeof createMessages>;

/** Every message of the room, in the order in which they were written. */
export function createMessages(deps: {
  nextId: () => string;
  now: () => Date;
  emit: (change: RoomChange) => void;
  channel: (id: string) => WorldChannel | undefined;
}) {
  const byId = new Map<string, WorldMessage>();
  const byNonce = new Map<string, WorldMessage>();
  const files = new Map<string, { data: Buffer; type: string }>();

  return {
    get: (id: string) => byId.get(id),
    all: () => [...byId.values()],
    in: (channelId: string) => [...byId.values()].filter((message) => message.channelId === channelId),
    add(message: NewMessage): WorldMessage {
      const id = deps.nextId();
      const whole: WorldMessage = {
        type: 0,
        content: '',
        embeds: [],
        components: [],
        attachments: [],
        flags: 0,
        editedAt: null,
        mentionIds: [],
        mentionRoleIds: [],
        mentionEveryone: false,
        nonce: null,
        replyTo: null,
        interaction: null,
        viewerId: null,
        reactions: [],
        ...message,
        id,
        createdAt: deps.now(),
      };
      byId.set(id, whole);
      if (whole.nonce !== null) byNonce.set(nonceKey(whole), whole);
      const channel = deps.channel(whole.channelId);
      if (channel && whole.viewerId === null) channel.lastMessageId = id;
      deps.emit({ kind: 'message', change: 'created', message: whole });
      return whole;
    },
    /** Changes a message in place; `markEdited` is off when a placeholder gets its first real text. */
    edit(message: WorldMessage, change: Partial<WorldMessage>, markEdited = true): WorldMessage {
      Object.assign(message, change, markEdited ? { editedAt: deps.now() } : {});
      deps.emit({ kind: 'message', change: 'edited', message });
      return message;
    },
    remove(message: WorldMessage): void {
      byId.delete(message.id);
      deps.emit({ kind: 'message', change: 'deleted', message });
    },
    /** The message that the author already sent with this nonce in the past few minutes. */
    withNonce(authorId: string, channelId: string, nonce: string | number): WorldMessage | undefined {
      const found = byNonce.get(nonceKey({ authorId, channelId, nonce }));
      const recent = found && found.createdAt.getTime() >= deps.now().getTime() - NONCE_WINDOW_MS;
      return recent ? found : undefined;
    },
    /** Keeps a file in memory; `url` is where the room serves it. */
    keepFile(
      origin: string,
      channelId: string,
      file: { name: string; type: string; data: Buffer; alt: string | null },
    ): APIAttachment {
      const id = deps.nextId();
      // Discord replaces what does not belong in a file name.
      const filename = file.name.replace(/[^\w.-]+/g, '_');
      const path = `/attachments/${channelId}/${id}/${filename}`;
      files.set(path, { data: file.data, type: file.type });
      return {
        id,
        filename,
        size: file.data.length,
        url: origin + path,
        proxy_url: origin + path,
        content_type: file.type,
        ...(file.alt === null ? {} : { description: file.alt }),
        ...imageSize(file.data),
      };
    },
    file: (path: string) => files.get(path),
  };
}

const nonceKey = ({ authorId, channelId, nonce }: Pick<WorldMessage, 'authorId' | 'channelId' | 'nonce'>) =>
  `${authorId}/${channelId}/${nonce}`;

/** Width and height of a PNG, which stand at fixed places in its first bytes. */
function imageSize(data: Buffer): { width?: number; height?: number } {
  const isPng = data.length >= 24 && data.toString('latin1', 1, 4) === 'PNG';
  return isPng ? { width: data.readUInt32BE(16), height: data.readUInt32BE(20) } : {};
}
