import { z } from 'zod';
import { readQuantity } from '../../shared/quantity-text.ts';
import { echoLine, wantedOf } from '../calculators/quantity-option.ts';
import { quantityProblemView } from '../calculators/quantity-problem.view.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import { onOwnTank, suggestTanks, TANK_OPTION, TypedTank, type TankDeps } from './asked-tank.command.ts';
import { changeTooLargeView } from './dose-trouble.view.ts';
import { parameterNamed, readValue } from './measured.ts';
import { amountOption, Text, WHEN_OPTION } from './note-options.ts';
import { notedChangeView } from './noted.view.ts';
import { whenTroubleView } from './tank-trouble.view.ts';
import type { Tank } from './tank.ts';
import { readWhen } from './when.ts';

/** What new water can be said to hold. Entries of knowledge/parameters. */
const NEW_WATER = ['alkalinity', 'calcium', 'magnesium', 'nitrate', 'phosphate'] as const;

/** `/tank water-change`: notes a change that was done. */
export const waterChangeCommand = (deps: TankDeps): AnyCommand =>
  defineCommand({
    name: 'tank water-change',
    description: 'Note a water change that was done, so that it is reckoned with',
    options: [
      { name: 'amount', description: 'How much was changed: 10 % or 30 L', required: true, mostCharacters: 100 },
      TANK_OPTION,
      ...NEW_WATER.map((name) => amountOption(name, 'What the new water held of it, as you measured it')),
      WHEN_OPTION,
    ],
    input: z.object({
      amount: z.string(),
      tank: TypedTank,
      alkalinity: Text,
      calcium: Text,
      magnesium: Text,
      nitrate: Text,
      phosphate: Text,
      when: Text,
    }),
    run: (given, request) => onOwnTank(deps, given.tank, request, (tank) => noteChange(deps, tank, given, request)),
    suggest: (option, typed, request, given) => (option === 'tank' ? suggestTanks(deps, typed, request, given) : []),
  });

type GivenChange = { amount: string; when?: string | undefined } & {
  [Name in (typeof NEW_WATER)[number]]?: string | undefined;
};

function noteChange({ base, tanks }: TankDeps, tank: Tank, given: GivenChange, { now }: Request): Answer {
  const when = readWhen(given.when ?? '', now);
  if (when.kind !== 'at') return whenTroubleView(when, given.when ?? '');
  const isShare = /%|percent/i.test(given.amount);
  const changed = isShare
    ? readQuantity(given.amount, { quantity: 'percent', least: 0.1, most: 100, example: '10 %' })
    : readQuantity(given.amount, {
        ...wantedOf({ quantity: 'volume', description: '', required: true }, tank.units),
        example: '10 % or 30 L',
      });
  const held = NEW_WATER.flatMap((id) => {
    const named = parameterNamed(base, id);
    const text = given[id];
    return text === undefined || named.kind !== 'parameter'
      ? []
      : [{ name: id, outcome: readValue(text, named.as, tank.units) }];
  });
  const problems = [{ name: 'amount', outcome: changed }, ...held].flatMap(({ name, outcome }) =>
    outcome.kind === 'read' ? [] : [{ name, outcome }],
  );
  if (changed.kind !== 'read' || problems.length > 0) return quantityProblemView(problems);
  const share = isShare ? changed.si / 100 : changed.si / tank.netVolumeL;
  if (share > 1) return changeTooLargeView(changed.understood, tank);
  const read = held.flatMap(({ name, outcome }) => (outcome.kind === 'read' ? [{ name, outcome }] : []));
  const newWater = Object.fromEntries(read.map(({ name, outcome }) => [name, outcome.si]));
  const noted = tanks.note(tank, { kind: 'water-change', share, newWater, at: when.at }, now);
  if (noted.entry.kind !== 'water-change') throw new RangeError('a water change was noted as something else');
  return notedChangeView(base, {
    tank: noted.tank,
    change: noted.entry,
    understood: [
      echoLine('amount', changed),
      ...read.filter(({ outcome }) => outcome.notes.length > 0).map(({ name, outcome }) => echoLine(name, outcome)),
    ],
    dropped: noted.dropped,
    changeId: noted.changeId,
  });
}
