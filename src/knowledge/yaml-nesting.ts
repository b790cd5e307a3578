import { Lexer, Parser } from 'yaml';

/** What the parser's stack holds besides the nesting: the document and the scalar being read. */
const ALWAYS_THERE = 3;

/** Tokens that the reader puts in by itself: document, end of a flow collection, scalar. They are not in the text. */
const MARKS: ReadonlySet<string> = new Set(['\u0002', '\u0018', '\u001f']);

/**
 * Where a YAML text nests deeper than `most`, or null.
 *
 * The tokens are followed one by one with the library's own reader, which keeps its place on a stack and not by
 * recursion; it is the step after it, composing, that very deep brackets bring down. Reading ends at the first
 * place that is too deep, so a hostile text costs no more than it takes to get there.
 */
export function nestingTooDeep(text: string, most: number): { offset: number } | null {
  const parser = new Parser();
  let offset = 0;
  for (const token of new Lexer().lex(text)) {
    for (const part of parser.next(token)) void part;
    if (parser.stack.length > most + ALWAYS_THERE) return { offset };
    if (!MARKS.has(token)) offset += token.length;
  }
  return null;
}
