// What a reply says, as plain data. Views build it, render.ts turns it into Discord's components.

/** Text in Discord's markdown whose every foreign part has been escaped. Only `md` and `raw` make it. */
export type Markdown = { readonly markdown: string };

/**
 * Markdown with values put in: strings are escaped, numbers and other Markdown go in as they are.
 *
 * @example md`**${critter.name}** — ${advice}`
 */
export function md(parts: TemplateStringsArray, ...values: (string | number | Markdown)[]): Markdown {
  const out = parts.reduce((text, part, at) => {
    const value = values[at - 1];
    const shown =
      typeof value === 'object' ? value.markdown : typeof value === 'string' ? escapeText(value) : String(value);
    return text + shown + part;
  });
  return { markdown: out };
}

/** Joins pieces of Markdown. */
export function joined(pieces: readonly Markdown[], between = '\n'): Markdown {
  return { markdown: pieces.map(({ markdown }) => markdown).join(between) };
}

/**
 * Text from outside as Discord shows it to the letter: no formatting, link, list, quote or mention comes alive.
 *
 * Discord reads a backslash before any punctuation as that punctuation. Lone surrogates become U+FFFD, and
 * characters that turn the reading direction are dropped, since they can make a text read as another.
 */
export function escapeText(text: string): string {
  return (
    text
      .toWellFormed()
      // Control characters but tab and line break: nobody can see them.
      .replace(/[\u0000-\u0008\u000b-\u001f\u007f]/g, '')
      .replace(/[\u202a-\u202e\u2066-\u2069\u200e\u200f\u061c]/gu, '')
      .replace(/[\\*_~`|<>[\]#]/g, '\\$&')
      .replace(/^(\s*)([-+])/gm, '$1\\$2')
      .replace(/^(\s*\d+)\./gm, '$1\\.')
      .replace(/:(?=\/\/)/g, '\\:')
      .replace(/:(?=[\w~+-]+:)/g, '\\:')
      .replace(/@/g, '@\u200b')
  );
}

export type ButtonView = {
  label: string;
  /** The act that `dispatch` finds by this name. */
  act: string;
  /** Plain words without a colon; they travel in the custom id, so the button outlives a restart. */
  args: readonly string[];
  style?: 'primary' | 'secondary' | 'danger';
};

export type Block =
  | {
      kind: 'text';
      text: Markdown;
      /** When a message would be too long, blocks with the highest number are left out first; 0 or absent: never. */
      fold?: number;
    }
  | { kind: 'rule' }
  /** A picture, painted when the message is sent. Its alt text says the same in words. */
  | {
      kind: 'picture';
      name: string;
      alt: string;
      svg: string;
      width: number;
      /** Filled in when it has been painted. */ png?: Buffer;
    }
  | { kind: 'buttons'; buttons: readonly ButtonView[] };

export type MessageView = {
  /** `member`: only the one who asked sees it. */
  audience: 'member' | 'everyone';
  /** Colours the edge of the card. The words always say the same. */
  tone: 'plain' | 'calm' | 'watch' | 'remove' | 'urgent';
  blocks: readonly Block[];
  /** Takes the place of the message whose button was pressed. */
  replaces?: true;
  /** Shown instead of the blocks that were left out because the message would be too long. */
  foldedNotice?: Markdown;
};

/** A choice offered while an option is typed. */
export type Choice = { name: string; value: string };

/** Who asked, where and when. */
export type Request = {
  memberId: string;
  memberName: string;
  guildId: string | null;
  channelId: string | null;
  locale: string;
  now: Date;
};
