import type { Choice } from '../discord/message-view.ts';
import { normaliseName } from '../knowledge/normalise.ts';

const MOST_CHOICES = 25;

export type Named = { id: string; name: string; aliases?: readonly string[] };
/** The entry that was typed, by id, name or another name. */
export function named<Entry extends Named>(entries: Iterable<Entry>, typed: string): Entry | undefined {
  const key = normaliseName(typed);
  return [...entries].find(({ id, name, aliases = [] }) =>
    [id, name, ...aliases].some((each) => normaliseName(each) === key),
  );
}

/** Entries to choose from while a name is typed. */
export const choices = (entries: Iterable<Named>, typed: string): Choice[] => {
  const key = normaliseName(typed);
  return [...entries]
    .filter(({ name, aliases = [] }) => [name, ...aliases].some((each) => normaliseName(each).includes(key)))
    .slice(0, MOST_CHOICES)
    .map(({ id, name }) => ({ name, value: id }));
};
