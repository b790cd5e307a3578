import type { APIEmbed } from 'discord-api-types/v10';
import { buttonProblems, selectProblems } from './contract-parts.ts';
import type { Problem } from './form-refusal.ts';
import { COMPONENTS_V2, everyPart } from './message-body.ts';
import type { MessageBody, Part, SentFile } from './message-body.ts';
import type { WorldMessage } from './world-shapes.ts';

// Rules for messages that Discord's description cannot express, or states more loosely than Discord's documents.

const CONTENT_MAX = 2000;
const TEXT_TOTAL_MAX = 4000;
const PARTS_MAX = 40;
const ROWS_MAX = 5;
const EMBEDS_MAX = 6000;
const ALT_MAX = 1024;

export type MessageContext = { files: ReadonlyMap<string, SentFile>; existing: WorldMessage | undefined };

/** Whether nothing would be left to see. */
export function isEmpty(body: MessageBody, { files, existing }: MessageContext): boolean {
  const content = body.content === undefined ? existing?.content : body.content;
  const embeds = body.embeds === undefined ? existing?.embeds : body.embeds;
  const components = body.components === undefined ? existing?.components : body.components;
  const attached = (body.attachments === undefined ? existing?.attachments : body.attachments)?.length ?? 0;
  return (
    !content?.trim() &&
    !embeds?.length &&
    !components?.length &&
    !attached &&
    !files.size &&
    !body.poll &&
    !body.sticker_ids?.length
  );
}

export function messageProblems(body: MessageBody, context: MessageContext): Problem[] {
  const parts = [...everyPart(body.components ?? [])];
  const flags = (body.flags ?? 0) | (context.existing?.flags ?? 0);
  return [
    ...((body.content?.length ?? 0) > CONTENT_MAX ? [at('content', `must be ${CONTENT_MAX} characters or fewer`)] : []),
    ...(flags & COMPONENTS_V2 ? newKindProblems(body, parts) : oldKindProblems(body)),
    ...customIdProblems(parts),
    ...(body.components ?? []).flatMap((part, n) => partProblems(part, ['components', n])),
    ...fileProblems(body, parts, context),
    ...embedProblems(body.embeds ?? []),
    ...mentionProblems(body),
  ];
}

function newKindProblems(body: MessageBody, parts: Part[]): Problem[] {
  const text = parts.reduce((sum, part) => sum + (part.type === 10 ? (part.content?.length ?? 0) : 0), 0);
  const off = (['content', 'embeds', 'poll', 'sticker_ids'] as const).filter((key) => {
    const value = body[key];
    return Array.isArray(value) ? value.length > 0 : Boolean(value);
  });
  return [
    ...off.map((key) => at(key, 'cannot be used together with the IsComponentsV2 flag')),
    ...(parts.length > PARTS_MAX
      ? [at('components', `has ${parts.length} components in all; ${PARTS_MAX} are allowed`)]
      : []),
    ...(text > TEXT_TOTAL_MAX
      ? [at('components', `has ${text} characters of text in all; ${TEXT_TOTAL_MAX} are allowed`)]
      : []),
  ];
}

function oldKindProblems(body: MessageBody): Problem[] {
  const components = body.components ?? [];
  const strange = components.flatMap((part, n) =>
    part.type === 1
      ? []
      : [{ path: ['components', n, 'type'], message: `component type ${part.type} needs the IsComponentsV2 flag` }],
  );
  return components.length > ROWS_MAX ? [...strange, at('components', `must be ${ROWS_MAX} rows or fewer`)] : strange;
}

function customIdProblems(parts: Part[]): Problem[] {
  const ids = parts.flatMap(({ custom_id }) => custom_id ?? []);
  const twice = new Set(ids.filter((id, n) => ids.indexOf(id) !== n));
  return [...twice].map((id) => at('components', `custom_id "${id}" is there more than once`));
}

function partProblems(part: Part, path: PropertyKey[]): Problem[] {
  const own =
    part.type === 2
      ? buttonProblems(part, path)
      : part.type === 1
        ? rowProblems(part, path)
        : selectProblems(part, path);
  return [
    ...own,
    ...(part.components ?? []).flatMap((inner, n) => partProblems(inner, [...path, 'components', n])),
    ...(part.accessory ? partProblems(part.accessory, [...path, 'accessory']) : []),
    ...(part.items ?? []).flatMap(({ description }, n) =>
      altProblems(description, [...path, 'items', n, 'description']),
    ),
    ...(part.type === 11 ? altProblems(part.description, [...path, 'description']) : []),
  ];
}

function rowProblems(row: Part, path: PropertyKey[]): Problem[] {
  const inside = row.components ?? [];
  const buttons = inside.filter(({ type }) => type === 2).length;
  const mixed = buttons < inside.length && inside.length > 1;
  return mixed ? [{ path: [...path, 'components'], message: 'a select takes a whole row' }] : [];
}

const altProblems = (alt: string | null | undefined, path: PropertyKey[]): Problem[] =>
  (alt?.length ?? 0) > ALT_MAX ? [{ path, message: `must be ${ALT_MAX} characters or fewer` }] : [];

function fileProblems(body: MessageBody, parts: Part[], { files, existing }: MessageContext): Problem[] {
  const listed = body.attachments ?? [];
  const kept = (existing?.attachments ?? []).filter(
    ({ id }) => !body.attachments || listed.some((one) => one.id === id),
  );
  const sent = [...files].map(([n, { name }]) => listed.find(({ id }) => id === n)?.filename ?? name);
  const names = new Set([...sent, ...kept.map(({ filename }) => filename)]);
  const urls = [
    ...parts.flatMap((part) => [part.media?.url, part.file?.url, ...(part.items ?? []).map(({ media }) => media.url)]),
    ...(body.embeds ?? []).flatMap((embed) => [embed.image?.url, embed.thumbnail?.url]),
  ];
  const missing = urls.filter(
    (url) => url?.startsWith('attachment://') && !names.has(url.slice('attachment://'.length)),
  );
  const unknown = listed.filter(({ id }) => !files.has(id) && !kept.some((one) => one.id === id));
  return [
    ...missing.map((url) => at('attachments', `${url} points at no file that is attached`)),
    ...unknown.map(({ id }) => at('attachments', `attachment ${id} has no file`)),
    ...listed.flatMap(({ description }, n) => altProblems(description, ['attachments', n, 'description'])),
  ];
}

function embedProblems(embeds: APIEmbed[]): Problem[] {
  const size = (embed: APIEmbed) =>
    [embed.title, embed.description, embed.footer?.text, embed.author?.name].reduce(
      (sum, text) => sum + (text?.length ?? 0),
      0,
    ) + (embed.fields ?? []).reduce((sum, { name, value }) => sum + name.length + value.length, 0);
  const total = embeds.reduce((sum, embed) => sum + size(embed), 0);
  return total > EMBEDS_MAX ? [at('embeds', `have ${total} characters in all; ${EMBEDS_MAX} are allowed`)] : [];
}

function mentionProblems({ allowed_mentions: allowed }: MessageBody): Problem[] {
  const clashing = (['users', 'roles'] as const).filter(
    (kind) => allowed?.parse?.includes(kind) && allowed[kind]?.length,
  );
  return clashing.map((kind) => at('allowed_mentions', `parse and ${kind} exclude each other`));
}

const at = (key: string, message: string): Problem => ({ path: [key], message });
