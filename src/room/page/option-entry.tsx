import { useId, useState } from 'preact/hooks';
import type { PageCommand, PageOption } from '../page-shapes.ts';
import { ChoiceList, useListCursor } from './choice-list.tsx';
import type { TypedOption } from './command-line.ts';
import { useChoices } from './use-choices.ts';

/** What an option holds: what is shown, and what is sent (a choice shows its name and sends its value). */
export type OptionValue = { shown: string; sent: string };

type Props = {
  command: PageCommand;
  option: PageOption;
  value: OptionValue;
  /** The other options, for suggestions that depend on them. */
  others: TypedOption[];
  autoFocus: boolean;
  onValue(value: OptionValue): void;
  onSend(): void;
  onLeave(): void;
};

/** One option of a command: a small combobox with its name and whether it must be filled. */
export function OptionEntry({ command, option, value, others, autoFocus, onValue, onSend, onLeave }: Props) {
  const id = useId();
  const [focused, setFocused] = useState(false);
  const [closed, setClosed] = useState(false);
  const active = focused && !closed;
  const { choices, note } = useChoices(command, option, [...others, { name: option.name, value: value.sent }], active);
  const { cursor, move, reset } = useListCursor(choices.length, false);
  const open = active && (choices.length > 0 || note !== '');
  const pick = (index: number) => {
    const choice = choices[index];
    if (choice) onValue({ shown: choice.name, sent: String(choice.value) });
    setClosed(true);
    reset();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.isComposing) return;
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      if (open) move(event.key === 'ArrowDown' ? 1 : -1);
      setClosed(false);
    } else if (event.key === 'Enter') {
      event.preventDefault();
      if (open && cursor !== null) pick(cursor);
      else onSend();
    } else if (event.key === 'Escape') {
      if (open) setClosed(true);
      else onLeave();
    } else if (event.key === 'Backspace' && value.shown === '' && autoFocus) onLeave();
  };
  return (
    <div class="option-entry">
      <label for={id}>
        {option.name} <span class="small">{option.required ? 'required' : 'optional'}</span>
      </label>
      <input
        id={id}
        role="combobox"
        autocomplete="off"
        aria-autocomplete="list"
        aria-expanded={open}
        aria-controls={open ? `${id}-list` : undefined}
        aria-activedescendant={open && cursor !== null ? `${id}-list-${cursor}` : undefined}
        aria-describedby={`${id}-help`}
        aria-required={option.required}
        inputMode={option.type === 4 || option.type === 10 ? 'decimal' : 'text'}
        value={value.shown}
        ref={(element) => {
          // Only on arrival: a later drawing must not take the focus back.
          if (autoFocus && element && !element.dataset.met) {
            element.dataset.met = 'yes';
            element.focus();
          }
        }}
        onFocus={() => setFocused(true)}
        onBlur={() => setFocused(false)}
        onInput={({ currentTarget: { value: text } }) => {
          setClosed(false);
          reset();
          onValue({ shown: text, sent: text });
        }}
        onKeyDown={onKeyDown}
      />
      <span class="small" id={`${id}-help`}>
        {option.description}
        {rangeInWords(option)}
      </span>
      {open && (
        <ChoiceList
          id={`${id}-list`}
          label={option.name}
          cursor={cursor}
          note={note}
          onPick={pick}
          entries={entriesOf(choices)}
        />
      )}
    </div>
  );
}

/** Choices as entries of a list. */
export const entriesOf = (choices: { name: string; value: string | number }[]) =>
  choices.map(({ name, value }, index) => ({ key: `${index} ${value}`, title: name }));

function rangeInWords({ min, max }: PageOption): string {
  if (min !== null && max !== null) return ` (${min} to ${max})`;
  if (min !== null) return ` (at least ${min})`;
  return max === null ? '' : ` (at most ${max})`;
}
