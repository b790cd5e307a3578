import type { Answer, Choice, FormView, MessageView, Request } from '../discord/message-view.ts';
import type { ChoreIdea } from '../knowledge/chore.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { knownZone, timeOfDayIn, type DailyRule } from '../schedule/local-time.ts';
import type { SeenTanks } from '../tanks/tank.store.ts';
import { nameKey, singleLine } from '../tanks/tank-name.ts';
import { firstDue, scheduled, type Chore } from './chore-rule.ts';
import { addedView, driftWords, MOST_CHORES } from './chore-said.view.ts';
import type { ChoreStore } from './chore.store.ts';
import * as trouble from './chore-trouble.view.ts';
import type { ToldChore } from './chore.view.ts';
import { everyAsTyped, type Every } from './every.ts';
import type { MemberZoneStore } from './member-zone.store.ts';

export type UpkeepDeps = {
  base: KnowledgeBase;
  chores: ChoreStore;
  zones: MemberZoneStore;
  tanks: SeenTanks;
  /** What the member chose elsewhere, where they were asked before. */
  lastRule: (guildId: string, memberId: string) => DailyRule | undefined;
};

const MOST_TITLE = 60;
const DEFAULT_TIME = '19:00';

/** A chore with its tank’s name and its suggestion, as they are now. */
export const toldOf =
  ({ base, tanks }: Pick<UpkeepDeps, 'base' | 'tanks'>) =>
  (chore: Chore): ToldChore => {
    const tank = chore.tankId === null ? undefined : tanks.find(chore.guildId, chore.tankId);
    return {
      chore,
      tankName: tank?.memberId === chore.memberId ? tank.name : null,
      idea: chore.idea === null ? null : (base.chores.get(chore.idea) ?? null),
    };
  };

export const driftOf = ({ chores }: UpkeepDeps, chore: Chore) => driftWords(chore, chores.rounds(chore.id));

/** The suggestion that a text means: its name or one of its aliases. */
export function ideaNamed({ base }: Pick<UpkeepDeps, 'base'>, typed: string): ChoreIdea | null {
  const key = nameKey(typed);
  return (
    [...base.chores.values()].find(({ id, name, aliases }) =>
      [id, name, ...aliases].some((each) => nameKey(each) === key),
    ) ?? null
  );
}

export function suggestIdeas({ base }: Pick<UpkeepDeps, 'base'>, typed: string): Choice[] {
  const words = nameKey(typed).split(' ');
  return [...base.chores.values()]
    .filter(({ name, aliases }) => {
      const text = nameKey([name, ...aliases].join(' '));
      return words.every((word) => text.includes(word));
    })
    .slice(0, 25)
    .map(({ name }) => ({ name, value: name }));
}

/** One of the asker’s own chores, by its name or its beginning. */
export function onOwnChore(
  { chores }: UpkeepDeps,
  typed: string,
  { guildId, memberId }: Request,
  run: (chore: Chore) => Answer,
): Answer {
  if (guildId === null) return trouble.needsAClubView();
  const own = chores.ofMember(guildId, memberId);
  const key = nameKey(typed);
  const exact = own.find(({ title }) => nameKey(title) === key);
  const begun = own.filter(({ title }) => nameKey(title).includes(key));
  const chore = exact ?? (key !== '' && begun.length === 1 ? begun[0] : undefined);
  return chore ? run(chore) : trouble.whichChoreView(typed, own);
}

export function suggestChores({ chores }: UpkeepDeps, typed: string, { guildId, memberId }: Request): Choice[] {
  if (guildId === null) return [];
  const key = nameKey(typed);
  return chores
    .ofMember(guildId, memberId)
    .filter(({ title }) => nameKey(title).includes(key))
    .slice(0, 25)
    .map(({ title }) => ({ name: title, value: title }));
}

/** A chore’s name on one line; null when nothing is left, or too much. */
export function choreTitle(typed: string): string | null {
  const title = singleLine(typed);
  return title !== '' && title.length <= MOST_TITLE ? title : null;
}

