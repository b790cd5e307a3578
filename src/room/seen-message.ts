import type { APIEmbed } from 'discord-api-types/v10';
import { readMarkup } from './markup.ts';
import { everyPart } from './message-body.ts';
import type { Part } from './message-body.ts';
import type { SeenButton, SeenImage, SeenMessage, SeenSelect } from './room.ts';
import type { World } from './world.ts';
import type { WorldMember, WorldMessage } from './world-shapes.ts';

const SELECTS = [3, 5, 6, 7, 8];

type Picture = { url: string; alt: string | null | undefined };

/** A message as one member sees it. */
export function seeMessage(world: World, message: WorldMessage, reader: WorldMember): SeenMessage {
  const channel = world.channels.get(message.channelId);
  const parts = [...everyPart(message.components)];
  const { blocks, pictures } = readInOrder(message);
  return {
    id: message.id,
    channelId: message.channelId,
    channelName: channel?.name ?? '',
    author: world.members.get(message.authorId)?.name ?? '',
    to: addressee(world, message),
    private: message.viewerId !== null,
    edited: message.editedAt !== null,
    text: readMarkup(blocks.filter((block) => block !== '').join('\n'), world, reader),
    buttons: parts.filter(({ type }) => type === 2).map(seeButton),
    selects: parts.filter(({ type }) => SELECTS.includes(type)).map(seeSelect),
    images: pictures.map((picture) => seeImage(world, message, picture)),
  };
}

function addressee(world: World, message: WorldMessage): string | null {
  const replied = message.replyTo === null ? undefined : world.messages.get(message.replyTo)?.authorId;
  const recipient = world.channels.get(message.channelId)?.recipientId;
  const id = message.interaction?.memberId ?? replied ?? (recipient === message.authorId ? null : recipient);
  return (id && world.members.get(id)?.name) || null;
}

function readInOrder(message: WorldMessage): { blocks: string[]; pictures: Picture[] } {
  const pictures: Picture[] = [];
  const picture = (url: string, alt: string | null | undefined): string => {
    pictures.push({ url, alt: alt ?? altOf(message, url) });
    return `[image: ${alt || altOf(message, url) || `${fileName(url)}, without alt text`}]`;
  };
  const readPart = (part: Part): string[] => {
    switch (part.type) {
      case 10:
        return [part.content ?? ''];
      case 11:
        return part.media ? [picture(part.media.url, part.description)] : [];
      case 12:
        return (part.items ?? []).map(({ media, description }) => picture(media.url, description));
      case 13:
        return part.file ? [`[file: ${fileName(part.file.url)}]`] : [];
      default:
        return [...(part.components ?? []), ...(part.accessory ? [part.accessory] : [])].flatMap(readPart);
    }
  };
  const parts = message.components.flatMap(readPart);
  const embeds = message.embeds.flatMap((embed) => readEmbed(embed, picture));
  // A file that the text above has already shown is not shown again.
  const shown = new Set([
    ...pictures.map(({ url }) => url),
    ...[...everyPart(message.components)].map(({ file }) => file?.url),
  ]);
  const files = message.attachments
    .filter(({ url }) => !shown.has(url))
    .map(({ url, filename, description, content_type }) =>
      content_type?.startsWith('image/') ? picture(url, description) : `[file: ${filename}]`,
    );
  return { blocks: [message.content, ...parts, ...embeds, ...files], pictures };
}

function readEmbed(embed: APIEmbed, picture: (url: string, alt: string | undefined) => string): string[] {
  return [
    embed.author?.name ?? '',
    embed.title ? `**${embed.title}**` : '',
    embed.description ?? '',
    ...(embed.fields ?? []).map(({ name, value }) => `**${name}**\n${value}`),
    embed.image ? picture(embed.image.url, undefined) : '',
    embed.thumbnail ? picture(embed.thumbnail.url, undefined) : '',
    embed.footer?.text ?? '',
  ];
}

const fileName = (url: string) => decodeURIComponent(url.split('/').at(-1) ?? url);
const altOf = (message: WorldMessage, url: string) =>
  message.attachments.find((one) => one.url === url)?.description ?? null;

function seeImage(world: World, message: WorldMessage, { url, alt }: Picture): SeenImage {
  const attachment = message.attachments.find((one) => one.url === url);
  const kept = URL.canParse(url) ? world.messages.file(new URL(url).pathname) : undefined;
  return { name: attachment?.filename ?? fileName(url), alt: alt ?? '', bytes: kept?.data.length ?? 0, url };
}

const seeButton = (part: Part): SeenButton => ({
  label: [part.emoji?.name, part.label].filter(Boolean).join(' '),
  customId: part.custom_id ?? null,
  url: part.url ?? null,
  disabled: part.disabled === true,
  style: part.style ?? 1,
});

const seeSelect = (part: Part): SeenSelect => ({
  placeholder: part.placeholder ?? '',
  customId: part.custom_id ?? '',
  options: (part.options ?? []).map(({ label, value, description }) => ({
    label,
    value,
    description: description ?? null,
  })),
  minValues: part.min_values ?? 1,
  maxValues: part.max_values ?? 1,
});
