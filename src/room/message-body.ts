import type { APIEmbed } from 'discord-api-types/v10';
import { z } from 'zod';

// What the room reads of a message that the bot sends. The deep check is the contract's; this one gives types.

/** Any component of a message or a modal, with the fields that the room itself looks at. */
export type Part = {
  type: number;
  id?: number | null | undefined;
  custom_id?: string | null | undefined;
  label?: string | null | undefined;
  description?: string | null | undefined;
  style?: number | null | undefined;
  url?: string | null | undefined;
  disabled?: boolean | null | undefined;
  placeholder?: string | null | undefined;
  min_values?: number | null | undefined;
  max_values?: number | null | undefined;
  min_length?: number | null | undefined;
  max_length?: number | null | undefined;
  required?: boolean | null | undefined;
  value?: string | null | undefined;
  content?: string | null | undefined;
  emoji?: { name?: string | null | undefined } | null | undefined;
  options?: PartOption[] | null | undefined;
  items?: PartMedia[] | null | undefined;
  media?: { url: string } | null | undefined;
  file?: { url: string } | null | undefined;
  components?: Part[] | null | undefined;
  component?: Part | null | undefined;
  accessory?: Part | null | undefined;
};
export type PartOption = {
  label: string;
  value: string;
  description?: string | null | undefined;
  default?: boolean | null | undefined;
};
export type PartMedia = { media: { url: string }; description?: string | null | undefined };

const text = z.string().nullish();
const count = z.number().nullish();
const flag = z.boolean().nullish();
const media = z.looseObject({ url: z.string() });

export const Part: z.ZodType<Part> = z.lazy(() =>
  z.looseObject({
    type: z.number(),
    id: count,
    custom_id: text,
    label: text,
    description: text,
    style: count,
    url: text,
    disabled: flag,
    placeholder: text,
    min_values: count,
    max_values: count,
    min_length: count,
    max_length: count,
    required: flag,
    value: text,
    content: text,
    emoji: z.looseObject({ name: text }).nullish(),
    options: z
      .array(z.looseObject({ label: z.string(), value: z.string(), description: text, default: flag }))
      .nullish(),
    items: z.array(z.looseObject({ media, description: text })).nullish(),
    media: media.nullish(),
    file: media.nullish(),
    components: z.array(Part).nullish(),
    component: Part.nullish(),
    accessory: Part.nullish(),
  }),
);

const embed = z.custom<APIEmbed>((value) => typeof value === 'object' && value !== null);

export const AllowedMentions = z.object({
  parse: z.array(z.string()).nullish(),
  users: z.array(z.string()).nullish(),
  roles: z.array(z.string()).nullish(),
  replied_user: flag,
});
export type AllowedMentions = z.infer<typeof AllowedMentions>;

export const MessageBody = z.object({
  content: text,
  embeds: z.array(embed).nullish(),
  components: z.array(Part).nullish(),
  flags: count,
  attachments: z.array(z.object({ id: z.coerce.string(), filename: text, description: text })).nullish(),
  allowed_mentions: AllowedMentions.nullish(),
  message_reference: z.object({ message_id: z.string(), fail_if_not_exists: flag }).nullish(),
  nonce: z.union([z.string(), z.number()]).nullish(),
  enforce_nonce: flag,
  poll: z.unknown().optional(),
  sticker_ids: z.array(z.string()).nullish(),
});
export type MessageBody = z.infer<typeof MessageBody>;

/** A file that came with a request. */
export type SentFile = { name: string; type: string; data: Buffer };

/** Every component of a tree, outermost first, in reading order. */
export function* everyPart(parts: readonly Part[]): Generator<Part> {
  for (const part of parts) {
    yield part;
    yield* everyPart([
      ...(part.components ?? []),
      ...[part.component, part.accessory].filter((inner) => inner != null),
    ]);
  }
}

export const EPHEMERAL = 64;
export const LOADING = 128;
export const COMPONENTS_V2 = 32768;