export const rememberedRule = (
  { zones, lastRule }: UpkeepDeps,
  { guildId, memberId }: Request,
): DailyRule | undefined => zones.of(memberId) ?? (guildId === null ? undefined : lastRule(guildId, memberId));

/** Time and zone as typed, where something was typed; otherwise what was chosen before. */
export function readRule(
  time: string | undefined,
  zone: string | undefined,
  before: DailyRule | undefined,
): { kind: 'rule'; rule: DailyRule } | { kind: 'ask' } | { kind: 'problem'; view: MessageView } {
  const timeOfDay = time === undefined ? (before?.timeOfDay ?? DEFAULT_TIME) : timeOfDayIn(time);
  if (timeOfDay === null) return { kind: 'problem', view: trouble.badTimeView(time ?? '') };
  if (zone === undefined) return before ? { kind: 'rule', rule: { timeOfDay, zone: before.zone } } : { kind: 'ask' };
  const known = knownZone(zone);
  return known === null
    ? { kind: 'problem', view: trouble.badZoneView(zone) }
    : { kind: 'rule', rule: { timeOfDay, zone: known } };
}

export type NewChore = {
  title: string;
  idea: string | null;
  tankId: number | null;
  every: Every;
  rule: DailyRule;
  first: string | null;
};

/** Adds a chore, remembers time and zone, and says when it comes first. */
export function addChore(deps: UpkeepDeps, { first, ...given }: NewChore, request: Request): MessageView {
  const { guildId, channelId, memberId, now } = request;
  if (guildId === null || channelId === null) return trouble.needsAClubView();
  const own = deps.chores.ofMember(guildId, memberId);
  if (own.length >= MOST_CHORES) return trouble.tooManyView();
  if (own.some(({ title }) => nameKey(title) === nameKey(given.title))) return trouble.twiceView(given.title);
  deps.zones.remember(memberId, given.rule, now);
  const fresh: Omit<Chore, 'id'> = {
    ...given,
    guildId,
    memberId,
    channelId,
    due: firstDue(given.every, given.rule.zone, now, first),
    next: null,
    told: null,
    toldKey: null,
    unanswered: 0,
    lastDone: null,
  };
  const { chore, actId } = deps.chores.add(scheduled(fresh, now), now);
  return addedView(toldOf(deps)(chore), actId, now);
}

/** Asks what is not known yet; everything that is known is filled in. */
export function addForm(
  deps: UpkeepDeps,
  known: { title: string; every: string; idea: string | null; tankId: number | null; first: string | null },
  request: Request,
): FormView {
  const before = rememberedRule(deps, request);
  return {
    kind: 'form',
    act: 'chore-begin',
    args: [known.idea ?? '-', known.tankId === null ? '-' : String(known.tankId), known.first ?? '-'],
    title: 'Remind me of a chore',
    fields: [
      {
        kind: 'line',
        name: 'title',
        label: 'What is to be done?',
        required: true,
        mostCharacters: 60,
        value: known.title,
      },
      {
        kind: 'line',
        name: 'every',
        label: 'How often?',
        description: 'Such as 30 days, 2 weeks, Sat, or Mon and Thu',
        required: true,
        mostCharacters: 60,
        value: known.every,
      },
      {
        kind: 'line',
        name: 'time',
        label: 'At what time of day?',
        description: 'Such as 19:30 or 7:30 pm',
        required: true,
        mostCharacters: 12,
        value: before?.timeOfDay ?? DEFAULT_TIME,
      },
      {
        kind: 'line',
        name: 'zone',
        label: 'Your time zone',
        description: 'A region and a city near you, such as Europe/Lisbon. I ask once and remember it',
        required: true,
        mostCharacters: 60,
        ...(before ? { value: before.zone } : { placeholder: 'Europe/Lisbon' }),
      },
    ],
  };
}

/** The form for a suggestion of the trade. */
export const ideaForm = (deps: UpkeepDeps, idea: ChoreIdea, request: Request): FormView =>
  addForm(
    deps,
    {
      title: idea.name,
      every: everyAsTyped({ kind: 'days', days: idea.everyDays }),
      idea: idea.id,
      tankId: null,
      first: null,
    },
    request,
  );
