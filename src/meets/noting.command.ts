import type { AnyCommand, ButtonAct } from '../discord/command.ts';
import type { MemberNameStore } from './member-names.store.ts';

/** The same commands; whoever uses one is remembered by name, for the pictures of rings and meets. */
export const notingNames = (names: Pick<MemberNameStore, 'note'>, commands: readonly AnyCommand[]): AnyCommand[] =>
  commands.map((command) => ({
    ...command,
    parse: (options) => {
      const parsed = command.parse(options);
      if (!parsed.ok) return parsed;
      return {
        ok: true,
        run: (request) => {
          names.note(request);
          return parsed.run(request);
        },
      };
    },
  }));

/** The same for buttons. */
export const notingPresses = (names: Pick<MemberNameStore, 'note'>, buttons: readonly ButtonAct[]): ButtonAct[] =>
  buttons.map(({ act, run }) => ({
    act,
    run: (args, request, chosen) => {
      names.note(request);
      return run(args, request, chosen);
    },
  }));
