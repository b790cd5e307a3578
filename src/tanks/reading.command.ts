import { z } from 'zod';
import { readQuantity } from '../../shared/quantity-text.ts';
import { echoLine, wantedOf } from '../calculators/quantity-option.ts';
import { quantityProblemView } from '../calculators/quantity-problem.view.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import { onOwnTank, suggestTanks, TANK_OPTION, TypedTank, type TankDeps } from './asked-tank.command.ts';
import { belongsInto, parameterChoices, parameterNamed, readValue } from './measured.ts';
import { PARAMETER_OPTION, Text, WHEN_OPTION } from './note-options.ts';
import { notedReadingView } from './noted.view.ts';
import { storyOfParameter } from './stories.command.ts';
import { singleLine } from './tank-name.ts';
import { parameterTroubleView, quarantineOnlyView, whenTroubleView } from './tank-trouble.view.ts';
import type { Tank } from './tank.ts';
import { readWhen } from './when.ts';

/** `/tank reading`: notes what was measured. */
export const readingCommand = (deps: TankDeps): AnyCommand =>
  defineCommand({
    name: 'tank reading',
    description: 'Note what you measured; I say how it stands and what the tank uses up',
    options: [
      PARAMETER_OPTION,
      {
        name: 'value',
        description: 'What you read, with its unit if you like: 8.2 dKH, 420, 1.026 sg',
        required: true,
        mostCharacters: 100,
      },
      TANK_OPTION,
      { name: 'kit', description: 'What you measured with, in your words', required: false, mostCharacters: 60 },
      {
        name: 'kit-error',
        description: 'What that may be off by, either way: 0.3 dKH',
        required: false,
        mostCharacters: 60,
      },
      WHEN_OPTION,
    ],
    input: z.object({
      parameter: z.string().max(60),
      value: z.string(),
      tank: TypedTank,
      kit: Text,
      'kit-error': Text,
      when: Text,
    }),
    run: (given, request) => onOwnTank(deps, given.tank, request, (tank) => noteReading(deps, tank, given, request)),
    suggest: (option, typed, request, given) =>
      option === 'tank'
        ? suggestTanks(deps, typed, request, given)
        : option === 'parameter'
          ? parameterChoices(deps.base, typed)
          : [],
  });

type GivenReading = {
  parameter: string;
  value: string;
  kit?: string | undefined;
  'kit-error'?: string | undefined;
  when?: string | undefined;
};

function noteReading({ base, tanks }: TankDeps, tank: Tank, given: GivenReading, { now }: Request): Answer {
  const named = parameterNamed(base, given.parameter);
  if (named.kind !== 'parameter') return parameterTroubleView(named);
  const { parameter, as } = named;
  if (!belongsInto(parameter, tank.purpose)) return quarantineOnlyView(parameter.name, tank);
  const value = readValue(given.value, as, tank.units);
  const error = given['kit-error'] === undefined ? null : readError(given['kit-error'], as, tank);
  const problems = [
    ...(value.kind === 'read' ? [] : [{ name: 'value', outcome: value }]),
    ...(error === null || error.kind === 'read' ? [] : [{ name: 'kit-error', outcome: error }]),
  ];
  if (value.kind !== 'read' || (error !== null && error.kind !== 'read')) return quantityProblemView(problems);
  const when = readWhen(given.when ?? '', now);
  if (when.kind !== 'at') return whenTroubleView(when, given.when ?? '');
  const kit = singleLine(given.kit ?? '');
  const entry = {
    kind: 'reading' as const,
    parameter: parameter.id,
    value: value.si,
    kit: kit === '' ? null : kit,
    kitError: error?.si ?? null,
    at: when.at,
  };
  const noted = tanks.note(tank, entry, now);
  if (noted.entry.kind !== 'reading') throw new RangeError('a reading was noted as something else');
  return notedReadingView(base, {
    tank: noted.tank,
    reading: noted.entry,
    parameter,
    story: storyOfParameter({ base, tanks }, noted.tank, parameter.id),
    understood: echoLine('I read', value),
    dropped: noted.dropped,
    changeId: noted.changeId,
  });
}

type As = Parameters<typeof readValue>[1];

/** What a kit may be off by. Differences of salinity and temperature have units of their own, so they are taken as kept. */
function readError(text: string, as: As, { units }: Tank) {
  const plain = text.replace(/^\s*(?:±|\+\/?-|\+-)\s*/, '');
  if (as.quantity === 'salinity' || as.quantity === 'temperature' || as.quantity === 'ph')
    return readQuantity(plain, { quantity: as.quantity, least: 0, most: 5, example: '0.5' });
  return readQuantity(plain, { ...wantedOf({ ...as, description: '', required: false }, units), least: 0 });
}
