import { useState } from 'preact/hooks';
import type { PageMessage } from '../page-shapes.ts';
import type { ButtonPart } from './parts.ts';
import { useRoom } from './room-view.ts';

const STYLES = ['', 'primary', 'secondary', 'success', 'danger'];

/** A button of a message. While an answer is awaited a second press does nothing. */
export function ButtonView({ part, message }: { part: ButtonPart; message: PageMessage }) {
  const room = useRoom();
  const [pending, setPending] = useState(false);
  const [trouble, setTrouble] = useState('');
  const label = [part.emoji?.name, part.label].filter(Boolean).join(' ') || 'A button without a label';
  if (part.url !== undefined) {
    return (
      <a class="button link" href={part.url} target="_blank" rel="noopener noreferrer">
        {label} <span class="small">(opens outside)</span>
      </a>
    );
  }
  const press = async () => {
    if (pending || part.disabled) return;
    setPending(true);
    setTrouble('');
    const answer = await room.play({ act: 'press', message: message.id, customId: part.custom_id ?? '' });
    setPending(false);
    setTrouble(answer.error ?? '');
  };
  return (
    <span class="with-trouble">
      <button
        type="button"
        class={`button ${STYLES[part.style] ?? ''}`}
        disabled={part.disabled === true}
        aria-busy={pending}
        onClick={() => void press()}
      >
        {label}
        {pending && <span class="small"> waiting …</span>}
      </button>
      {trouble !== '' && <span class="trouble">{trouble}</span>}
    </span>
  );
}
