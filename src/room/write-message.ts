import type { APIAttachment, APIEmbed } from 'discord-api-types/v10';
import { COMPONENTS_V2, everyPart } from './message-body.ts';
import type { MessageBody, Part, SentFile } from './message-body.ts';
import { mentionsIn, recordPing } from './mentions.ts';
import type { World } from './world.ts';
import type { WorldMessage } from './world-shapes.ts';

export type Sent = { body: MessageBody; files: ReadonlyMap<string, SentFile> };
export type Writer = ReturnType<typeof createWriter>;

/** Turns what the bot sent into messages of the world. */
export function createWriter(world: World, origin: () => string) {
  /** The files of a request, kept and joined with their alt texts. */
  function keepFiles(channelId: string, { body, files }: Sent): APIAttachment[] {
    return [...files].map(([n, file]) => {
      const said = body.attachments?.find(({ id }) => id === n);
      const name = said?.filename ?? file.name;
      return world.messages.keepFile(origin(), channelId, { ...file, name, alt: said?.description ?? null });
    });
  }

  return {
    create(
      sent: Sent,
      place: { channelId: string } & Partial<Pick<WorldMessage, 'viewerId' | 'interaction' | 'type'>>,
    ): WorldMessage {
      const { body } = sent;
      const attachments = keepFiles(place.channelId, sent);
      const replyTo = body.message_reference?.message_id ?? null;
      const drawn = drawParts(body.components ?? [], body.embeds ?? [], attachments);
      const mentions = mentionsIn(
        world,
        spokenText(body.content ?? '', drawn.components),
        body.allowed_mentions ?? null,
        replyTo,
      );
      const message = world.messages.add({
        ...place,
        ...drawn,
        authorId: world.members.bot.id,
        type: place.type ?? (replyTo === null ? 0 : 19),
        content: body.content ?? '',
        attachments,
        flags: body.flags ?? 0,
        nonce: body.nonce ?? null,
        replyTo,
        mentionIds: mentions.userIds,
        mentionRoleIds: mentions.roleIds,
        mentionEveryone: mentions.everyone,
      });
      recordPing(world, message, mentions);
      return message;
    },
    /** Edits a message; what the body does not name stays. A placeholder that gets its text is not marked as edited. */
    edit(message: WorldMessage, sent: Sent, markEdited = true): WorldMessage {
      const { body } = sent;
      const listed = body.attachments;
      const kept = listed
        ? message.attachments.filter(({ id }) => listed.some((one) => one.id === id))
        : message.attachments;
      const attachments = [...kept, ...keepFiles(message.channelId, sent)];
      const drawn = drawParts(
        body.components === undefined ? message.components : (body.components ?? []),
        body.embeds === undefined ? message.embeds : (body.embeds ?? []),
        attachments,
      );
      const content = body.content === undefined ? message.content : (body.content ?? '');
      const mentions = mentionsIn(world, spokenText(content, drawn.components), body.allowed_mentions ?? null, null);
      // Only the first text of a placeholder may notify; a later edit never does.
      if (!markEdited) recordPing(world, message, mentions);
      const flags = (body.flags ?? 0) & COMPONENTS_V2;
      return world.messages.edit(
        message,
        { ...drawn, content, attachments, flags: message.flags | flags, mentionIds: mentions.userIds },
        markEdited,
      );
    },
  };
}

/** All that is said in a message, for finding mentions. */
function spokenText(content: string, components: Part[]): string {
  const texts = [...everyPart(components)].filter(({ type }) => type === 10).map((part) => part.content ?? '');
  return [content, ...texts].join('\n');
}

/** Numbers the components and points `attachment://name` at the files that came along. */
function drawParts(components: Part[], embeds: APIEmbed[], attachments: APIAttachment[]) {
  const resolve = (url: string) => {
    const name = url.startsWith('attachment://') ? url.slice('attachment://'.length) : null;
    const found = attachments.findLast(({ filename }) => name !== null && filename === name.replace(/[^\w.-]+/g, '_'));
    return found?.url ?? url;
  };
  const drawn = structuredClone(components);
  const used = new Set([...everyPart(drawn)].map(({ id }) => id));
  let next = 1;
  for (const part of everyPart(drawn)) {
    if (part.id == null || part.id === 0) {
      while (used.has(next)) next += 1;
      part.id = next;
      used.add(next);
    }
    if (part.media) part.media.url = resolve(part.media.url);
    if (part.file) part.file.url = resolve(part.file.url);
    for (const item of part.items ?? []) item.media.url = resolve(item.media.url);
  }
  const pictured = embeds.map((embed) => ({
    ...embed,
    ...(embed.image ? { image: { ...embed.image, url: resolve(embed.image.url) } } : {}),
    ...(embed.thumbnail ? { thumbnail: { ...embed.thumbnail, url: resolve(embed.thumbnail.url) } } : {}),
  }));
  return { components: drawn, embeds: pictured };
}
