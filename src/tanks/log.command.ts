import { z } from 'zod';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import {
  FOR_OPTION,
  ForMember,
  onOwnTank,
  onSeenTank,
  suggestTanks,
  TANK_OPTION,
  TypedTank,
  type TankDeps,
} from './asked-tank.command.ts';
import { chartAnswer } from './chart.command.ts';
import { dosedCommand } from './dosed.command.ts';
import { logView, MOST_LISTED } from './log.view.ts';
import { parameterChoices, parameterNamed } from './measured.ts';
import { PARAMETER_OPTION } from './note-options.ts';
import { readingCommand } from './reading.command.ts';
import { parameterTroubleView } from './tank-trouble.view.ts';
import { waterChangeCommand } from './water-change.command.ts';

/** `/tank reading`, `dosed`, `water-change`, `log` and `chart`. */
export function tankLogCommands(deps: TankDeps): AnyCommand[] {
  const { base, tanks } = deps;
  return [
    readingCommand(deps),
    dosedCommand(deps),
    waterChangeCommand(deps),
    defineCommand({
      name: 'tank log',
      description: 'What was noted for one of your tanks; correct or delete an entry',
      options: [TANK_OPTION],
      input: z.object({ tank: TypedTank }),
      run: ({ tank: typed }, request) =>
        onOwnTank(deps, typed, request, (tank, guildId) =>
          logView(base, tank, tanks.log.newest(guildId, tank.id, MOST_LISTED), tanks.log.count(guildId, tank.id)),
        ),
      suggest: (option, typed, request, given) => (option === 'tank' ? suggestTanks(deps, typed, request, given) : []),
    }),
    defineCommand({
      name: 'tank chart',
      description: 'The readings of one parameter as a picture, with doses and water changes',
      options: [PARAMETER_OPTION, TANK_OPTION, FOR_OPTION],
      input: z.object({ parameter: z.string().max(60), tank: TypedTank, for: ForMember }),
      run: ({ parameter: typed, ...given }, request) => {
        const named = parameterNamed(base, typed);
        if (named.kind !== 'parameter') return parameterTroubleView(named);
        return onSeenTank(deps, given, request, (tank) => chartAnswer(deps, tank, named.parameter));
      },
      suggest: (option, typed, request, given) =>
        option === 'tank'
          ? suggestTanks(deps, typed, request, given)
          : option === 'parameter'
            ? parameterChoices(base, typed)
            : [],
    }),
  ];
}
