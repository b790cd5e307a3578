import { useState } from 'preact/hooks';

export type ListEntry = { key: string; title: string; detail?: string | undefined };

/** Where the keyboard stands in a list beneath an entry. `first` is chosen beforehand where Enter should take it. */
export function useListCursor(count: number, first: boolean) {
  const [at, setAt] = useState<number | null>(null);
  const fallback = first && count > 0 ? 0 : null;
  const cursor = at === null || at >= count ? fallback : at;
  return {
    cursor,
    reset: () => setAt(null),
    move(step: 1 | -1) {
      if (count > 0) setAt(cursor === null ? (step === 1 ? 0 : count - 1) : (cursor + step + count) % count);
    },
  };
}

type Props = {
  id: string;
  label: string;
  entries: ListEntry[];
  cursor: number | null;
  note?: string;
  onPick(index: number): void;
};

/** The list beneath a combobox. The entry keeps the focus; the mouse may pick as well. */
export const ChoiceList = ({ id, label, entries, cursor, note, onPick }: Props) => (
  <div class="choices">
    <ul id={id} role="listbox" aria-label={label}>
      {entries.map((entry, index) => (
        <li
          key={entry.key}
          id={`${id}-${index}`}
          role="option"
          aria-selected={index === cursor}
          ref={(element) => {
            if (index === cursor) element?.scrollIntoView({ block: 'nearest' });
          }}
          onPointerDown={(event) => event.preventDefault()}
          onClick={() => onPick(index)}
        >
          {entry.detail === undefined ? entry.title : <strong>{entry.title}</strong>}{' '}
          {entry.detail && <span class="small">{entry.detail}</span>}
        </li>
      ))}
    </ul>
    {note && (
      <p class="small" role="status">
        {note}
      </p>
    )}
  </div>
);
