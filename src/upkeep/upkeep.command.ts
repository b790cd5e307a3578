import { z } from 'zod';
import { defineCommand, type AnyCommand, type OptionSpec } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import { localDate } from '../schedule/local-time.ts';
import { chooseTank, tankChoices } from '../tanks/tank-option.ts';
import { readWhen } from '../tanks/when.ts';
import {
  addChore,
  addForm,
  choreTitle,
  ideaNamed,
  onOwnChore,
  readRule,
  rememberedRule,
  suggestChores,
  suggestIdeas,
  toldOf,
  type UpkeepDeps,
} from './asked-chore.command.ts';
import { doneAnswer, ideaAnswer, laterAnswer, skipAnswer, undoAnswer } from './chore-buttons.command.ts';
import { scheduled, type Chore } from './chore-rule.ts';
import { editedView, historyView, ideasView, listView, removedView } from './chore-said.view.ts';
import * as trouble from './chore-trouble.view.ts';
import { everyAsTyped, readDay, readEvery } from './every.ts';

const CHORE: OptionSpec = {
  name: 'chore',
  description: 'Which of your chores',
  required: true,
  autocomplete: true,
  mostCharacters: 100,
};
const text = (name: string, description: string, required = false): OptionSpec => ({
  name,
  description,
  required,
  mostCharacters: 100,
});
const EVERY = text('every', 'How often, such as 30 days, 2 weeks, Sat, or Mon and Thu');
const AT = text('at', 'Time of day, such as 19:30; I remember it');
const ZONE = text('zone', 'Your time zone, such as Europe/Lisbon; I remember it');
const TANK: OptionSpec = {
  name: 'tank',
  description: 'Which of your tanks it is for',
  required: false,
  autocomplete: true,
  mostCharacters: 100,
};
const Line = z.string().max(100);
const Maybe = Line.optional();

/** `/upkeep add`, `list`, `ideas`, `done`, `later`, `skip`, `history`, `edit`, `remove` and `undo`. */
export function upkeepCommands(deps: UpkeepDeps): AnyCommand[] {
  const { base, chores, tanks } = deps;
  const suggest: AnyCommand['suggest'] = (option, typed, request) => {
    if (option === 'chore') return suggestChores(deps, typed, request);
    if (option === 'what') return suggestIdeas(deps, typed);
    const { guildId, memberId } = request;
    return option === 'tank' && guildId !== null ? tankChoices(tanks.tanksOf(guildId, memberId), typed) : [];
  };
  const onChore = (
    name: `upkeep ${string}`,
    description: string,
    run: (chore: Chore, request: Request) => Answer,
  ): AnyCommand =>
    defineCommand({
      name,
      description,
      options: [CHORE],
      input: z.object({ chore: Line }),
      run: ({ chore: typed }, request) => onOwnChore(deps, typed, request, (chore) => run(chore, request)),
      suggest,
    });
  return [
    defineCommand({
      name: 'upkeep add',
      description: 'A chore that comes again: choose one of the trade or write your own',
      options: [
        { ...text('what', 'Choose a chore of the trade, or write your own', true), autocomplete: true },
        EVERY,
        AT,
        ZONE,
        text('first', 'When it is due first, such as today, Sat, in 5 days'),
        TANK,
      ],
      input: z.object({ what: Line, every: Maybe, at: Maybe, zone: Maybe, first: Maybe, tank: Maybe }),
      run: (given, request) => add(deps, given, request),
      suggest,
    }),
    defineCommand({
      name: 'upkeep list',
      description: 'Your chores, the overdue ones first',
      options: [],
      input: z.object({}),
      run: (_given, { guildId, memberId, now }) =>
        guildId === null
          ? trouble.needsAClubView()
          : listView(chores.ofMember(guildId, memberId).map(toldOf(deps)), now),
    }),
    defineCommand({
      name: 'upkeep ideas',
      description: 'Chores of the trade: why, how, what to mind, how often',
      options: [{ ...text('what', 'One of them; without it, all'), autocomplete: true }],
      input: z.object({ what: Maybe }),
      run: ({ what }) => {
        const idea = what === undefined ? null : ideaNamed(deps, what);
        return idea ? ideaAnswer(deps, idea.id) : ideasView([...base.chores.values()]);
      },
      suggest,
    }),
    defineCommand({
      name: 'upkeep done',
      description: 'A chore is done; it comes again after its interval',
      options: [CHORE, text('when', 'When it was done, such as yesterday or 2 days ago')],
      input: z.object({ chore: Line, when: Maybe }),
      run: ({ chore: typed, when }, request) =>
        onOwnChore(deps, typed, request, (chore) => {
          if (when === undefined) return doneAnswer(deps, chore, request, {}, false);
          const read = readWhen(when, request.now);
          if (read.kind !== 'at') return trouble.badDoneView(when);
          return doneAnswer(deps, chore, request, { on: localDate(read.at, chore.rule.zone) }, false);
        }),
      suggest,
    }),
    onChore('upkeep later', 'Be reminded of a chore this evening, tomorrow or at another time', (chore, request) =>
      laterAnswer(deps, chore, request),
    ),
    onChore('upkeep skip', 'Leave a chore out this time', (chore, request) =>
      skipAnswer(deps, chore, request, undefined, false),
    ),
    onChore('upkeep history', 'When a chore was done, and how late on average', (chore) =>
      historyView(toldOf(deps)(chore), chores.rounds(chore.id)),
    ),
    defineCommand({
      name: 'upkeep edit',
      description: 'Change how often a chore comes, when, its name or its tank',
      options: [
        CHORE,
        EVERY,
        AT,
        ZONE,
        text('next', 'When it is due next: today, Sat, in 5 days'),
        text('name', 'A new name'),
        TANK,
      ],
      input: z.object({ chore: Line, every: Maybe, at: Maybe, zone: Maybe, next: Maybe, name: Maybe, tank: Maybe }),
      run: ({ chore: typed, ...given }, request) =>
        onOwnChore(deps, typed, request, (chore) => edit(deps, chore, given, request)),
      suggest,
    }),
    onChore('upkeep remove', 'Remove a chore; undo brings it back', (chore, { now }) =>
      removedView(toldOf(deps)(chore), chores.act(chore, chore, 'removed', null, now)),
    ),
    defineCommand({
      name: 'upkeep undo',
      description: 'Take back the last thing you did with your chores',
      options: [],
      input: z.object({}),
      run: (_given, request) =>
        request.guildId === null ? trouble.needsAClubView() : undoAnswer(deps, request, request.guildId, null),
    }),
  ];
}

