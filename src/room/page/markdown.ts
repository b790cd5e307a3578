import { parseInline, type Inline } from './markdown-inline.ts';

// Discord's Markdown subset, block by block. The result is plain data; drawing it never touches HTML text.

export type Block =
  | { kind: 'paragraph'; children: Inline[] }
  | { kind: 'heading'; level: number; children: Inline[] }
  | { kind: 'small'; children: Inline[] }
  | { kind: 'quote'; blocks: Block[] }
  | { kind: 'list'; ordered: boolean; start: number; items: Block[][] }
  | { kind: 'code'; text: string; language: string };

const FENCE = /```(?:([a-zA-Z0-9+-]+)\n)?([\s\S]+?)```/g;
const ITEM = /^( *)(?:([-*])|(\d{1,9})\.) +(\S.*)$/;

/** Reads a message text into blocks. */
export function parseMarkdown(text: string): Block[] {
  const blocks: Block[] = [];
  let from = 0;
  for (const fence of text.matchAll(FENCE)) {
    blocks.push(...parseLines(text.slice(from, fence.index)));
    blocks.push({ kind: 'code', language: fence[1] ?? '', text: (fence[2] ?? '').replace(/^\n|\n$/g, '') });
    from = fence.index + fence[0].length;
  }
  blocks.push(...parseLines(text.slice(from)));
  return blocks;
}

function parseLines(text: string): Block[] {
  const lines = text.split('\n');
  const blocks: Block[] = [];
  let prose: string[] = [];
  const endProse = () => {
    if (prose.length > 0) blocks.push({ kind: 'paragraph', children: parseInline(prose.join('\n')) });
    prose = [];
  };
  const push = (block: Block) => {
    endProse();
    blocks.push(block);
  };
  for (let at = 0; at < lines.length; at += 1) {
    const line = lines[at] ?? '';
    const heading = /^(#{1,3}) +(\S.*)$/.exec(line);
    const small = /^-# +(\S.*)$/.exec(line);
    if (line.trim() === '') endProse();
    else if (heading) {
      push({ kind: 'heading', level: heading[1]?.length ?? 1, children: parseInline(heading[2] ?? '') });
    } else if (small) push({ kind: 'small', children: parseInline(small[1] ?? '') });
    else if (line.startsWith('>>> ')) {
      push({ kind: 'quote', blocks: parseLines([line.slice(4), ...lines.slice(at + 1)].join('\n')) });
      at = lines.length;
    } else if (line.startsWith('> ')) {
      const end = endOf(lines, at, (next) => next.startsWith('> '));
      const inner = lines.slice(at, end).map((quoted) => quoted.slice(2));
      push({ kind: 'quote', blocks: parseLines(inner.join('\n')) });
      at = end - 1;
    } else if (ITEM.test(line)) {
      const end = endOf(lines, at, (next) => ITEM.test(next) || /^ {2,}\S/.test(next));
      endProse();
      blocks.push(...parseList(lines.slice(at, end)));
      at = end - 1;
    } else prose.push(line);
  }
  endProse();
  return blocks;
}

function endOf(lines: string[], from: number, belongs: (line: string) => boolean): number {
  let end = from + 1;
  while (end < lines.length && belongs(lines[end] ?? '')) end += 1;
  return end;
}

/** Deeper-indented lines belong to the item above them. */
function parseList(lines: string[]): Block[] {
  const lists: Block[] = [];
  for (let at = 0; at < lines.length; at += 1) {
    const item = ITEM.exec(lines[at] ?? '');
    if (!item) continue;
    const indent = item[1]?.length ?? 0;
    const end = endOf(lines, at, (next) => /^ */.exec(next)![0].length > indent);
    const inside = lines.slice(at + 1, end).map((line) => line.slice(indent + 2));
    const content: Block[] = [
      { kind: 'paragraph', children: parseInline(item[4] ?? '') },
      ...parseLines(inside.join('\n')),
    ];
    const ordered = item[3] !== undefined;
    const last = lists.at(-1);
    if (last?.kind === 'list' && last.ordered === ordered) last.items.push(content);
    else lists.push({ kind: 'list', ordered, start: Number(item[3] ?? 1), items: [content] });
    at = end - 1;
  }
  return lists;
}
