import { z } from 'zod';
import { readBody } from './exchange.ts';
import type { LiveInteraction, OpenModal } from './interactions.ts';
import { everyPart, Part } from './message-body.ts';
import type { SeenModal } from './room.ts';

const Modal = z.object({ custom_id: z.string(), title: z.string(), components: z.array(Part) });

const KINDS: Record<number, string> = {
  3: 'select',
  4: 'text',
  5: 'member',
  6: 'role',
  7: 'mentionable',
  8: 'channel',
  19: 'file',
  21: 'radio',
  22: 'checkboxes',
  23: 'checkbox',
};

/** A field of a modal with the label that stands over it. */
export type Field = { part: Part; label: string; description: string | null };

/** The fields of a modal, in order. */
export function fieldsOf(parts: Part[]): Field[] {
  return parts.flatMap((top) => {
    if (top.type === 18 && top.component) {
      return [{ part: top.component, label: top.label ?? '', description: top.description ?? null }];
    }
    return (top.components ?? []).map((part) => ({ part, label: part.label ?? '', description: null }));
  });
}

export const fieldKind = (part: Part): string =>
  part.type === 4 && part.style === 2 ? 'paragraph' : (KINDS[part.type] ?? 'text');

/** A modal as it opens for the member whose act asked for it. */
export function openModalFrom(data: unknown, live: LiveInteraction): OpenModal {
  const { custom_id, title, components } = readBody(Modal, data);
  let next = 1;
  for (const part of everyPart(components)) part.id ??= next++;
  const seen: SeenModal = {
    title,
    customId: custom_id,
    inputs: fieldsOf(components).map(({ part, label, description }) => ({
      label,
      description,
      customId: part.custom_id ?? '',
      kind: fieldKind(part),
      required: part.required ?? part.type !== 23,
      options: (part.options ?? []).map((option) => option.label),
    })),
  };
  return { customId: custom_id, title, parts: components, seen, channelId: live.channelId, messageId: live.sourceId };
}
