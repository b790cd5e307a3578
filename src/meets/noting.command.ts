import type { AnyCommand, ButtonAct } from '../discord/command.ts';
import type { MemberNameStore } from './member-names.store.ts';

type Names = Pick<MemberNameStore, 'note'>;

/** The same commands; whoever uses one of frags is remembered by name, for the pictures of rings and meets. */
export const notingNames = (names: Names, commands: readonly AnyCommand[]): AnyCommand[] =>
  commands.map((command) =>
    command.name.startsWith('frag ')
      ? {
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
        }
      : command,
  );

/** The same for buttons. */
export const notingPresses = (names: Names, buttons: readonly ButtonAct[]): ButtonAct[] =>
  buttons.map((button) =>
    button.act.startsWith('frag-')
      ? {
          act: button.act,
          run: (args, request, chosen) => {
            names.note(request);
            return button.run(args, request, chosen);
          },
        }
      : button,
  );
