import {
  joined,
  md,
  type FormView,
  type Markdown,
  type MessageView,
  type SelectOption,
} from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import { readingIn, valueIn } from './measured.ts';
import { privately, undoButton } from './privately.ts';
import { moment } from './reading-words.ts';
import { shareInWords } from './noted.view.ts';
import type { Tank } from './tank.ts';
import type { ChangeKind } from './tank-change.ts';
import type { LogEntry, Reading } from './tank-log.ts';

/** Discord takes so many choices in one list. */
export const MOST_LISTED = 25;

/** An entry in a few words: "Alkalinity 8.2 dKH", "20 g baking soda", "10 % water change". */
export function entryInWords(base: KnowledgeBase, entry: LogEntry, tank: Tank): string {
  switch (entry.kind) {
    case 'reading': {
      const parameter = base.parameters.get(entry.parameter);
      return parameter ? readingIn(parameter, entry.value, tank.units) : `${entry.parameter} ${entry.value}`;
    }
    case 'dose':
      return entry.days === 1 ? entry.what : `${entry.what}, ${entry.days} days`;
    case 'water-change':
      return `${shareInWords(entry.share)} water change`;
  }
}

/** The last entries, with a list to choose one that is to be corrected or deleted. */
export function logView(base: KnowledgeBase, tank: Tank, entries: readonly LogEntry[], count: number): MessageView {
  if (entries.length === 0)
    return privately(md`Nothing noted for ${tank.name}`, [
      md`Begin with **/tank reading**, **/tank dosed** or **/tank water-change**.`,
    ]);
  const listed = entries.slice(0, MOST_LISTED);
  const lines = listed.map((entry) => md`- ${moment(entry.at)} · ${entryInWords(base, entry, tank)}${kitOf(entry)}`);
  return privately(
    md`Noted for ${tank.name}`,
    [joined(lines), count > listed.length ? md`-# The last ${listed.length} of ${count} entries.` : null],
    {
      blocks: [
        {
          kind: 'select',
          act: 'tank-entry',
          args: [String(tank.id)],
          placeholder: 'Correct or delete one',
          options: listed.map((entry) => optionOf(base, entry, tank)),
        },
      ],
    },
  );
}

const kitOf = (entry: LogEntry): Markdown =>
  entry.kind === 'reading' && entry.kit !== null ? md`, with ${entry.kit}` : md``;

const optionOf = (base: KnowledgeBase, entry: LogEntry, tank: Tank): SelectOption => ({
  label: entryInWords(base, entry, tank),
  value: String(entry.id),
  description: `${entry.at.toISOString().slice(0, 16).replace('T', ' ')} UTC`,
});

/** One entry with what can be done to it. */
export const entryView = (base: KnowledgeBase, tank: Tank, entry: LogEntry): MessageView =>
  privately(
    md`${entryInWords(base, entry, tank)}`,
    [
      md`Noted for ${moment(entry.at)} in **${tank.name}**${kitOf(entry)}.`,
      entry.kind === 'reading' ? null : md`To correct it, delete it and note it anew.`,
    ],
    {
      buttons: [
        ...(entry.kind === 'reading'
          ? [{ label: 'Correct', act: 'tank-correct', args: [String(entry.id)], style: 'primary' as const }]
          : []),
        { label: 'Delete', act: 'tank-delete', args: [String(entry.id)], style: 'danger' },
      ],
    },
  );

export const correctForm = (tank: Tank, reading: Reading, parameter: Parameter): FormView => ({
  kind: 'form',
  act: 'tank-corrected',
  args: [String(reading.id)],
  title: `Correct: ${parameter.name}`,
  fields: [
    {
      kind: 'line',
      name: 'value',
      label: 'What you read',
      description: 'With its unit if you like, such as 8.2 dKH',
      required: true,
      mostCharacters: 100,
      value: valueIn(parameter, reading.value, tank.units),
    },
    {
      kind: 'line',
      name: 'when',
      label: 'When, if that was wrong too',
      description: 'Such as yesterday, 2 days ago or 2026-11-20; empty: as it is',
      required: false,
      mostCharacters: 40,
    },
  ],
});

export const deletedView = (base: KnowledgeBase, tank: Tank, entry: LogEntry, changeId: number): MessageView =>
  privately(md`Deleted: ${entryInWords(base, entry, tank)}`, [md`It is no longer reckoned with in **${tank.name}**.`], {
    buttons: [undoButton(changeId)],
    replaces: true,
  });

const TAKEN_BACK: Readonly<Record<ChangeKind, string>> = {
  added: 'The tank you added is gone again',
  edited: 'The tank is as it was before you changed it',
  removed: 'The tank is back, with everything that was noted',
  'reading-noted': 'The reading is out of the log again',
  'reading-corrected': 'The reading is as it was before you corrected it',
  'dose-noted': 'The dose is out of the log again',
  'water-change-noted': 'The water change is out of the log again',
  'entry-deleted': 'The entry is back in the log',
};

export const undoneView = (what: ChangeKind, name: string, isButton: boolean): MessageView =>
  privately(
    md`${TAKEN_BACK[what]}`,
    [name === '' ? null : md`Tank: **${name}**. **/tank undo** takes back what came before.`],
    {
      tone: 'calm',
      replaces: isButton,
    },
  );

export const nothingToUndoView = (): MessageView =>
  privately(md`Nothing to take back`, [
    md`I keep the last 50 changes of each of your tanks, and a removed tank for 30 days. There is none, or it has been taken back already.`,
  ]);

export const laterChangesView = (): MessageView =>
  privately(md`Something came after that`, [
    md`You changed this tank again since. **/tank undo** takes changes back one by one, the last first. Nothing was changed now.`,
  ]);
