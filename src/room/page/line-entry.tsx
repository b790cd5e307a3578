import { useId, useRef, useState } from 'preact/hooks';
import type { PageCommand } from '../page-shapes.ts';
import { ChoiceList, useListCursor, type ListEntry } from './choice-list.tsx';
import { findCommands, readLine } from './command-line.ts';
import { entriesOf } from './option-entry.tsx';
import { useRoom } from './room-view.ts';
import { useChoices } from './use-choices.ts';

type Props = {
  line: string;
  place: string;
  sending: boolean;
  onLine(line: string): void;
  onCommand(command: PageCommand): void;
  /** `values` says what is sent for a choice whose name stands in the line. */
  onSend(values: ReadonlyMap<string, string>): void;
  onFiles(files: FileList | null): void;
};
type Entry = ListEntry & { take(): void };

/** The entry line. `/` opens the list of commands, `@` the list of members; a whole command may simply be typed. */
export function LineEntry({ line, place, sending, onLine, onCommand, onSend, onFiles }: Props) {
  const { state, commands } = useRoom();
  const id = useId();
  const [focused, setFocused] = useState(false);
  const [closed, setClosed] = useState(false);
  const sentValues = useRef(new Map<string, string>());
  const picker = useRef<HTMLInputElement>(null);
  const read = readLine(line, commands);
  const typed = read.phase === 'options' ? read.typed : [];
  const current = typed.at(-1);
  const command = read.phase === 'options' ? read.command : null;
  const option = command?.options.find(({ name }) => name === current?.name) ?? null;
  const active = focused && !closed;
  const { choices, note } = useChoices(command, option, typed, active);

  const pickCommand = (picked: PageCommand) => {
    onLine('');
    onCommand(picked);
  };
  const replaceEnd = (length: number, text: string) => onLine(line.slice(0, line.length - length) + text);
  const entries = (): Entry[] => {
    if (read.phase === 'command') {
      return findCommands(read.query, commands).map((found) => ({
        key: found.name,
        title: `/${found.name}`,
        detail: found.description,
        take: () => pickCommand(found),
      }));
    }
    if (read.phase === 'options' && current) {
      return entriesOf(choices).map((entry, index) => ({
        ...entry,
        take: () => {
          sentValues.current.set(`${current.name}:${entry.title}`, String(choices[index]?.value));
          replaceEnd(current.value.length, entry.title);
        },
      }));
    }
    if (read.phase === 'options' && read.loose === '') {
      return read.command.options.map(({ name, required, description }) => ({
        key: name,
        title: `${name}:`,
        detail: `${required ? 'required' : 'optional'}. ${description}`,
        take: () => onLine(`${line.trimEnd()} ${name}:`),
      }));
    }
    const mention = /(?:^|\s)@([^@\s]*)$/.exec(line);
    if (!mention || read.phase !== 'words') return [];
    const begun = (mention[1] ?? '').toLowerCase();
    return state.members
      .filter(({ name }) => name.toLowerCase().startsWith(begun))
      .map(({ name, bot }) => ({
        key: name,
        title: `@${name}`,
        detail: bot ? 'the bot' : undefined,
        take: () => replaceEnd(begun.length, `${name} `),
      }));
  };
  const list = active ? entries() : [];
  const message = read.phase === 'command' && list.length === 0 ? 'No command of that name for this member.' : note;
  const { cursor, move, reset } = useListCursor(
    list.length,
    read.phase === 'command' || (read.phase === 'words' && list.length > 0),
  );
  const open = active && (list.length > 0 || message !== '');
  const take = (index: number) => {
    list[index]?.take();
    reset();
    // A finished choice closes its list; the list comes back with the next letter.
    setClosed(read.phase === 'options' && current !== undefined);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.isComposing) return;
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      setClosed(false);
      if (open) move(event.key === 'ArrowDown' ? 1 : -1);
    } else if (event.key === 'Escape') setClosed(true);
    else if (event.key === 'Enter') {
      event.preventDefault();
      if (open && cursor !== null && list[cursor]) take(cursor);
      else onSend(sentValues.current);
    }
  };
  return (
    <form
      class="line"
      onSubmit={(event) => {
        event.preventDefault();
        onSend(sentValues.current);
      }}
    >
      <label for="entry" class="hidden">
        Write in {place}; / for commands
      </label>
      <input
        id="entry"
        role="combobox"
        autocomplete="off"
        aria-autocomplete="list"
        aria-expanded={open}
        aria-controls={open ? `${id}-list` : undefined}
        aria-activedescendant={open && cursor !== null ? `${id}-list-${cursor}` : undefined}
        placeholder={`Write in ${place}, or / for commands`}
        maxLength={2000}
        value={line}
        onFocus={() => setFocused(true)}
        onBlur={() => setFocused(false)}
        onInput={(event) => {
          setClosed(false);
          reset();
          onLine(event.currentTarget.value);
        }}
        onKeyDown={onKeyDown}
      />
      <input ref={picker} type="file" multiple hidden onChange={(event) => onFiles(event.currentTarget.files)} />
      <button type="button" class="button" onClick={() => picker.current?.click()}>
        Attach
      </button>
      <button type="submit" class="button primary" aria-busy={sending}>
        {sending ? 'Waiting …' : 'Send'}
      </button>
      {open && (
        <ChoiceList id={`${id}-list`} label="Choices" entries={list} cursor={cursor} note={message} onPick={take} />
      )}
    </form>
  );
}
