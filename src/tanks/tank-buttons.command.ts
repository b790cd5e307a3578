import { echoLine } from '../calculators/quantity-option.ts';
import { quantityProblemView } from '../calculators/quantity-problem.view.ts';
import type { ButtonAct, FormAct } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import { onPressedTank, type TankDeps } from './asked-tank.command.ts';
import { chartAnswer } from './chart.command.ts';
import { correctForm, deletedView, entryView } from './log.view.ts';
import { parameterNamed, readValue } from './measured.ts';
import { notedReadingView } from './noted.view.ts';
import { storyOfParameter } from './stories.command.ts';
import { removedView } from './tank-card.view.ts';
import { goneView, needsAClubView, parameterTroubleView, whenTroubleView } from './tank-trouble.view.ts';
import { undoAnswer } from './tank-undo.command.ts';
import type { LogEntry } from './tank-log.ts';
import type { Tank } from './tank.ts';
import { readWhen } from './when.ts';

/** The buttons and the select under a tank’s answers. Each looks for itself who may press it. */
export function tankButtons(deps: TankDeps): ButtonAct[] {
  const { base, tanks } = deps;
  return [
    {
      act: 'tank-undo',
      run: ([changeId], request) => undoAnswer(deps, request, { changeId: Number(changeId) }, true),
    },
    {
      act: 'tank-remove',
      run: ([id], request) =>
        onPressedTank(deps, id, request, (tank) => removedView(tank, tanks.removeTank(tank, request.now).changeId)),
    },
    {
      act: 'tank-chart',
      run: ([id, parameterId = ''], { guildId, memberId }) => {
        if (guildId === null) return needsAClubView();
        const tank = tanks.findSeenBy(guildId, memberId, Number(id));
        const parameter = base.parameters.get(parameterId);
        return tank && parameter ? chartAnswer(deps, tank, parameter) : goneView();
      },
    },
    {
      act: 'tank-entry',
      run: (_args, request, [entryId] = []) =>
        onPressedEntry(deps, entryId, request, (tank, entry) => entryView(base, tank, entry)),
    },
    {
      act: 'tank-correct',
      run: ([entryId], request) =>
        onPressedEntry(deps, entryId, request, (tank, entry) => {
          const parameter = entry.kind === 'reading' ? base.parameters.get(entry.parameter) : undefined;
          return entry.kind === 'reading' && parameter ? correctForm(tank, entry, parameter) : goneView();
        }),
    },
    {
      act: 'tank-delete',
      run: ([entryId], request) =>
        onPressedEntry(deps, entryId, request, (tank, entry) =>
          deletedView(base, tank, entry, tanks.deleteEntry(tank, entry, request.now).changeId),
        ),
    },
  ];
}

/** What comes back from the form that corrects a reading. */
export const tankForms = (deps: TankDeps): FormAct[] => [
  {
    act: 'tank-corrected',
    run: ([entryId], filled, request) =>
      onPressedEntry(deps, entryId, request, (tank, entry) => correct(deps, tank, entry, filled, request.now)),
  },
];

function correct(
  { base, tanks }: TankDeps,
  tank: Tank,
  entry: LogEntry,
  filled: Readonly<Record<string, string>>,
  now: Date,
): Answer {
  if (entry.kind !== 'reading') return goneView();
  const named = parameterNamed(base, entry.parameter);
  if (named.kind !== 'parameter') return parameterTroubleView(named);
  const value = readValue(filled['value'] ?? '', named.as, tank.units);
  if (value.kind !== 'read') return quantityProblemView([{ name: 'value', outcome: value }]);
  const typedWhen = filled['when']?.trim() ?? '';
  const when = typedWhen === '' ? { kind: 'at' as const, at: entry.at } : readWhen(typedWhen, now);
  if (when.kind !== 'at') return whenTroubleView(when, typedWhen);
  const reading = { ...entry, value: value.si, at: when.at };
  const done = tanks.correctReading(tank, reading, now);
  return notedReadingView(base, {
    tank: done.tank,
    reading,
    parameter: named.parameter,
    story: storyOfParameter({ base, tanks }, done.tank, reading.parameter),
    understood: echoLine('I read', value),
    dropped: null,
    changeId: done.changeId,
    corrected: true,
  });
}

/** An entry of one of the presser’s own tanks. */
function onPressedEntry(
  deps: TankDeps,
  entryId: string | undefined,
  request: Request,
  run: (tank: Tank, entry: LogEntry) => Answer,
): Answer {
  if (request.guildId === null) return needsAClubView();
  const entry = deps.tanks.log.find(request.guildId, Number(entryId));
  if (!entry) return goneView();
  return onPressedTank(deps, String(entry.tankId), request, (tank) => run(tank, entry));
}
