import { LineCounter, isAlias, isCollection, isMap, isNode, parseDocument, visit, type Document, type Node } from 'yaml';
import { nestingTooDeep } from './yaml-nesting.ts';

const MOST_BYTES = 256 * 1024;
const MOST_NESTING = 32;

/** A complaint about a file: where, and what came against what was expected. */
export type Problem = { file: string; line: number; column: number; message: string };

export type Place = { line: number; column: number };
export type ParsedYaml =
  | {
      ok: true;
      value: unknown;
      /** Where the value at a path stands. */ placeOf: (path: readonly PropertyKey[]) => Place;
    }
  | { ok: false; problems: Problem[] };

/**
 * Reads one YAML document from untrusted text.
 *
 * Size and nesting are looked at before the parser sees the text, because very deep brackets can bring down
 * the whole process, not only the parse. Aliases, custom tags and duplicate keys are refused: an entry has
 * no use for them, and an alias can unfold without end.
 */
export function parseYaml(file: string, text: string): ParsedYaml {
  const refuse = (message: string, place: Place = { line: 1, column: 1 }): ParsedYaml => ({
    ok: false,
    problems: [{ file, ...place, message }],
  });
  const bytes = Buffer.byteLength(text);
  if (bytes > MOST_BYTES) return refuse(`came ${bytes} bytes, expected at most ${MOST_BYTES}; split the file`);
  const deep = nestingTooDeep(text, MOST_NESTING);
  if (deep)
    return refuse(
      `came nesting deeper than ${MOST_NESTING}, expected a flat entry; close or remove the brackets`,
      placeInText(text, deep.offset),
    );

  const lines = new LineCounter();
  const document = parseDocument(text, {
    lineCounter: lines,
    uniqueKeys: true,
    strict: true,
    prettyErrors: false,
    logLevel: 'error',
  });
  const place = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const faults = [...document.errors, ...document.warnings];
  if (faults.length > 0) {
    return {
      ok: false,
      problems: faults.slice(0, 5).map((fault) => ({ file, ...place(fault.pos[0]), message: inWords(fault) })),
    };
  }
  const alias = firstAlias(document);
  if (alias)
    return refuse('came an alias (*name), expected the value itself; write it out', place(alias.range?.[0] ?? 0));
  const keyed = firstKeyThatIsNoWord(document);
  if (keyed)
    return refuse('came a key that is itself a list or a map, expected a word; write "key: value"', place(keyed.range?.[0] ?? 0));
  return { ok: true, value: document.toJS({ maxAliasCount: 0 }), placeOf: (path) => place(offsetOf(document, path)) };
}

function placeInText(text: string, offset: number): Place {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
}

function firstAlias(document: Document): Node | undefined {
  let found: Node | undefined;
  visit(document, {
    Alias(_key, node) {
      found = node;
      return visit.BREAK;
    },
  });
  return found && isAlias(found) ? found : undefined;
}

/** Such a key cannot become a name of a property, and turning it into words may fail. */
function firstKeyThatIsNoWord(document: Document): Node | undefined {
  let found: Node | undefined;
  visit(document, {
    Pair(_key, { key }) {
      if (!isCollection(key)) return undefined;
      found = key;
      return visit.BREAK;
    },
  });
  return found;
}

/** The offset of the value at `path`, or of the nearest parent that exists. */
function offsetOf(document: Document, path: readonly PropertyKey[]): number {
  for (let length = path.length; length >= 0; length -= 1) {
    const head = path.slice(0, length);
    const parent: unknown = length > 0 ? document.getIn(head.slice(0, -1), true) : undefined;
    const last = head.at(-1);
    if (isMap(parent)) {
      const pair = parent.items.find(({ key }) => String(isNode(key) ? key.toJSON() : key) === String(last));
      if (pair && isNode(pair.key)) return pair.key.range?.[0] ?? 0;
    }
    const node: unknown = document.getIn(head, true);
    if (isNode(node) && node.range) return node.range[0];
  }
  return 0;
}

function inWords({ code, message }: { code: string; message: string }): string {
  const first = message.split('\n')[0] ?? message;
  switch (code) {
    case 'DUPLICATE_KEY':
      return 'came a key twice, expected each key once; remove one of them';
    case 'TAB_AS_INDENT':
      return 'came a tab, expected spaces; indent with two spaces';
    case 'TAG_RESOLVE_FAILED':
      return `came a tag (${first}), expected plain text, numbers and lists; remove the tag`;
    default:
      return `came text that is not YAML (${first}), expected "key: value" lines; put text with ": " or "#" in quotes`;
  }
}
