// What the page of the practice room is told and may ask. Types only: the page and its server side share them.

export type PageMember = {
  id: string;
  name: string;
  /** Role names in words, such as `curator`. */
  roles: string[];
  bot: boolean;
  dmClosed: boolean;
  zone: string;
  locale: string;
};

export type PageChannel = {
  id: string;
  name: string;
  kind: 'channel' | 'thread' | 'direct';
  /** The channel a thread hangs under. */
  parentId: string | null;
  /** Archived: buttons in it are refused until somebody writes. */
  closed: boolean;
  /** Nobody may write. */
  locked: boolean;
};

export type PageAttachment = {
  id: string;
  name: string;
  alt: string;
  bytes: number;
  type: string;
  url: string;
  /** In pixels, where known. */
  width: number | null;
  height: number | null;
};

export type PageMessage = {
  id: string;
  channelId: string;
  authorId: string;
  /** ISO instant. */
  at: string;
  edited: boolean;
  /** Seen by one member only. */
  private: boolean;
  /** The bot has promised an answer that is not there yet. */
  thinking: boolean;
  content: string;
  /** Raw components as sent. */
  components: unknown[];
  /** Raw embeds as sent. */
  embeds: unknown[];
  attachments: PageAttachment[];
  flags: number;
  replyTo: string | null;
  /** The command or button this message answers. */
  use: { memberId: string; command: string | null } | null;
  reactions: { emoji: string; count: number }[];
  /** The thread that was started from this message. */
  threadId: string | null;
};

export type PageChoice = { name: string; value: string | number };

export type PageOption = {
  name: string;
  description: string;
  /** Discord's option type number. */
  type: number;
  required: boolean;
  choices: PageChoice[];
  autocomplete: boolean;
  min: number | null;
  max: number | null;
};

export type PageCommand = {
  id: string;
  kind: 'slash' | 'message' | 'member';
  /** With its subcommand: `critter name`. */
  name: string;
  description: string;
  options: PageOption[];
  /** Whether it may be used in direct messages. */
  direct: boolean;
};

/** A modal as the bot sent it. */
export type PageModal = { id: string; customId: string; title: string; components: unknown[] };

/** Everything one member can see. */
export type PageState = {
  club: string;
  /** Room time, ISO. */
  now: string;
  acting: string;
  botId: string | null;
  members: PageMember[];
  roles: { id: string; name: string }[];
  channels: PageChannel[];
  messages: PageMessage[];
  commands: PageCommand[];
  modal: PageModal | null;
};

/** A file on its way from the page. */
export type PageFile = { name: string; alt: string; base64: string };

/** What a person may do. `as` is the member they play. */
export type PageAct =
  | { act: 'say'; as: string; channel: string; text: string; files?: PageFile[] }
  | {
      act: 'slash';
      as: string;
      channel: string;
      command: string;
      options: { name: string; value: string }[];
      files?: Record<string, PageFile>;
    }
  | { act: 'types'; as: string; channel: string; command: string; options: { name: string; value: string }[] }
  | { act: 'press'; as: string; message: string; customId: string }
  | { act: 'choose'; as: string; message: string; customId: string; values: string[] }
  | { act: 'fill'; as: string; fields: Record<string, string | string[]>; files?: Record<string, PageFile[]> }
  | { act: 'close-modal'; as: string }
  | { act: 'menu'; as: string; entry: string; message: string }
  | { act: 'dismiss'; as: string; message: string }
  | { act: 'advance'; ms: number }
  | { act: 'start-over' };

/** How an act went. `channelId` is where its first reply appeared. */
export type PageAnswer = { error?: string; choices?: PageChoice[]; channelId?: string };
