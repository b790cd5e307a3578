import { useId, useState } from 'preact/hooks';
import type { PageMessage } from '../page-shapes.ts';
import type { SelectOption, SelectPart } from './parts.ts';
import { useRoom, type RoomView } from './room-view.ts';

/** What a select offers: its own options, or members, roles or channels of the club, which are sent by name. */
export function optionsOfSelect(part: SelectPart, { state }: RoomView): SelectOption[] {
  const chosen = new Set(part.default_values?.map(({ id }) => id));
  const named = (items: { id: string; name: string }[], mark: string): SelectOption[] =>
    items.map(({ id, name }) => ({ label: mark + name, value: name, default: chosen.has(id) }));
  switch (part.type) {
    case 3:
      return part.options ?? [];
    case 5:
      return named(state.members, '@');
    case 6:
      return named(state.roles, '@');
    case 7:
      return [...named(state.members, '@'), ...named(state.roles, '@')];
    case 8:
      return named(
        state.channels.filter(({ kind }) => kind === 'channel'),
        '#',
      );
  }
}

/** A select of a message: one choice sends itself, several wait for the button. */
export function SelectView({ part, message }: { part: SelectPart; message: PageMessage }) {
  const room = useRoom();
  const id = useId();
  const [trouble, setTrouble] = useState('');
  const [pending, setPending] = useState(false);
  const options = optionsOfSelect(part, room);
  const [picked, setPicked] = useState<string[]>(() => options.filter((one) => one.default).map(({ value }) => value));
  const least = part.min_values ?? 1;
  const most = part.max_values ?? 1;
  const send = async (values: string[]) => {
    setPending(true);
    const answer = await room.play({ act: 'choose', message: message.id, customId: part.custom_id, values });
    setPending(false);
    setTrouble(answer.error ?? '');
  };
  const title = part.placeholder ?? 'Make a choice';
  if (most <= 1) {
    return (
      <div class="select">
        <label for={id}>{title}</label>
        <SingleSelect
          id={id}
          options={options}
          value={picked[0] ?? ''}
          empty={least === 0 ? 'nothing' : 'choose …'}
          disabled={part.disabled === true || pending}
          onPick={(value) => {
            setPicked(value === '' ? [] : [value]);
            if (value !== '' || least === 0) void send(value === '' ? [] : [value]);
          }}
        />
        {trouble !== '' && <span class="trouble">{trouble}</span>}
      </div>
    );
  }
  return (
    <fieldset class="select" disabled={part.disabled === true || pending}>
      <legend>{title}</legend>
      <ManyOptions options={options} picked={picked} most={most} name={id} onPick={setPicked} />
      <button
        type="button"
        class="button"
        disabled={picked.length < least || picked.length > most}
        onClick={() => void send(picked)}
      >
        Send choice ({picked.length} of {least === most ? most : `${least} to ${most}`})
      </button>
      {trouble !== '' && <span class="trouble">{trouble}</span>}
    </fieldset>
  );
}

type SingleProps = {
  id: string;
  options: SelectOption[];
  value: string;
  empty: string;
  disabled?: boolean;
  required?: boolean;
  describedBy?: string | undefined;
  onPick(value: string): void;
};

/** One of several, in the browser's own list. */
export const SingleSelect = ({ id, options, value, empty, disabled, required, describedBy, onPick }: SingleProps) => (
  <select
    id={id}
    value={value}
    disabled={disabled === true}
    required={required === true}
    aria-describedby={describedBy}
    onChange={(event) => onPick(event.currentTarget.value)}
  >
    <option value="">{empty}</option>
    {options.map((option) => (
      <option key={option.value} value={option.value}>
        {option.label}
        {option.description ? ` (${option.description})` : ''}
      </option>
    ))}
  </select>
);

type ManyProps = {
  options: SelectOption[];
  picked: string[];
  most: number;
  name: string;
  onPick(values: string[]): void;
};

/** Several of several, as check boxes. */
export const ManyOptions = ({ options, picked, most, name, onPick }: ManyProps) => (
  <div class="options">
    {options.map(({ value, label, description }) => (
      <label key={value} class="option">
        <input
          type="checkbox"
          name={name}
          checked={picked.includes(value)}
          disabled={!picked.includes(value) && picked.length >= most}
          onChange={(event) =>
            onPick(event.currentTarget.checked ? [...picked, value] : picked.filter((before) => before !== value))
          }
        />
        <span>
          {label}
          {description && <span class="small"> {description}</span>}
        </span>
      </label>
    ))}
  </div>
);
