/**
 * Finds where a YAML text nests deeper than `most`, without parsing it: open brackets outside quotes, levels of
 * indentation, and `- - -` or `? ? ?` chains on one line. One pass, constant work per character.
 *
 * It may over-count brackets inside plain text, never under-count; with a limit of 32 no real entry comes near.
 */
export function nestingTooDeep(text: string, most: number): { line: number; column: number } | null {
  let brackets = 0;
  let quote: '"' | "'" | null = null;
  let line = 1;
  let column = 0;
  let chain = 0;
  let atStart = true;
  let indent = 0;
  const indents: number[] = [];
  let previous = '\n';

  for (let at = 0; at < text.length; at += 1) {
    const char = text[at] ?? '';
    column += 1;
    if (char === '\n') {
      line += 1;
      column = 0;
      chain = 0;
      indent = 0;
      atStart = true;
      previous = char;
      continue;
    }
    if (atStart && char === ' ') {
      indent += 1;
      continue;
    }
    if (atStart && (char === '-' || char === '?') && (text[at + 1] === ' ' || text[at + 1] === '\n')) {
      chain += 1;
      indent += 1;
      if (chain > most) return { line, column };
      continue;
    }
    if (atStart) {
      atStart = false;
      if (!quote && brackets === 0) {
        while (indents.length > 0 && (indents.at(-1) ?? 0) >= indent) indents.pop();
        if (indent > 0) indents.push(indent);
        if (indents.length > most) return { line, column };
      }
    }
    if (quote) {
      if (char === '\\' && quote === '"') at += 1;
      else if (char === quote) quote = null;
    } else if ((char === '"' || char === "'") && /[\s[{,:\-]/.test(previous)) {
      quote = char;
    } else if (char === '[' || char === '{') {
      brackets += 1;
      if (brackets > most) return { line, column };
    } else if (char === ']' || char === '}') {
      brackets = Math.max(0, brackets - 1);
    }
    previous = char;
  }
  return null;
}
