import {
  joined,
  md,
  mentionOf,
  type Block,
  type ButtonView,
  type Markdown,
  type MessageView,
} from '../discord/message-view.ts';
import type { ChoreIdea } from '../knowledge/chore.ts';
import { occurrenceOn } from '../schedule/local-time.ts';
import { overdueDays, type Chore } from './chore-rule.ts';
import { everyInWords } from './every.ts';

/** A chore with what stands around it. */
export type ToldChore = { chore: Chore; tankName: string | null; idea: ChoreIdea | null };

const MOST_DONE_BUTTONS = 5;

export const at = (when: Date, style: 'F' | 'R' | 'f' | 'D' = 'F'): Markdown => ({
  markdown: `<t:${Math.floor(when.getTime() / 1000)}:${style}>`,
});
/** A local date of a chore, as every reader's client writes dates. */
export const day = ({ rule }: Pick<Chore, 'rule'>, date: string): Markdown => at(occurrenceOn(rule, date).at, 'D');
export const days = (count: number): string => `${count} ${count === 1 ? 'day' : 'days'}`;
export const cut = (text: string, most: number): string =>
  text.length > most ? `${text.slice(0, most - 1).toWellFormed()}…` : text;

/** One private message of paragraphs and buttons. */
export const says = (
  paragraphs: readonly (Markdown | null)[],
  { tone = 'plain', buttons = [], blocks = [], replaces = false }: Partial<Parts> = {},
): MessageView => ({
  audience: 'member',
  tone,
  ...(replaces ? { replaces: true } : {}),
  blocks: [
    ...paragraphs.filter((text) => text !== null).map((text): Block => ({ kind: 'text', text })),
    ...blocks,
    ...(buttons.length > 0 ? [{ kind: 'buttons', buttons } satisfies Block] : []),
  ],
});
type Parts = {
  tone: MessageView['tone'];
  buttons: readonly ButtonView[];
  blocks: readonly Block[];
  replaces: boolean;
};

/** "Return pump bath, Reef". */
export const nameOf = ({ chore, tankName }: ToldChore): Markdown =>
  tankName === null ? md`${chore.title}` : md`${chore.title}, ${tankName}`;

/** From so many on, every line is kept short: a message takes 4,000 characters, and signs that are escaped count twice. */
const MANY = 9;
/** One of several chores on its line: its name and when it is due. */
export function lineOf(told: ToldChore, count: number, now: Date): Markdown {
  const { chore, tankName } = told;
  const isShort = count >= MANY;
  const short = {
    chore: { ...chore, title: cut(chore.title, 40) },
    tankName: tankName && cut(tankName, 16),
    idea: null,
  };
  const late = overdueDays(chore, now);
  const when = late > 0 ? md`**${days(late)} overdue**` : md`due ${day(chore, chore.due)}`;
  const name = nameOf(isShort ? short : told);
  return isShort ? md`**${name}**: ${when}` : md`**${name}**: ${when}, ${everyInWords(chore.every)}`;
}

/** The words of the button by which a reminder is known again. */
const doneArgs = ({ id, due, told }: Chore): string[] => [String(id), due, told ?? ''];
export const reminderMark = (chore: Chore): string => `1:chore-done:${doneArgs(chore).join(':')}`;

export const undoButton = (actId: number): ButtonView => ({ label: 'Undo', act: 'chore-undo', args: [String(actId)] });

const howButton = ({ idea }: ToldChore): ButtonView[] =>
  idea ? [{ label: 'Why and how', act: 'chore-how', args: [idea.id, 'mine'] }] : [];

/** Done, Later, Skip and how, for the round that is open. */
export const roundButtons = (told: ToldChore): ButtonView[] => {
  const { id, due } = told.chore;
  return [
    { label: 'Done', act: 'chore-done', args: doneArgs(told.chore), style: 'primary' },
    { label: 'Later', act: 'chore-later', args: [String(id), due] },
    { label: 'Skip', act: 'chore-skip', args: [String(id), due] },
    ...howButton(told),
  ];
};

function dueWords({ chore }: ToldChore, now: Date): Markdown {
  const late = overdueDays(chore, now);
  return late > 0
    ? md`${days(late)} overdue: it was due ${day(chore, chore.due)}, ${everyInWords(chore.every)}`
    : md`due ${day(chore, chore.due)}, ${everyInWords(chore.every)}`;
}

/** Whether the round that the last reminder told is still without an answer. */
export const isOpen = ({ due, told, next }: Chore): boolean => told !== null && due <= told && next?.asked !== true;

const nextWords = ({ next }: Chore): Markdown => (next ? md`next reminder ${at(next.at)}` : md`no more reminders`);

