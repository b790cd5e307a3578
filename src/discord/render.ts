import {
  ButtonStyle,
  ComponentType,
  MessageFlags,
  type APIButtonComponentWithCustomId,
  type APIComponentInContainer,
  type APIMessageTopLevelComponent,
  type APIStringSelectComponent,
} from 'discord.js';
import { writeCustomId } from './custom-id.ts';
import type { Block, ButtonView, MessageView } from './message-view.ts';

/** Discord's limits on one message with Components V2. */
const MOST_TEXT = 4000;
const MOST_COMPONENTS = 40;
const MOST_BUTTONS_IN_A_ROW = 5;
const MOST_BUTTON_LABEL = 80;
const MOST_ALT_TEXT = 1024;
const MOST_PLACEHOLDER = 150;
const MOST_OPTIONS = 25;
const MOST_OPTION = 100;

const ACCENTS: Record<MessageView['tone'], number> = {
  plain: 0x7a8a8f,
  calm: 0x3f7f6b,
  watch: 0xb08a2e,
  remove: 0xb5602a,
  urgent: 0xa8323a,
};

const STYLES = { primary: ButtonStyle.Primary, secondary: ButtonStyle.Secondary, danger: ButtonStyle.Danger } as const;

/** A message as discord.js sends it, with nobody to be pinged but the one whom it calls. */
export type RenderedMessage = {
  flags: number;
  components: APIMessageTopLevelComponent[];
  allowedMentions: { parse: []; users?: string[]; repliedUser: false };
  files: { attachment: Buffer; name: string; description: string }[];
};

/**
 * The one place where a view becomes Discord's components. Every limit is kept here, before anything is sent:
 * text is folded from the least important block, surplus buttons are left out, labels are cut.
 */
export function render(view: MessageView): RenderedMessage {
  const known = rendered.get(view);
  if (known) return known;
  const message = renderAnew(view);
  rendered.set(view, message);
  return message;
}

/** Views are never changed once made, and the cards of common animals are asked for again and again. */
const rendered = new WeakMap<MessageView, RenderedMessage>();

function renderAnew(view: MessageView): RenderedMessage {
  const blocks = fitComponents(fitText(view));
  const private_ = view.audience === 'member' ? MessageFlags.Ephemeral : 0;
  return {
    flags: MessageFlags.IsComponentsV2 | private_,
    components: [
      { type: ComponentType.Container, accent_color: ACCENTS[view.tone], components: blocks.flatMap(componentsOf) },
    ],
    allowedMentions: { parse: [], ...(view.calls ? { users: [view.calls] } : {}), repliedUser: false },
    files: blocks.flatMap(filesOf),
  };
}

function componentsOf(block: Block): APIComponentInContainer[] {
  switch (block.kind) {
    case 'text':
      return [{ type: ComponentType.TextDisplay, content: block.text.markdown.trim() }];
    case 'picture':
      return block.painted
        ? [
            {
              type: ComponentType.MediaGallery,
              items: [
                { media: { url: `attachment://${block.name}` }, description: cut(block.painted.alt, MOST_ALT_TEXT) },
              ],
            },
          ]
        : [];
    case 'rule':
      return [{ type: ComponentType.Separator, divider: true, spacing: 1 }];
    case 'photo':
      return [
        {
          type: ComponentType.MediaGallery,
          items: [{ media: { url: `attachment://${block.name}` }, description: cut(block.alt, MOST_ALT_TEXT) }],
        },
      ];
    case 'file':
      return [{ type: ComponentType.File, file: { url: `attachment://${block.name}` } }];
    case 'buttons':
      return rowsOf(block.buttons).map((row) => ({ type: ComponentType.ActionRow, components: row.map(buttonOf) }));
    case 'select':
      return [{ type: ComponentType.ActionRow, components: [selectOf(block)] }];
  }
}

/** The files that go out with a message. */
function filesOf(block: Block): RenderedMessage['files'] {
  if (block.kind === 'picture' && block.painted)
    return [{ attachment: block.painted.png, name: block.name, description: cut(block.painted.alt, MOST_ALT_TEXT) }];
  if (block.kind === 'photo' && block.bytes)
    return [{ attachment: block.bytes, name: block.name, description: cut(block.alt, MOST_ALT_TEXT) }];
  if (block.kind === 'file')
    return [{ attachment: Buffer.from(block.content), name: block.name, description: block.name }];
  return [];
}

