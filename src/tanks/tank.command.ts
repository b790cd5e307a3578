import { z } from 'zod';
import { unitsOfClub } from '../club/club-settings.ts';
import { defineCommand, type AnyCommand, type OptionSpec } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import {
  ForMember,
  FOR_OPTION,
  onOwnTank,
  onSeenTank,
  ownerOf,
  suggestTanks,
  TANK_OPTION,
  TypedTank,
  type TankDeps,
} from './asked-tank.command.ts';
import { undoAnswer } from './tank-undo.command.ts';
import { storiesOf } from './stories.command.ts';
import { asksForSomething, FIELD_OPTIONS, FIELD_SHAPE, readFields, type GivenFields } from './tank-fields.ts';
import { tankName } from './tank-name.ts';
import { addedView, editedView, nothingToEditView, removeView, tanksView, tankView } from './tank-card.view.ts';
import {
  badNameView,
  nameTakenView,
  needsAClubView,
  tooManyTanksView,
  volumeMissingView,
  whichTankView,
} from './tank-trouble.view.ts';
import type { Tank } from './tank.ts';

const nameOption = (description: string, required: boolean): OptionSpec => ({
  name: 'name',
  description,
  required,
  mostCharacters: 200,
});

/** `/tank add`, `edit`, `list`, `show`, `remove` and `undo`. */
export function tankCommands(deps: TankDeps): AnyCommand[] {
  const { tanks, base } = deps;
  const suggest: AnyCommand['suggest'] = (option, typed, request, given) =>
    option === 'tank' ? suggestTanks(deps, typed, request, given) : [];
  return [
    defineCommand({
      name: 'tank add',
      description: 'Keep a tank: its water, and later its readings; nobody else sees it unless you say so',
      options: [nameOption('What you call it, such as Reef', true), ...FIELD_OPTIONS],
      input: z.object({ name: z.string().max(200), ...FIELD_SHAPE }),
      run: ({ name, ...given }, request) => add(deps, name, given, request),
    }),
    defineCommand({
      name: 'tank edit',
      description: 'Change what is kept of one of your tanks',
      options: [TANK_OPTION, nameOption('A new name', false), ...FIELD_OPTIONS],
      input: z.object({ tank: TypedTank, name: z.string().max(200).optional(), ...FIELD_SHAPE }),
      run: ({ tank: typed, ...given }, request) =>
        onOwnTank(deps, typed, request, (tank) => edit(deps, tank, given, request)),
      suggest,
    }),
    defineCommand({
      name: 'tank list',
      description: 'Your tanks, or those that another member shows',
      options: [FOR_OPTION],
      input: z.object({ for: ForMember }),
      run: ({ for: member }, request) => {
        if (request.guildId === null) return needsAClubView();
        const owner = ownerOf(member, request);
        const seen = tanks.tankSeenBy(request.guildId, request.memberId, owner?.id ?? request.memberId);
        return seen.length > 0 ? tanksView(seen, owner) : whichTankView({ kind: 'no-tanks' }, owner);
      },
    }),
    defineCommand({
      name: 'tank show',
      description: 'A tank with its last readings, what it uses up and when to test next',
      options: [TANK_OPTION, FOR_OPTION],
      input: z.object({ tank: TypedTank, for: ForMember }),
      run: (given, request) =>
        onSeenTank(deps, given, request, (tank, _guildId, owner) => tankView(base, tank, storiesOf(deps, tank), owner)),
      suggest,
    }),
    defineCommand({
      name: 'tank remove',
      description: 'Remove one of your tanks; asks once more',
      options: [TANK_OPTION],
      input: z.object({ tank: TypedTank }),
      run: ({ tank: typed }, request) =>
        onOwnTank(deps, typed, request, (tank, guildId) => removeView(tank, tanks.log.count(guildId, tank.id))),
      suggest,
    }),
    defineCommand({
      name: 'tank undo',
      description: 'Take back the last thing you changed, noted or removed',
      options: [TANK_OPTION],
      input: z.object({ tank: TypedTank }),
      run: ({ tank: typed }, request) =>
        typed === undefined
          ? undoAnswer(deps, request, 'last', false)
          : onOwnTank(deps, typed, request, ({ id }) => undoAnswer(deps, request, { tankId: id }, false)),
      suggest,
    }),
  ];
}

function add({ base, tanks, clubs }: TankDeps, typed: string, given: GivenFields, request: Request): Answer {
  const { guildId, memberId, now } = request;
  if (guildId === null) return needsAClubView();
  const name = tankName(typed);
  if (name === null) return badNameView(typed);
  const read = readFields(base, given, unitsOfClub(clubs.of(guildId).settings));
  if (read.kind === 'problem') return read.view;
  const { change, units, how } = read;
  const { netVolumeL, volumeError } = change;
  if (netVolumeL === undefined || volumeError === undefined) return volumeMissingView();
  const tank: Omit<Tank, 'id'> = {
    purpose: 'display',
    practicalSalinity: null,
    temperatureC: null,
    visibility: 'me',
    ...change,
    guildId,
    memberId,
    name,
    netVolumeL,
    volumeError,
    units,
  };
  const done = tanks.addTank(tank, now);
  return done.kind === 'done' ? addedView(done.tank, how, done.changeId) : refusedView(done);
}

function edit(
  { base, tanks }: TankDeps,
  tank: Tank,
  { name: typed, ...given }: GivenFields & { name?: string | undefined },
  { now }: Request,
): Answer {
  if (!asksForSomething({ ...given, name: typed })) return nothingToEditView(tank);
  const name = typed === undefined ? tank.name : tankName(typed);
  if (name === null) return badNameView(typed ?? '');
  const read = readFields(base, given, tank.units);
  if (read.kind === 'problem') return read.view;
  const done = tanks.editTank({ ...tank, ...read.change, name }, now);
  return done.kind === 'done' ? editedView(done.tank, read.how, done.changeId) : refusedView(done);
}

type Refused = { kind: 'name-taken'; name: string } | { kind: 'too-many-tanks' };
const refusedView = (refused: Refused): Answer =>
  refused.kind === 'name-taken' ? nameTakenView(refused.name) : tooManyTanksView();
