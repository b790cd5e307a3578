import type { z } from 'zod';
import type { Answer, Choice, GivenFile, MessageView, Request, TargetMessage } from './message-view.ts';

export type OptionSpec = {
  /** A picture to attach, a whole number, or a member of the server; absent: text. */
  kind?: 'picture' | 'whole-number' | 'member';
  name: string;
  description: string;
  required: boolean;
  /** Offers choices while the member types. */
  autocomplete?: boolean;
  /** A fixed list to choose from. */
  choices?: readonly string[];
  mostCharacters?: number;
  /** Of a whole number. */
  least?: number;
  most?: number;
};

/** One thing a member can ask: `critter name` is the subcommand `name` of `/critter`. */
export type Command<Input = unknown> = {
  name: `${string} ${string}`;
  description: string;
  options: readonly OptionSpec[];
  /** The single translation from Discord's option values to ours. */
  input: z.ZodType<Input>;
  run: (input: Input, request: Request) => Answer;
  /** Choices for the option being typed, best first. `given` holds the options that were filled in before it. */
  suggest?: (option: string, typed: string, request: Request, given?: Readonly<Record<string, unknown>>) => Choice[];
};

/** What a button or a select does. It gets the words of its custom id and re-checks everything itself. */
export type ButtonAct = {
  act: string;
  run: (args: readonly string[], request: Request, chosen?: readonly string[]) => Answer;
};

/** What becomes of a form that was filled in; `filled` and the files go by the names of its fields. */
export type FormAct = {
  act: string;
  run: (
    args: readonly string[],
    filled: Readonly<Record<string, string>>,
    request: Request,
    files: Readonly<Record<string, GivenFile>>,
  ) => Answer;
};

/** An entry of the menu on every message. */
export type MenuEntry = { name: string; run: (target: TargetMessage, request: Request) => Answer };

/** Answers a message that mentions the bot, or null when it has nothing to say. */
export type MentionAnswer = (text: string, request: Request) => MessageView | null;

/** A command whose input type is known only to itself. */
export type AnyCommand = Omit<Command, 'input' | 'run'> & {
  parse: (
    options: Readonly<Record<string, unknown>>,
  ) => { ok: true; run: (request: Request) => Answer } | { ok: false; error: z.ZodError };
};

/** Ties a command's schema to its `run`, so that `run` only ever sees what the schema let through. */
export function defineCommand<Input>({ input, run, ...rest }: Command<Input>): AnyCommand {
  return {
    ...rest,
    parse: (options) => {
      const parsed = input.safeParse(options);
      return parsed.success
        ? { ok: true, run: (request) => run(parsed.data, request) }
        : { ok: false, error: parsed.error };
    },
  };
}