function selectOf({ act, args, placeholder, options }: Extract<Block, { kind: 'select' }>): APIStringSelectComponent {
  return {
    type: ComponentType.StringSelect,
    custom_id: writeCustomId(act, args),
    placeholder: cut(placeholder, MOST_PLACEHOLDER),
    options: options.slice(0, MOST_OPTIONS).map(({ label, value, description }) => ({
      label: cut(label, MOST_OPTION),
      value,
      ...(description ? { description: cut(description, MOST_OPTION) } : {}),
    })),
  };
}

function buttonOf({ label, act, args, style = 'secondary' }: ButtonView): APIButtonComponentWithCustomId {
  return {
    type: ComponentType.Button,
    style: STYLES[style],
    label: cut(label, MOST_BUTTON_LABEL),
    custom_id: writeCustomId(act, args),
  };
}

/** A custom id may stand only once in a message: later buttons with the same act and words are left out. */
function firstOnly(buttons: readonly ButtonView[], seen: Set<string>): ButtonView[] {
  return buttons.filter(({ act, args }) => {
    const id = writeCustomId(act, args);
    const isFirst = !seen.has(id);
    seen.add(id);
    return isFirst;
  });
}

function rowsOf(buttons: readonly ButtonView[]): ButtonView[][] {
  const rows: ButtonView[][] = [];
  for (let at = 0; at < buttons.length; at += MOST_BUTTONS_IN_A_ROW)
    rows.push(buttons.slice(at, at + MOST_BUTTONS_IN_A_ROW));
  return rows;
}

/** Leaves out foldable blocks, the highest number first, until the text fits; cuts the longest block as a last resort. */
function fitText(view: MessageView): Block[] {
  let blocks = view.blocks.filter((block) => block.kind !== 'text' || block.text.markdown.trim() !== '');
  let folded = false;
  const notice: Block[] = view.foldedNotice ? [{ kind: 'text', text: view.foldedNotice }] : [];
  const withNotice = () => (folded ? insertNotice(blocks, notice) : blocks);
  while (textOf(withNotice()) > MOST_TEXT) {
    const most = Math.max(0, ...blocks.map((block) => (block.kind === 'text' ? (block.fold ?? 0) : 0)));
    if (most === 0) return cutLongest(withNotice());
    const last = blocks.findLastIndex((block) => block.kind === 'text' && block.fold === most);
    blocks = blocks.toSpliced(last, 1);
    folded = true;
  }
  return withNotice();
}

/** The notice stands before the last line, which names the entry. */
function insertNotice(blocks: Block[], notice: Block[]): Block[] {
  const at = blocks.findLastIndex(({ kind }) => kind === 'text');
  return at < 0 ? [...blocks, ...notice] : blocks.toSpliced(at, 0, ...notice);
}

const textOf = (blocks: readonly Block[]) =>
  blocks.reduce((sum, block) => sum + (block.kind === 'text' ? block.text.markdown.length : 0), 0);

/** Shortens the longest text, then the next, until all of it fits. */
function cutLongest(blocks: Block[]): Block[] {
  const over = textOf(blocks) - MOST_TEXT;
  if (over <= 0) return blocks;
  const lengths = blocks.map((block) => (block.kind === 'text' ? block.text.markdown.length : 0));
  const longest = lengths.indexOf(Math.max(...lengths));
  const shortened = blocks.map((block, at) =>
    at === longest && block.kind === 'text'
      ? { ...block, text: { markdown: cut(block.text.markdown, Math.max(1, (lengths[longest] ?? 0) - over)) } }
      : block,
  );
  return cutLongest(shortened);
}

/** A container, each text, rule, row and button counts as one of 40. */
function fitComponents(blocks: Block[]): Block[] {
  let left = MOST_COMPONENTS - 1;
  const seen = new Set<string>();
  return blocks.flatMap((block): Block[] => {
    // A select takes a row of its own.
    const takes = block.kind === 'select' ? 2 : 1;
    if (block.kind !== 'buttons') {
      if (left < takes) return [];
      left -= takes;
      return [block];
    }
    const kept: ButtonView[] = [];
    for (const row of rowsOf(firstOnly(block.buttons, seen))) {
      const room = Math.min(row.length, left - 1);
      if (room <= 0) break;
      kept.push(...row.slice(0, room));
      left -= room + 1;
    }
    return kept.length > 0 ? [{ ...block, buttons: kept }] : [];
  });
}

function cut(text: string, most: number): string {
  if (text.length <= most) return text;
  return `${text.slice(0, most - 1).replace(/[\ud800-\udbff]$|\\+$/, '')}…`;
}