type Given = Partial<Record<'every' | 'at' | 'zone' | 'tank', string | undefined>>;

/** The tank that was typed; null when none was, undefined when it is none of the member’s. */
function tankIdOf({ tanks }: UpkeepDeps, typed: string | undefined, { guildId, memberId }: Request) {
  if (typed === undefined || guildId === null) return { kind: 'tank', id: null } as const;
  const chosen = chooseTank(tanks.tanksOf(guildId, memberId), typed);
  return chosen.kind === 'tank'
    ? ({ kind: 'tank', id: chosen.tank.id } as const)
    : ({ kind: 'problem', view: trouble.noSuchTankView(typed) } as const);
}

function add(deps: UpkeepDeps, given: Given & { what: string; first?: string | undefined }, request: Request): Answer {
  const { guildId, now } = request;
  if (guildId === null) return trouble.needsAClubView();
  const idea = ideaNamed(deps, given.what);
  const title = idea?.name ?? choreTitle(given.what);
  if (title === null) return trouble.badTitleView();
  const usual = idea ? everyAsTyped({ kind: 'days', days: idea.everyDays }) : undefined;
  const typed = given.every ?? usual;
  const every = typed === undefined ? undefined : readEvery(typed);
  if (every === null) return trouble.badEveryView(typed ?? '');
  const tank = tankIdOf(deps, given.tank, request);
  if (tank.kind === 'problem') return tank.view;
  const read = readRule(given.at, given.zone, rememberedRule(deps, request));
  if (read.kind === 'problem') return read.view;
  const today = localDate(now, read.kind === 'rule' ? read.rule.zone : 'Etc/UTC');
  const first = given.first === undefined ? null : readDay(given.first, today);
  if (given.first !== undefined && first === null) return trouble.badDayView(given.first);
  const known = { title, idea: idea?.id ?? null, tankId: tank.id, first };
  if (read.kind === 'ask' || every === undefined) return addForm(deps, { ...known, every: typed ?? '' }, request);
  return addChore(deps, { ...known, every, rule: read.rule }, request);
}

function edit(
  deps: UpkeepDeps,
  chore: Chore,
  given: Given & { next?: string | undefined; name?: string | undefined },
  request: Request,
): Answer {
  const { now } = request;
  if (Object.values(given).every((value) => value === undefined)) return trouble.nothingToEditView();
  const every = given.every === undefined ? chore.every : readEvery(given.every);
  if (every === null) return trouble.badEveryView(given.every ?? '');
  const read = readRule(given.at, given.zone, chore.rule);
  if (read.kind === 'problem') return read.view;
  const rule = read.kind === 'rule' ? read.rule : chore.rule;
  const due = given.next === undefined ? chore.due : readDay(given.next, localDate(now, rule.zone));
  if (due === null) return trouble.badDayView(given.next ?? '');
  const title = given.name === undefined ? chore.title : choreTitle(given.name);
  if (title === null) return trouble.badTitleView();
  const tank = tankIdOf(deps, given.tank, request);
  if (tank.kind === 'problem') return tank.view;
  const tankId = given.tank === undefined ? chore.tankId : tank.id;
  if (given.at !== undefined || given.zone !== undefined) deps.zones.remember(chore.memberId, rule, now);
  const after = scheduled({ ...chore, every, rule, due, title, tankId }, now);
  return editedView(toldOf(deps)(after), deps.chores.act(chore, after, 'edited', null, now));
}
