import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { PageCommand, PageFile, PageOption } from '../page-shapes.ts';
import { missingFrom, type TypedOption } from './command-line.ts';
import { FileEntry, type PickedFile } from './file-entry.tsx';
import { OptionEntry, type OptionValue } from './option-entry.tsx';
import { packFile } from './room-link.ts';

const ATTACHMENT = 11;
const EMPTY: OptionValue = { shown: '', sent: '' };

type Props = {
  command: PageCommand;
  initial: TypedOption[];
  onSend(options: TypedOption[], files: Record<string, PageFile>): Promise<string>;
  onLeave(): void;
};

/** A picked command with its options in order. What is optional waits behind a button until it is wanted. */
export function CommandForm({ command, initial, onSend, onLeave }: Props) {
  const [values, setValues] = useState<Record<string, OptionValue>>(() =>
    Object.fromEntries(initial.map(({ name, value }) => [name, { shown: value, sent: value }])),
  );
  const [files, setFiles] = useState<Record<string, PickedFile>>({});
  const [wanted, setWanted] = useState<string[]>(() => initial.map(({ name }) => name));
  const [trouble, setTrouble] = useState('');
  const [sending, setSending] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  // The first option takes the focus by itself; a command that asks for nothing is one Enter from being sent.
  useLayoutEffect(() => {
    if (!form.current?.contains(document.activeElement))
      form.current?.querySelector<HTMLElement>('[type=submit]')?.focus();
  }, []);
  const shown = command.options.filter(({ name, required }) => required || wanted.includes(name));
  const spare = command.options.filter((option) => !shown.includes(option));
  const typed = shown
    .filter(({ type }) => type !== ATTACHMENT)
    .map(({ name }) => ({ name, value: (values[name] ?? EMPTY).sent.trim() }))
    .filter(({ value }) => value !== '');

  const send = async () => {
    if (sending) return;
    const filled = [...typed, ...Object.keys(files).map((name) => ({ name, value: 'file' }))];
    const missing = missingFrom(command, filled);
    if (missing.length > 0) {
      setTrouble(`Still needed: ${missing.join(', ')}.`);
      form.current?.querySelector<HTMLElement>(`[data-option="${missing[0]}"] input`)?.focus();
      return;
    }
    setSending(true);
    const packed: Record<string, PageFile> = {};
    for (const [name, { file, alt }] of Object.entries(files)) packed[name] = await packFile(file, alt);
    setTrouble(await onSend(typed, packed));
    setSending(false);
  };
  const entry = (option: PageOption, index: number) =>
    option.type === ATTACHMENT ? (
      <FileEntry
        label={`${option.name} ${option.required ? 'required' : 'optional'}`}
        picked={files[option.name] ? [files[option.name] as PickedFile] : []}
        onPick={([picked]) => {
          const others = Object.entries(files).filter(([name]) => name !== option.name);
          setFiles(Object.fromEntries(picked ? [...others, [option.name, picked]] : others));
        }}
      />
    ) : (
      <OptionEntry
        command={command}
        option={option}
        value={values[option.name] ?? EMPTY}
        others={typed.filter(({ name }) => name !== option.name)}
        autoFocus={index === 0 || wanted.at(-1) === option.name}
        onValue={(value) => setValues((before) => ({ ...before, [option.name]: value }))}
        onSend={() => void send()}
        onLeave={onLeave}
      />
    );
  return (
    <form
      class="command"
      ref={form}
      aria-label={`Command /${command.name}`}
      onSubmit={(event) => {
        event.preventDefault();
        void send();
      }}
    >
      <p>
        <strong>/{command.name}</strong> <span class="small">{command.description}</span>
      </p>
      <div class="options-row">
        {shown.map((option, index) => (
          <div key={option.name} data-option={option.name}>
            {entry(option, index)}
          </div>
        ))}
      </div>
      {spare.length > 0 && (
        <div class="row">
          <span class="small">Add:</span>
          {spare.map(({ name, description }) => (
            <button
              key={name}
              type="button"
              class="button quiet"
              title={description}
              onClick={() => setWanted([...wanted, name])}
            >
              {name} (optional)
            </button>
          ))}
        </div>
      )}
      {trouble !== '' && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
      <div class="row">
        <button type="submit" class="button primary" aria-busy={sending}>
          {sending ? 'Sending …' : 'Send'}
        </button>
        <button type="button" class="button" onClick={onLeave}>
          Leave the command
        </button>
      </div>
    </form>
  );
}
