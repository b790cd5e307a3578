import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { FileEntry, type PickedFile } from './file-entry.tsx';
import type { InputPart, RadioPart, TextInputPart } from './parts.ts';
import { useRoom, type RoomView } from './room-view.ts';
import { ManyOptions, optionsOfSelect, SingleSelect } from './select-view.tsx';

type Props = {
  input: InputPart;
  label: string;
  help: string;
  value: string[];
  files: PickedFile[];
  onValue(value: string[]): void;
  onFiles(files: PickedFile[]): void;
};

/** What stands in an input when the form opens. */
export function startValue(input: InputPart, room: RoomView): string[] {
  if (input.type === 4) return input.value === undefined ? [] : [input.value];
  if (input.type === 19) return [];
  if (input.type === 23) return [String(input.default === true)];
  const options = input.type === 21 || input.type === 22 ? input.options : optionsOfSelect(input, room);
  return options.filter((option) => option.default).map(({ value }) => value);
}

/** One input of a form with its label and help. Only a check box and what says so may be left empty. */
export function ModalInput(props: Props) {
  const { input, label, help } = props;
  const id = useId();
  const room = useRoom();
  const optional = input.type !== 23 && input.required === false;
  const name = `${label}${optional ? ' (optional)' : ''}`;
  const helpId = help === '' ? undefined : `${id}-help`;
  const note = help !== '' && (
    <span class="small" id={helpId}>
      {help}
    </span>
  );
  switch (input.type) {
    case 4:
      return (
        <TextField {...props} input={input} id={id} name={name} required={!optional} helpId={helpId} note={note} />
      );
    case 19:
      return (
        <FileEntry
          label={name}
          help={help || undefined}
          picked={props.files}
          most={input.max_values ?? 1}
          required={!optional}
          onPick={props.onFiles}
        />
      );
    case 21:
      return <Radios {...props} input={input} name={name} required={!optional} />;
    case 23:
      return (
        <div class="field">
          <label class="option">
            <input
              type="checkbox"
              checked={props.value[0] === 'true'}
              aria-describedby={helpId}
              onChange={(event) => props.onValue([String(event.currentTarget.checked)])}
            />
            <span>{name}</span>
          </label>
          {note}
        </div>
      );
    default: {
      const options = input.type === 22 ? input.options : optionsOfSelect(input, room);
      const most = input.max_values ?? (input.type === 22 ? options.length : 1);
      if (input.type !== 22 && most === 1) {
        return (
          <div class="field">
            <label for={id}>{name}</label>
            {note}
            <SingleSelect
              id={id}
              options={options}
              value={props.value[0] ?? ''}
              empty={input.placeholder ?? 'choose …'}
              required={!optional}
              describedBy={helpId}
              onPick={(value) => props.onValue(value === '' ? [] : [value])}
            />
          </div>
        );
      }
      return (
        <fieldset class="field" aria-describedby={helpId}>
          <legend>{name}</legend>
          {note}
          <ManyOptions options={options} picked={props.value} most={most} name={id} onPick={props.onValue} />
        </fieldset>
      );
    }
  }
}

type FieldProps = Props & {
  input: TextInputPart;
  id: string;
  name: string;
  required: boolean;
  helpId: string | undefined;
  note: ComponentChildren;
};

function TextField({ input, id, name, required, helpId, note, value, onValue }: FieldProps) {
  const text = value[0] ?? '';
  const most = input.max_length ?? 4000;
  const shared = {
    id,
    value: text,
    required,
    maxLength: most,
    minLength: input.min_length ?? 0,
    placeholder: input.placeholder ?? '',
    'aria-describedby': [helpId, `${id}-count`].filter(Boolean).join(' '),
    onInput: (event: { currentTarget: { value: string } }) => onValue([event.currentTarget.value]),
  };
  return (
    <div class="field">
      <label for={id}>{name}</label>
      {note}
      {input.style === 2 ? <textarea rows={4} {...shared} /> : <input type="text" {...shared} />}
      <span class="small" id={`${id}-count`}>
        {text.length} of {most} characters
      </span>
    </div>
  );
}

const Radios = ({
  input,
  name,
  required,
  help,
  value,
  onValue,
}: Props & { input: RadioPart; name: string; required: boolean }) => (
  <fieldset class="field">
    <legend>{name}</legend>
    {help !== '' && <span class="small">{help}</span>}
    {input.options.map((option) => (
      <label key={option.value} class="option">
        <input
          type="radio"
          name={input.custom_id}
          required={required}
          checked={value[0] === option.value}
          onChange={() => onValue([option.value])}
        />
        <span>
          {option.label}
          {option.description && <span class="small"> {option.description}</span>}
        </span>
      </label>
    ))}
  </fieldset>
);
