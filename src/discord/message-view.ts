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

/** A member's name that Discord shows as such; it calls nobody unless the view says so in `calls`. */
export const mentionOf = (memberId: string): Markdown => ({ markdown: `<@${memberId.replace(/\D/g, '')}>` });

export type ButtonView = {
  label: string;
  /** The act that `dispatch` finds by this name. */
  act: string;
  /** Plain words without a colon; they travel in the custom id, so the button outlives a restart. */
  args: readonly string[];
  style?: 'primary' | 'secondary' | 'danger';
};

/** A picture as SVG, and what it says in words. */
export type DrawnPicture = { svg: string; width: number; alt: string };

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
      /** Draws it when the message is sent; drawing code is not even loaded before. */
      draw: () => Promise<DrawnPicture>;
      /** Filled in when it has been painted. */
      painted?: { png: Buffer; alt: string };
    }
  /** A photo of a member. Its bytes come along once; a later change of the message keeps the file that is there. */
  | { kind: 'photo'; name: string; alt: string; bytes?: Buffer }
  /** A text file to keep. */
  | { kind: 'file'; name: string; content: string }
  | { kind: 'buttons'; buttons: readonly ButtonView[] }
  /** One choice out of a list; the button act of this name hears of it. */
  | { kind: 'select'; act: string; args: readonly string[]; placeholder: string; options: readonly SelectOption[] };

export type SelectOption = { label: string; value: string; description?: string };

export type MessageView = {
  /** `member`: only the one who asked sees it. */
  audience: 'member' | 'everyone';
  /** Colours the edge of the card. The words always say the same. */
  tone: 'plain' | 'calm' | 'watch' | 'remove' | 'urgent';
  blocks: readonly Block[];
  /** Takes the place of the message whose button was pressed. */
  replaces?: true;
  /** The one member whom this message calls, by id; its text has to name them with `mentionOf`. */
  calls?: string;
  /** Shown instead of the blocks that were left out because the message would be too long. */
  foldedNotice?: Markdown;
};

/** A form that opens before the member; what they fill in comes back to the form act of this name. */
export type FormView = {
  kind: 'form';
  act: string;
  args: readonly string[];
  title: string;
  fields: readonly FormField[];
};

type FieldBase = { name: string; label: string; description?: string; required: boolean };
export type FormField = FieldBase &
  (
    | { kind: 'line' | 'paragraph'; mostCharacters: number; placeholder?: string; value?: string }
    | { kind: 'choice'; options: readonly SelectOption[] }
    /** A file to attach, such as a photo from the phone. */
    | { kind: 'upload' }
  );

/** Says that it is at work, gets a file that a member attached, and answers with what `use` makes of it. */
export type FetchView = {
  kind: 'fetch';
  url: string;
  mostBytes: number;
  use: (file: Fetched) => MessageView;
};
export type Fetched = { kind: 'fetched'; bytes: Buffer } | { kind: 'too-large' } | { kind: 'not-to-be-had' };

/** What a command, a button, a form or a menu entry answers with. */
export type Answer = MessageView | FormView | FetchView | WorkView;

/** Says that it is at work, and answers when the work is done: for what a thread of its own computes. */
export type WorkView = { kind: 'work'; audience: MessageView['audience']; work: () => Promise<MessageView> };

/** A member of the server as an option names one. */
export type GivenMember = { id: string; name: string; isBot: boolean };

/** A picture or other file as a member attached it. */
export type GivenFile = { name: string; url: string; size: number; type: string | null; alt: string | null };

/** The message that a menu entry was used on. */
export type TargetMessage = { id: string; authorName: string; text: string; files: readonly GivenFile[] };

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
  /** Names of the asker's roles, and whether they may manage messages here, or the server. Absent outside of servers. */
  standing?: { roles: readonly string[]; managesMessages: boolean; managesServer: boolean };
  /** Where it was asked, and which of the permissions that answers may need the bot lacks there, by Discord's names. */
  place?: { kind: 'channel' | 'thread'; lacks: readonly string[] };
};
