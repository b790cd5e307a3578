import { useEffect, useRef, useState } from 'preact/hooks';
import type { PageFile, PageModal } from '../page-shapes.ts';
import type { PickedFile } from './file-entry.tsx';
import { Markdown } from './markdown-view.tsx';
import { ModalInput, startValue } from './modal-input.tsx';
import type { InputPart, LabelPart, ModalPart } from './parts.ts';
import { packFile } from './room-link.ts';
import { useRoom } from './room-view.ts';

/** The form that the bot opened. What was typed stays when the bot refuses it. */
export function ModalForm({ modal, onClose }: { modal: PageModal; onClose(): void }) {
  const room = useRoom();
  const dialog = useRef<HTMLDialogElement>(null);
  const parts = modal.components as ModalPart[];
  const inputs = parts.flatMap((part) => (part.type === 10 ? [] : [inputOf(part)]));
  const [values, setValues] = useState<Record<string, string[]>>(() =>
    Object.fromEntries(inputs.map((input) => [input.custom_id, startValue(input, room)])),
  );
  const [files, setFiles] = useState<Record<string, PickedFile[]>>({});
  const [trouble, setTrouble] = useState('');
  const [sending, setSending] = useState(false);
  useEffect(() => dialog.current?.showModal(), []);

  const send = async () => {
    if (sending) return;
    setSending(true);
    const packed: Record<string, PageFile[]> = {};
    for (const [name, picked] of Object.entries(files))
      packed[name] = await Promise.all(picked.map(({ file, alt }) => packFile(file, alt)));
    const fields = Object.fromEntries(
      inputs.filter(({ type }) => type !== 19).map((input) => [input.custom_id, valueToSend(input, values)]),
    );
    const { error } = await room.play({ act: 'fill', fields, files: packed });
    setSending(false);
    if (error === undefined) onClose();
    else setTrouble(error);
  };
  return (
    <dialog
      ref={dialog}
      class="modal"
      aria-labelledby="modal-title"
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void send();
        }}
      >
        <h2 id="modal-title">{modal.title}</h2>
        {parts.map((part, index) => {
          if (part.type === 10) return <Markdown key={index} text={part.content} />;
          const input = inputOf(part);
          return (
            <ModalInput
              key={input.custom_id}
              input={input}
              {...wordsOf(part)}
              value={values[input.custom_id] ?? []}
              files={files[input.custom_id] ?? []}
              onValue={(value) => setValues((before) => ({ ...before, [input.custom_id]: value }))}
              onFiles={(picked) => setFiles((before) => ({ ...before, [input.custom_id]: picked }))}
            />
          );
        })}
        {trouble !== '' && (
          <p class="trouble" role="alert">
            {trouble}
          </p>
        )}
        <div class="row">
          <button type="submit" class="button primary" aria-busy={sending}>
            {sending ? 'Sending …' : 'Submit'}
          </button>
          <button type="button" class="button" onClick={onClose}>
            Close without sending
          </button>
        </div>
      </form>
    </dialog>
  );
}

type Holder = LabelPart | Extract<ModalPart, { type: 1 }>;

function inputOf(part: Holder): InputPart {
  if (part.type === 18) return part.component;
  const [input] = part.components;
  if (!input) throw new Error('a row of the form is empty');
  return input;
}

const wordsOf = (part: Holder): { label: string; help: string } =>
  part.type === 18
    ? { label: part.label, help: part.description ?? '' }
    : { label: part.components[0]?.label ?? 'Entry', help: '' };

/** One text, or a list where several may be chosen. */
function valueToSend(input: InputPart, values: Record<string, string[]>): string | string[] {
  const value = values[input.custom_id] ?? [];
  return input.type === 4 || input.type === 21 || input.type === 23 ? (value[0] ?? '') : value;
}
