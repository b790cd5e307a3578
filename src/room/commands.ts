import { z } from 'zod';
import type { RoomChange } from './world-shapes.ts';

// The commands that the bot has registered, with the fields that the room itself needs to play them.

export type CommandOption = {
  type: number;
  name: string;
  description?: string | null | undefined;
  required?: boolean | null | undefined;
  autocomplete?: boolean | null | undefined;
  choices?: { name: string; value: string | number }[] | null | undefined;
  min_value?: number | null | undefined;
  max_value?: number | null | undefined;
  min_length?: number | null | undefined;
  max_length?: number | null | undefined;
  options?: CommandOption[] | null | undefined;
};
export const CommandOption: z.ZodType<CommandOption> = z.lazy(() =>
  z.looseObject({
    type: z.number(),
    name: z.string(),
    description: z.string().nullish(),
    required: z.boolean().nullish(),
    autocomplete: z.boolean().nullish(),
    choices: z.array(z.looseObject({ name: z.string(), value: z.union([z.string(), z.number()]) })).nullish(),
    min_value: z.number().nullish(),
    max_value: z.number().nullish(),
    min_length: z.number().nullish(),
    max_length: z.number().nullish(),
    options: z.array(CommandOption).nullish(),
  }),
);

export const CommandBody = z.looseObject({
  name: z.string(),
  description: z.string().nullish(),
  type: z.number().nullish(),
  options: z.array(CommandOption).nullish(),
  default_member_permissions: z.union([z.string(), z.number()]).nullish(),
  contexts: z.array(z.number()).nullish(),
});
export type CommandBody = z.infer<typeof CommandBody>;
export type WorldCommand = CommandBody & { id: string; version: string; guildId: string | null };

export type Commands = ReturnType<typeof createCommands>;

/** Registered commands, global and of the guild. */
export function createCommands(nextId: () => string, emit: (change: RoomChange) => void) {
  const lists = new Map<string | null, WorldCommand[]>();
  const list = (guildId: string | null) => lists.get(guildId) ?? [];
  const sameCommand = (a: CommandBody, b: CommandBody) => a.name === b.name && (a.type ?? 1) === (b.type ?? 1);

  const make = (body: CommandBody, guildId: string | null): WorldCommand => {
    const before = list(guildId).find((command) => sameCommand(command, body));
    return { ...body, id: before?.id ?? nextId(), version: nextId(), guildId };
  };
  return {
    list,
    all: () => [...lists.values()].flat(),
    /** Puts the whole list in place of the one before; a command that stays keeps its id. */
    replace(bodies: CommandBody[], guildId: string | null): WorldCommand[] {
      lists.set(
        guildId,
        bodies.map((body) => make(body, guildId)),
      );
      emit({ kind: 'commands' });
      return list(guildId);
    },
    /** Adds one command, or changes the one of the same name. */
    put(body: CommandBody, guildId: string | null): WorldCommand {
      const command = make(body, guildId);
      lists.set(guildId, [...list(guildId).filter((one) => one.id !== command.id), command]);
      emit({ kind: 'commands' });
      return command;
    },
    remove(id: string): boolean {
      for (const [guildId, commands] of lists) {
        if (!commands.some((command) => command.id === id)) continue;
        lists.set(
          guildId,
          commands.filter((command) => command.id !== id),
        );
        emit({ kind: 'commands' });
        return true;
      }
      return false;
    },
  };
}
