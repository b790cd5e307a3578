import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { PageCommand, PageFile } from '../page-shapes.ts';
import { missingFrom, optionsOf, readLine, type TypedOption } from './command-line.ts';
import { CommandForm } from './command-form.tsx';
import { PickedFiles, sortFiles, type PickedFile } from './file-entry.tsx';
import { LineEntry } from './line-entry.tsx';
import { packFile } from './room-link.ts';
import { useRoom } from './room-view.ts';

/** `draft` is what stands in the line at first. */
type Props = { draft: string };
type Form = { command: PageCommand; initial: TypedOption[] };

/** Where a person writes: words, or a command with its options. */
export function Composer({ draft }: Props) {
  const room = useRoom();
  const [line, onLine] = useState(draft);
  const [form, setForm] = useState<Form | null>(null);
  const [files, setFiles] = useState<PickedFile[]>([]);
  const [trouble, setTrouble] = useState('');
  const [waiting, setWaiting] = useState(0);
  // Where a form was, the entry line takes the focus again.
  const hadForm = useRef(false);
  useLayoutEffect(() => {
    if (hadForm.current && form === null) document.getElementById('entry')?.focus();
    hadForm.current = form !== null;
  }, [form]);
  const here = room.state.channels.find(({ id }) => id === room.channel);
  useEffect(() => setForm(null), [room.state.acting]);

  const askCommand = async (command: PageCommand, options: TypedOption[], attached: Record<string, PageFile>) => {
    const { channel, play } = room;
    const { error } = await play({ act: 'slash', channel, command: command.name, options, files: attached });
    return error ?? '';
  };
  const sendForm = async (command: PageCommand, options: TypedOption[], attached: Record<string, PageFile>) => {
    const refused = await askCommand(command, options, attached);
    if (refused === '') leaveForm();
    return refused;
  };
  const leaveForm = () => {
    onLine('');
    setForm(null);
  };
  const sayWords = async () => {
    const packed = await Promise.all(files.map(({ file, alt }) => packFile(file, alt)));
    const { error } = await room.play({ act: 'say', channel: room.channel, text: line.trim(), files: packed });
    return error ?? '';
  };
  const sendLine = async (sentValues: ReadonlyMap<string, string>) => {
    const read = readLine(`${line} `, room.commands);
    if (read.phase === 'command') return setTrouble('There is no such command here. Pick one from the list.');
    if (read.phase === 'words' && line.trim() === '' && files.length === 0) return;
    const options =
      read.phase === 'options'
        ? optionsOf(read).map((one) => ({ ...one, value: sentValues.get(`${one.name}:${one.value}`) ?? one.value }))
        : [];
    // A line that lacks something becomes a form that says what.
    if (read.phase === 'options' && missingFrom(read.command, options).length > 0) {
      return setForm({ command: read.command, initial: options });
    }
    // The line is free for the next words at once; what is refused comes back unless something new stands there.
    onLine('');
    setFiles([]);
    setWaiting((count) => count + 1);
    const refused = await (read.phase === 'options' ? askCommand(read.command, options, {}) : sayWords());
    setWaiting((count) => count - 1);
    setTrouble(refused);
    if (refused === '') return;
    onLine((now) => (now === '' ? line : now));
    setFiles((now) => (now.length === 0 ? files : now));
  };
  const take = (list: FileList | undefined | null) => {
    const { kept, refused } = sortFiles([...(list ?? [])], 10);
    setFiles([...files, ...kept].slice(0, 10));
    setTrouble(refused);
  };

  if (here?.locked) return <p class="composer note">This thread is locked; nobody can write in it.</p>;
  return (
    <section
      class="composer"
      aria-label="Write"
      onPaste={({ clipboardData }) => clipboardData?.files.length && take(clipboardData.files)}
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        take(event.dataTransfer?.files);
      }}
    >
      {form ? (
        <CommandForm
          key={form.command.name}
          {...form}
          onSend={(options, attached) => sendForm(form.command, options, attached)}
          onLeave={leaveForm}
        />
      ) : (
        <LineEntry
          line={line}
          place={here ? (here.kind === 'channel' ? `#${here.name}` : here.name) : ''}
          sending={waiting > 0}
          onLine={(next) => {
            setTrouble('');
            onLine(next);
          }}
          onCommand={(command) => setForm({ command, initial: [] })}
          onSend={(values) => void sendLine(values)}
          onFiles={take}
        />
      )}
      <PickedFiles picked={files} onPick={setFiles} />
      {trouble !== '' && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
    </section>
  );
}
