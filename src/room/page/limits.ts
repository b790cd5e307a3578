import type { EmbedPart } from './parts.ts';

// How much of Discord's room a message uses. The numbers are Discord's limits.

export type LimitLine = { name: string; used: number; most: number };
type AnyPart = { type?: number; content?: string; components?: AnyPart[]; accessory?: AnyPart };

const countParts = (parts: AnyPart[]): number =>
  parts.reduce((sum, part) => sum + 1 + countParts(part.components ?? []) + (part.accessory ? 1 : 0), 0);
const countText = (parts: AnyPart[]): number =>
  parts.reduce((sum, part) => sum + (part.content?.length ?? 0) + countText(part.components ?? []), 0);
const embedText = ({ title, description, fields, footer, author }: EmbedPart): number =>
  [title, description, footer?.text, author?.name, ...(fields ?? []).flatMap(({ name, value }) => [name, value])].join(
    '',
  ).length;

/** The limits that matter for a message, with what it uses of them. */
export function limitsUsed(message: { content: string; components: unknown[]; embeds: unknown[] }): LimitLine[] {
  const parts = message.components as AnyPart[];
  const embeds = message.embeds as EmbedPart[];
  const lines: LimitLine[] = [];
  if (parts.length > 0) lines.push({ name: 'Components', used: countParts(parts), most: 40 });
  if (countText(parts) > 0) lines.push({ name: 'Text in components', used: countText(parts), most: 4000 });
  if (message.content !== '') lines.push({ name: 'Text', used: message.content.length, most: 2000 });
  if (embeds.length > 0) lines.push({ name: 'Embeds', used: embeds.length, most: 10 });
  if (embeds.length > 0)
    lines.push({ name: 'Text in embeds', used: embeds.reduce((sum, one) => sum + embedText(one), 0), most: 6000 });
  return lines;
}
