import { useEffect, useRef, useState } from 'preact/hooks';
import type { PageMember, PageMessage } from '../page-shapes.ts';
import { useRoom } from './room-view.ts';

/** What else can be done with a message: the bot's own entries for it, an answer, a look behind it. */
export function MoreMenu({ message, author }: { message: PageMessage; author: PageMember | undefined }) {
  const room = useRoom();
  const [open, setOpen] = useState(false);
  const place = useRef<HTMLDivElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (!open) return undefined;
    const away = (event: Event) => {
      if (!place.current?.contains(event.target as Node)) setOpen(false);
    };
    document.addEventListener('pointerdown', away);
    document.addEventListener('focusin', away);
    return () => {
      document.removeEventListener('pointerdown', away);
      document.removeEventListener('focusin', away);
    };
  }, [open]);
  const then = (act: () => void) => () => {
    setOpen(false);
    opener.current?.focus();
    act();
  };
  const entries = room.commands.filter(({ kind }) => kind === 'message');
  return (
    <div
      class="more"
      ref={place}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !open) return;
        setOpen(false);
        opener.current?.focus();
      }}
    >
      <button
        type="button"
        class="button quiet"
        ref={opener}
        aria-expanded={open}
        aria-label={`More about this message by ${author?.name ?? 'someone'}`}
        onClick={() => setOpen(!open)}
      >
        More
      </button>
      {open && (
        <ul class="pop">
          {!message.private &&
            entries.map(({ name }) => (
              <li key={name}>
                <button
                  type="button"
                  onClick={then(() => void room.play({ act: 'menu', entry: name, message: message.id }))}
                >
                  {name}
                </button>
              </li>
            ))}
          <li>
            <button type="button" onClick={then(() => room.explain(message.id))}>
              Look behind this message
            </button>
          </li>
        </ul>
      )}
    </div>
  );
}
