// Marks inside a line. Each rule is tried at the present place; what no rule takes is text.

export type Inline =
  | { kind: 'text' | 'code'; text: string }
  | { kind: 'strong' | 'em' | 'under' | 'strike' | 'spoiler'; children: Inline[] }
  | { kind: 'link'; url: string; children: Inline[] }
  | { kind: 'member' | 'role' | 'channel'; id: string }
  | { kind: 'command'; name: string }
  | { kind: 'time'; seconds: number; style: string }
  | { kind: 'break' };

type Rule = { pattern: RegExp; read(match: RegExpExecArray, depth: number): Inline | null };

/** Deeper nesting than any honest message has is left as text. */
const DEEPEST = 12;

const marked = (pattern: RegExp, kind: 'strong' | 'em' | 'under' | 'strike' | 'spoiler'): Rule => ({
  pattern,
  read: (match, depth) => ({ kind, children: parseInline(match[1] ?? '', depth + 1) }),
});
const text = (value: string): Inline => ({ kind: 'text', text: value });

const RULES: Rule[] = [
  { pattern: /\\([^A-Za-z0-9\s])/y, read: (match) => text(match[1] ?? '') },
  { pattern: /\n/y, read: () => ({ kind: 'break' }) },
  {
    pattern: /(`+)([^`]|[^`][\s\S]*?[^`])\1(?!`)/y,
    read: (match) => ({ kind: 'code', text: (match[2] ?? '').trim() }),
  },
  marked(/\|\|([\s\S]+?)\|\|/y, 'spoiler'),
  marked(/\*\*((?:\\.|[^\\])+?)\*\*(?!\*)/sy, 'strong'),
  marked(/__((?:\\.|[^\\])+?)__(?!_)/sy, 'under'),
  marked(/~~((?:\\.|[^\\])+?)~~/sy, 'strike'),
  marked(/\*(?=[^\s*])((?:\\.|\*\*|[^\\*])+?)\*(?!\*)/sy, 'em'),
  marked(/_((?:\\.|__|[^\\_])+?)_(?![A-Za-z0-9_])/sy, 'em'),
  {
    pattern: /\[((?:\\.|[^[\]\\]|\[[^[\]]*\])+)\]\(<?(https?:\/\/[^\s<>]+?)>?(?: +"[^"]*")?\)/y,
    read: (match, depth) => ({ kind: 'link', url: match[2] ?? '', children: parseInline(match[1] ?? '', depth + 1) }),
  },
  { pattern: /<(https?:\/\/[^\s<>]+)>/y, read: (match) => plainLink(match[1] ?? '') },
  { pattern: /https?:\/\/[^\s<>]*[^\s<>.,:;!?"')\]*_|~]/y, read: (match) => plainLink(match[0]) },
  { pattern: /<@!?(\d{1,20})>/y, read: (match) => ({ kind: 'member', id: match[1] ?? '' }) },
  { pattern: /<@&(\d{1,20})>/y, read: (match) => ({ kind: 'role', id: match[1] ?? '' }) },
  { pattern: /<#(\d{1,20})>/y, read: (match) => ({ kind: 'channel', id: match[1] ?? '' }) },
  { pattern: /<\/([^:<>]{1,100}):\d{1,20}>/y, read: (match) => ({ kind: 'command', name: match[1] ?? '' }) },
  {
    pattern: /<t:(-?\d{1,13})(?::([tTdDfFRsS]))?>/y,
    read: (match) => ({ kind: 'time', seconds: Number(match[1]), style: match[2] ?? 'f' }),
  },
  { pattern: /<a?(:\w{2,32}:)\d{1,20}>/y, read: (match) => text(match[1] ?? '') },
];

const plainLink = (url: string): Inline => ({ kind: 'link', url, children: [text(url)] });

/** Reads the marks of a stretch of text. */
export function parseInline(source: string, depth = 0): Inline[] {
  const nodes: Inline[] = [];
  const add = (node: Inline) => {
    const last = nodes.at(-1);
    if (node.kind === 'text' && last?.kind === 'text') last.text += node.text;
    else nodes.push(node);
  };
  if (depth > DEEPEST) return [text(source)];
  let at = 0;
  while (at < source.length) {
    const [node, length] = readAt(source, at, depth);
    add(node);
    at += length;
  }
  return nodes;
}

function readAt(source: string, at: number, depth: number): [Inline, number] {
  const before = source[at - 1] ?? '';
  for (const rule of RULES) {
    rule.pattern.lastIndex = at;
    const match = rule.pattern.exec(source);
    // An underscore inside a word, as in file_name_here, is no mark.
    if (!match || (match[0].startsWith('_') && !match[0].startsWith('__') && /[A-Za-z0-9]/.test(before))) continue;
    const node = rule.read(match, depth);
    if (node) return [node, match[0].length];
  }
  const plain = /[A-Za-z0-9 ]+/y;
  plain.lastIndex = at;
  // Words are taken whole, so that long texts stay quick; a link may begin at a word, so `http` stops it.
  const words = plain.exec(source)?.[0];
  const link = words?.search(/https?$/) ?? -1;
  const length = words === undefined ? 1 : link > 0 ? link : Math.max(1, words.length);
  return [text(source.slice(at, at + length)), length];
}
