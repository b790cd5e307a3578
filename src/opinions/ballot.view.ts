import { noteView } from '../critters/names.view.ts';
import { md, type FormView, type MessageView } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import { VERDICT_WORDS } from './case-words.ts';
import { entryOptions } from './named-entry.ts';
import { VERDICTS, type Moved } from './opinion.ts';

const MOST_NAME = 100;
const MOST_REASON = 500;

export const whichForm = (caseId: number): FormView => ({
  kind: 'form',
  act: 'opinion-name',
  args: [String(caseId)],
  title: 'Which animal is it?',
  fields: [
    {
      kind: 'line',
      name: 'entry',
      label: 'Its name or nickname',
      description: 'It is kept with your vote. Without a vote it becomes one.',
      required: true,
      mostCharacters: MOST_NAME,
      placeholder: 'bristle worm',
    },
  ],
});

export const settleForm = (caseId: number, entry: Critter | undefined): FormView => ({
  kind: 'form',
  act: 'opinion-settled',
  args: [String(caseId)],
  title: 'Settle this case',
  fields: [
    {
      kind: 'choice',
      name: 'verdict',
      label: 'What is it?',
      required: true,
      options: VERDICTS.map((verdict) => ({ label: VERDICT_WORDS[verdict], value: verdict })),
    },
    {
      kind: 'line',
      name: 'entry',
      label: 'Which animal, if you know',
      required: false,
      mostCharacters: MOST_NAME,
      ...(entry ? { value: entry.name } : {}),
    },
    {
      kind: 'paragraph',
      name: 'reason',
      label: 'Reason',
      description: 'What decides it? The asker and the club read this.',
      required: true,
      mostCharacters: MOST_REASON,
    },
  ],
});

/** A name that is not clear: the nearest three, to choose from. */
export const unclearNameView = (caseId: number, typed: string, nearest: readonly Critter[]): MessageView =>
  nearest.length === 0
    ? noteView('I have no entry of that name', md`“${typed}” is near no name I know. Press **Which animal?** again.`)
    : {
        audience: 'member',
        tone: 'plain',
        blocks: [
          { kind: 'text', text: md`## Which of these do you mean by “${typed}”?` },
          {
            kind: 'select',
            act: 'opinion-chosen',
            args: [String(caseId)],
            placeholder: 'The nearest names I know',
            options: entryOptions(nearest),
          },
        ],
      };

/** The same for a curator: nothing is settled until the name is clear. */
export const unclearSettlementView = (caseId: number, typed: string, nearest: readonly Critter[]): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [
    { kind: 'text', text: md`## Not settled yet: “${typed}” is no clear name` },
    { kind: 'text', text: md`Press the one you mean and give your reason again, or settle without a name.` },
    {
      kind: 'buttons',
      buttons: nearest.map(({ id, name }) => ({ label: name, act: 'opinion-settle', args: [String(caseId), id] })),
    },
  ],
});

export const notedView = ({ name }: Critter): MessageView => ({
  ...noteView('Noted', md`Your vote says **${name}**. It counts until you change it.`),
  replaces: true,
});

export const askerView = (): MessageView =>
  noteView(
    'You asked, so you do not vote',
    md`The others decide. If you know by now, press **Withdraw**, or tell it in the thread.`,
  );

export const noCaseView = (): MessageView =>
  noteView(
    'This case is not here any more',
    md`It belongs to another server or was removed. Ask again with **/critter ask**.`,
  );

/** Why a step was not taken. */
export function noView(why: Extract<Moved, { kind: 'no' }>['why']): MessageView {
  switch (why) {
    case 'closed':
      return noteView('This case is closed', md`Voting is over. A curator can open it again with **Reopen**.`);
    case 'open':
      return noteView('This case is open', md`There is nothing to open again. Vote with the buttons.`);
    case 'not-yours':
      return noteView(
        'That is not for you to press',
        md`The asker may withdraw a case, and a curator may open it again.`,
      );
    case 'too-late':
      return noteView(
        'There is nothing to take back',
        md`A curator’s last act can be taken back for 10 minutes. Decide anew instead.`,
      );
  }
}
