import { joined, md, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { ChoreIdea } from '../knowledge/chore.ts';
import { localDate } from '../schedule/local-time.ts';
import { drift, fittingEvery, type Chore } from './chore-rule.ts';
import type { ActKind, ChoreAct } from './chore-act.ts';
import {
  at,
  cut,
  day,
  days,
  isOpen,
  lineOf,
  nameOf,
  proseOf,
  roundButtons,
  says,
  undoButton,
  type ToldChore,
} from './chore.view.ts';
import { daysBetween, everyInWords } from './every.ts';

export const MOST_CHORES = 20;

const STANDINGS = {
  'common-practice': 'common practice among keepers; nobody has published it',
  'from-memory': 'cited from memory',
  published: 'published',
} as const;

/** What first aid is for, as it stands on a button. */
const HARMS: Readonly<Record<string, string>> = {
  'electricity-water': 'electric shock',
  'chem-acid': 'acid',
  'chem-base': 'burning solution',
  'chem-iodine': 'iodine',
  'toxin-palytoxin': 'palytoxin',
  'wound-infection': 'infected wound',
};

/** A job of the trade: why, what to mind, how. */
/** `isMine`: it is on the member’s list already, so it is not offered again. */
export function ideaView(idea: ChoreIdea, isMine: boolean): MessageView {
  return says(
    [
      md`## ${idea.name}`,
      proseOf(idea.why),
      idea.caution === undefined ? null : md`**Before you begin:** ${proseOf(idea.caution)}`,
      joined(idea.how.map((step, number) => md`${number + 1}. ${proseOf(step)}`)),
      md`**How often:** ${proseOf(idea.interval)} (${STANDINGS[idea.standing]})`,
    ],
    {
      tone: idea.caution === undefined ? 'plain' : 'watch',
      buttons: [
        ...(isMine
          ? []
          : [{ label: 'Remind me of this', act: 'chore-add', args: [idea.id], style: 'primary' } satisfies ButtonView]),
        ...idea.firstAid.slice(0, 4).map((row): ButtonView => ({
          label: cut(`First aid: ${HARMS[row] ?? row.replaceAll('-', ' ')}`, 80),
          act: 'aid',
          args: [row],
          style: 'danger',
        })),
      ],
    },
  );
}

/** All jobs of the trade, to choose one from. */
export const ideasView = (ideas: readonly ChoreIdea[]): MessageView =>
  says(
    [
      md`## Chores of the trade`,
      joined(ideas.map(({ name, everyDays }) => md`- ${name}, about every ${days(everyDays)}`)),
      md`-# How often is common practice among keepers, without a published source. Yours shows in **/upkeep history**.`,
    ],
    {
      blocks: [
        {
          kind: 'select',
          act: 'chore-how',
          args: [],
          placeholder: 'Read why and how',
          options: ideas.slice(0, 25).map(({ id, name }) => ({ label: name, value: id })),
        },
      ],
    },
  );

export function addedView(told: ToldChore, actId: number, now: Date): MessageView {
  const { chore, idea } = told;
  return says(
    [
      md`## I will remind you: ${nameOf(told)}`,
      md`${everyInWords(chore.every).replace(/^e/, 'E')} at ${chore.rule.timeOfDay} (${chore.rule.zone})${chore.next ? md`, first ${at(chore.next.at)}` : md``}.${chore.due > localDate(now, chore.rule.zone) ? md` Is it due sooner? **/upkeep edit** with **next: today**.` : md``}`,
      md`I write to you directly, and nobody else sees it. If you take no direct messages from this server, I write in this channel and call you there.`,
      idea?.caution === undefined ? null : md`**Before you begin:** ${proseOf(idea.caution)}`,
    ],
    {
      tone: 'calm',
      buttons: [
        ...(idea ? [{ label: 'Why and how', act: 'chore-how', args: [idea.id, 'mine'] }] : []),
        undoButton(actId),
      ],
    },
  );
}

export const editedView = (told: ToldChore, actId: number): MessageView =>
  says(
    [
      md`## Changed: ${nameOf(told)}`,
      md`${everyInWords(told.chore.every).replace(/^e/, 'E')} at ${told.chore.rule.timeOfDay} (${told.chore.rule.zone}), due ${day(told.chore, told.chore.due)}${told.chore.next ? md`, next reminder ${at(told.chore.next.at)}` : md``}.`,
    ],
    { tone: 'calm', buttons: [undoButton(actId)] },
  );

export const removedView = (told: ToldChore, actId: number): MessageView =>
  says([md`## Removed: ${nameOf(told)}`, md`No more reminders of it. **Undo** brings it back with its history.`], {
    buttons: [undoButton(actId)],
  });

const UNDONE: Readonly<Record<ActKind, Markdown>> = {
  added: md`It is no longer on your list.`,
  done: md`It is not done, as before.`,
  skipped: md`It is not left out, as before.`,
  later: md`The reminder is where it was before.`,
  edited: md`It is as it was before.`,
  removed: md`It is on your list again.`,
};
export const undoneView = (told: ToldChore, what: ActKind, isButton: boolean): MessageView =>
  says(
    [
      md`## Taken back: ${nameOf(told)}`,
      md`${UNDONE[what]}${what !== 'added' && told.chore.next ? md` Next reminder ${at(told.chore.next.at)}.` : md``}`,
    ],
    { replaces: isButton, buttons: what !== 'added' && isOpen(told.chore) ? roundButtons(told) : [] },
  );

/** All chores of a member: the overdue ones first. */
export function listView(list: readonly ToldChore[], now: Date): MessageView {
  if (list.length === 0)
    return says([
      md`## No chores yet`,
      md`**/upkeep ideas** has the chores of the trade, each with why and how. **/upkeep add** takes one of them, or your own words.`,
    ]);
  const sorted = [...list].sort((a, b) => (a.chore.due < b.chore.due ? -1 : a.chore.due > b.chore.due ? 1 : 0));
  const line = (each: ToldChore): Markdown => {
    const { next } = each.chore;
    const state = next === null ? md`, silent` : next.asked ? md`, moved to ${at(next.at)}` : md``;
    return md`- ${lineOf(each, list.length, now)}${state}`;
  };
  return says([md`## Your chores`, joined(sorted.map(line))], {
    blocks: [
      {
        kind: 'select',
        act: 'chore-card',
        args: [],
        placeholder: 'Done, later, skip, or how',
        options: sorted.slice(0, 25).map(({ chore, tankName }) => ({
          label: cut(chore.title, 100),
          value: String(chore.id),
          ...(tankName === null ? {} : { description: tankName }),
        })),
      },
    ],
  });
}

/** "On average 3 days late over the last 6 times", and the interval that would fit; null while there are too few. */
export function driftWords(chore: Chore, rounds: readonly ChoreAct[]): Markdown | null {
  const drifted = drift(
    rounds.flatMap(({ dueDate, doneDate, what }) =>
      what === 'done' && doneDate !== null ? [{ due: dueDate, done: doneDate }] : [],
    ),
  );
  if (drifted === null) return null;
  const rounded = Math.round(Math.abs(drifted.days) * 10) / 10;
  const fits = fittingEvery(chore.every, drifted);
  const how =
    rounded === 0
      ? md`on the day`
      : md`${rounded} ${rounded === 1 ? 'day' : 'days'} ${drifted.days > 0 ? 'late' : 'early'}`;
  return md`On average ${how} over the last ${drifted.times} times.${fits === null ? md`` : md` **every: ${days(fits)}** under **/upkeep edit** would fit what you do; whether it fits the tank, the tank shows.`}`;
}

const MOST_SHOWN = 12;
/** What was done and left out, with how late. */
export function historyView(told: ToldChore, rounds: readonly ChoreAct[]): MessageView {
  const { chore } = told;
  const line = ({ what, dueDate, doneDate }: ChoreAct): Markdown => {
    if (what === 'skipped' || doneDate === null) return md`- left out, was due ${day(chore, dueDate)}`;
    const late = daysBetween(dueDate, doneDate);
    return md`- done ${day(chore, doneDate)}, ${late === 0 ? 'on the day' : `${days(Math.abs(late))} ${late > 0 ? 'late' : 'early'}`}`;
  };
  const shown = rounds.slice(-MOST_SHOWN).reverse();
  return says([
    md`## History: ${nameOf(told)}`,
    md`${everyInWords(chore.every).replace(/^e/, 'E')}, due ${day(chore, chore.due)}.`,
    shown.length === 0 ? md`Nothing done or left out yet.` : joined(shown.map(line)),
    rounds.length > shown.length ? md`-# The last ${shown.length} of ${rounds.length}.` : null,
    driftWords(chore, rounds) ?? md`-# After three times I can say how it drifts.`,
  ]);
}

/** When else to be reminded. */
export function laterChoiceView(told: ToldChore, evening: Date | null, tomorrowAt: Date): MessageView {
  const args = [String(told.chore.id), told.chore.due];
  return says(
    [
      md`## When then?`,
      md`**${nameOf(told)}**: ${evening ? md`this evening is ${at(evening, 'f')}, ` : md``}tomorrow is ${at(tomorrowAt, 'f')}. Until then I say nothing of it.`,
    ],
    {
      buttons: [
        ...(evening
          ? [{ label: 'This evening', act: 'chore-to', args: [...args, 'evening'] } satisfies ButtonView]
          : []),
        { label: 'Tomorrow', act: 'chore-to', args: [...args, 'tomorrow'] },
        { label: 'Pick a time', act: 'chore-pick', args },
      ],
    },
  );
}
