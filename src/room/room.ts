import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Clock } from '../clock.ts';
import type { Room } from './open-room.ts';

// The shapes that the parts of the practice room share. The room is a stand-in of the Discord API on
// loopback: the same unmodified discord.js client logs in to it, so what is tried here is what runs.

/** A clock that a person or a test moves. It never goes backwards by itself. */
export type RoomClock = Clock & {
  /** Moves the clock forward by `ms` milliseconds. */
  advance(ms: number): void;
  /** Sets the clock to an instant. */
  set(instant: Date): void;
  /** Calls `listener` after every move of the clock; gives back how to stop that. */
  onAdvance(listener: (now: Date) => void): () => void;
};

export type MemberRole = 'curator' | 'officer';

/** What is declared about a member before they act. */
export type MemberSpec = {
  name: string;
  roles?: MemberRole[];
  /** Direct messages refused, as Discord does with 50007. */
  dmClosed?: boolean;
  /** IANA zone in which the page shows times to this member. */
  zone?: string;
  /** Discord locale such as `en-GB`. */
  locale?: string;
};

/** A button as a reader sees it. */
export type SeenButton = {
  label: string;
  customId: string | null;
  url: string | null;
  disabled: boolean;
  style: number;
};
export type SeenSelect = {
  placeholder: string;
  customId: string;
  options: { label: string; value: string; description: string | null }[];
  minValues: number;
  maxValues: number;
};
export type SeenImage = { name: string; alt: string; bytes: number; url: string };

/** A message as one member sees it; `text` is everything a reader sees, in reading order. */
export type SeenMessage = {
  id: string;
  channelId: string;
  channelName: string;
  /** The name of the author. */
  author: string;
  /** The member it was an answer to, if any. */
  to: string | null;
  private: boolean;
  edited: boolean;
  text: string;
  buttons: SeenButton[];
  selects: SeenSelect[];
  images: SeenImage[];
};

export type SeenModal = {
  title: string;
  customId: string;
  inputs: {
    label: string;
    description: string | null;
    customId: string;
    kind: string;
    required: boolean;
    options: string[];
  }[];
};

/** What one act brought about: the messages that appeared or changed for the acting member, in order. */
export type ActResult = {
  replies: SeenMessage[];
  /** Autocomplete choices, for a typing act. */
  choices?: { name: string; value: string | number }[];
  /** A modal that opened for the member. */
  modal?: SeenModal;
  /** In plain words, when the act could not be played or was not answered. */
  error?: string;
};

/** A file that a member attaches. */
export type GivenFile = { name: string; alt?: string; data: Buffer };

/**
 * Options of a slash command, as typed; members by name and files by path are resolved by the actor. A page that has
 * the file itself gives it as `file`.
 */
export type TypedOptions = { name: string; value: string; file?: GivenFile }[];

/** One member acting through what is on their screen: nothing that is not rendered can be pressed. */
export type Actor = {
  name: string;
  /** The channel the member is looking at, by name; `dm` is their direct messages with the bot. */
  goTo(channel: string): void;
  /** `/critter name critter:bristle worm` → `slash('critter name', [{ name: 'critter', value: 'bristle worm' }])`. */
  slash(command: string, options: TypedOptions): Promise<ActResult>;
  /** The last option is the one being typed. */
  autocomplete(command: string, options: TypedOptions): Promise<ActResult>;
  /** Presses a button by label on the newest message the member can see that has it; an unfinished label (…) is a prefix. */
  press(label: string): Promise<ActResult>;
  /** Presses by message and custom id (the page knows both). */
  pressExactly(messageId: string, customId: string): Promise<ActResult>;
  /** Chooses options of a select, by placeholder (or custom id) and option labels. */
  choose(select: string, options: string[]): Promise<ActResult>;
  chooseExactly(messageId: string, customId: string, values: string[]): Promise<ActResult>;
  /** Submits the modal that is open for the member; keys are labels (or custom ids). */
  fill(fields: Record<string, string>, files?: Record<string, GivenFile[]>): Promise<ActResult>;
  /** Says something in a channel (default: the main channel), with optional files. */
  say(text: string, options?: { channel?: string; files?: GivenFile[] }): Promise<ActResult>;
  /** A message-menu entry on the newest message of somebody else, or on the message given. */
  menu(entry: string, messageId?: string): Promise<ActResult>;
  /** Everything the member can see, oldest first. */
  sees(): SeenMessage[];
};

/** A fault that the room plays on matching requests or on the gateway. */
export type RestFault = {
  /** Matches `METHOD /path` such as `POST /interactions`. */
  match: RegExp;
  kind: 'rate-limit' | 'server-error' | 'hang-up' | 'delay' | 'forbidden' | 'unauthorized' | 'not-found';
  /** Whether the request took effect before it failed. */
  when: 'before-commit' | 'after-commit';
  times: number;
  /** Milliseconds, for delay; seconds ×1000 of Retry-After, for rate-limit. */
  ms?: number;
  status?: number;
  /** Discord's JSON error code, for forbidden and not-found. */
  code?: number;
};
export type GatewayFault = 'drop' | 'close-1000' | 'reconnect' | 'invalid-session' | 'invalid-session-resumable';

/** One request that the room refused or had no route for; a test fails when any is left at its end. */
export type ContractBreach = {
  method: string;
  path: string;
  kind: 'unrouted' | 'refused';
  why: string;
  body?: unknown;
};

export type RoomOptions = {
  /** 0 picks a free port. */
  port?: number;
  /** Only loopback addresses are accepted. */
  host?: string;
  clock?: RoomClock;
  contract?: 'strict' | 'off';
  /** Tokens that the room accepts; default: every non-empty token except `refused`. */
  acceptsToken?: (token: string) => boolean;
  /** Real milliseconds the bot has for its first response; Discord's 3000 unless a test is about time. */
  firstResponseMs?: number;
  /** Real milliseconds of quiet after which an act counts as over. */
  settleMs?: number;
  /** Answers requests outside the API, such as those of the page; true when it has answered. */
  extend?: (room: Room, request: IncomingMessage, response: ServerResponse) => Promise<boolean>;
};
