/** What Discord shows of escaped text, and what of it could still be read as markdown. Written from Discord's rules. */
export type Reading = {
  /** Backslashes before punctuation taken away. */
  shown: string;
  /** The same text with every escaped sign blanked out: what is left may come alive. */
  live: string;
};

const BLANK = '\u0001';

/** Reads text as Discord does: a backslash before ASCII punctuation stands for that punctuation. */
export function readMarkdown(markdown: string): Reading {
  let shown = '';
  let live = '';
  for (let at = 0; at < markdown.length; at += 1) {
    const char = markdown.charAt(at);
    const next = markdown.charAt(at + 1);
    if (char === '\\' && /^[!-/:-@[-`{-~]$/.test(next)) {
      shown += next;
      live += BLANK;
      at += 1;
    } else {
      shown += char;
      live += char;
    }
  }
  return { shown, live };
}

/** Everything in a text that Discord would act upon. */
export function liveMarkdown(markdown: string): string[] {
  const { live } = readMarkdown(markdown);
  const signs = live.match(/[*_~`|<>[\]#]/g) ?? [];
  const lines = live.split(/[\n\r\u2028\u2029]/);
  return [
    ...signs,
    ...lines.filter((line) => /^\s*[-+]/.test(line)).map((line) => `list: ${line}`),
    ...lines.filter((line) => /^\s*\d+\./.test(line)).map((line) => `numbers: ${line}`),
    ...(live.match(/:\/\//g) ?? []),
    ...(live.match(/:[\w~+-]+:/g) ?? []),
    ...(live.match(/@(?!\u200b)/g) ?? []),
  ];
}