/** The reminder: one chore with its caution, or all that are due in one message. */
export function reminderView(list: readonly ToldChore[], now: Date): MessageView {
  const [first, ...more] = list;
  if (!first) throw new RangeError('a reminder tells of one chore at least');
  const member = mentionOf(first.chore.memberId);
  if (more.length === 0)
    return says(
      [
        md`## ${nameOf(first)}`,
        md`${member}, ${dueWords(first, now)}.`,
        first.idea?.caution === undefined ? null : md`**Before you begin:** ${proseOf(first.idea.caution)}`,
        silenceWords(first.chore),
      ],
      { tone: 'watch', buttons: roundButtons(first) },
    );
  return says(
    [
      md`## ${list.length} chores`,
      md`${member}, these wait for you; any order is fine.`,
      joined(list.map((each) => md`- ${lineOf(each, list.length, now)}`)),
      joined(list.flatMap(({ chore }) => silenceWords(chore) ?? []).slice(0, 1)),
    ].filter(({ markdown }) => markdown !== ''),
    { tone: 'watch', blocks: manyBlocks(list) },
  );
}

const silenceWords = ({ next, unanswered }: Chore): Markdown | null =>
  next === null
    ? md`-# ${unanswered} reminders had no answer, so this is the last. Any answer here wakes me again; **/upkeep list** keeps it.`
    : null;

const manyBlocks = (list: readonly ToldChore[]): Block[] => [
  {
    kind: 'buttons',
    buttons: list.slice(0, MOST_DONE_BUTTONS).map(({ chore }) => ({
      label: cut(`Done: ${chore.title}`, 80),
      act: 'chore-done',
      args: doneArgs(chore),
      style: 'primary',
    })),
  },
  {
    kind: 'select',
    act: 'chore-card',
    args: [],
    placeholder: 'Later, skip, or how to do one of them',
    options: list.slice(0, 25).map(({ chore, tankName }) => ({
      label: cut(chore.title, 100),
      value: String(chore.id),
      ...(tankName === null ? {} : { description: tankName }),
    })),
  },
];

/** A reminder of several, after one of them was answered: it takes the place of the first. */
export function answeredView(list: readonly ToldChore[], now: Date, actId: number | null): MessageView {
  const open = list.filter(({ chore }) => isOpen(chore));
  const lines = list.map((each) =>
    isOpen(each.chore)
      ? md`- ${lineOf(each, list.length, now)}`
      : md`- ✓ ${cut(each.chore.title, 40)}: ${nextWords(each.chore)}`,
  );
  const [only] = open;
  return says(
    [
      open.length === 0 ? md`## All ${list.length} answered` : md`## ${open.length} of ${list.length} chores left`,
      joined(lines),
    ],
    {
      tone: open.length === 0 ? 'calm' : 'watch',
      blocks:
        only && open.length === 1
          ? [{ kind: 'buttons', buttons: roundButtons(only) }]
          : open.length > 0
            ? manyBlocks(open)
            : [],
      buttons: actId === null ? [] : [undoButton(actId)],
      replaces: true,
    },
  );
}

/** What a chore is and how it stands, with everything that can be done with it. */
export function cardView(told: ToldChore, driftWords: Markdown | null, now: Date): MessageView {
  const { chore } = told;
  return says(
    [
      md`## ${nameOf(told)}`,
      md`${chore.lastDone === null ? md`Not done yet` : md`Last done ${day(chore, chore.lastDone)}`}; ${dueWords(told, now)} at ${chore.rule.timeOfDay} (${chore.rule.zone}).`,
      chore.next
        ? md`Next reminder ${at(chore.next.at)}.`
        : md`I fell silent, because reminders had no answer. **Done**, **Later** or **Skip** wakes me.`,
      driftWords,
    ],
    { buttons: roundButtons(told) },
  );
}

export function doneView(
  told: ToldChore,
  date: string,
  actId: number,
  driftWords: Markdown | null,
  replaces: boolean,
): MessageView {
  const { chore } = told;
  return says(
    [
      md`## Done: ${nameOf(told)}`,
      md`Noted for ${day(chore, date)}. It is due again ${day(chore, chore.due)}${chore.next ? md` (${at(chore.next.at, 'R')})` : md``}.`,
      driftWords,
    ],
    { tone: 'calm', buttons: [undoButton(actId)], replaces },
  );
}

export const skippedView = (told: ToldChore, actId: number, replaces: boolean): MessageView =>
  says([md`## Left out this time`, md`**${nameOf(told)}** is due again ${day(told.chore, told.chore.due)}.`], {
    buttons: [undoButton(actId)],
    replaces,
  });

export const laterView = (told: ToldChore, actId: number): MessageView =>
  says(
    [
      md`## Moved`,
      md`I remind you of **${nameOf(told)}** ${told.chore.next ? at(told.chore.next.at) : md``}, once. It still counts from ${day(told.chore, told.chore.due)}.`,
    ],
    { tone: 'calm', buttons: [undoButton(actId)] },
  );

/** Text of the knowledge base; it may hold bold command names. */
export const proseOf = (text: string): Markdown => ({ markdown: text });
