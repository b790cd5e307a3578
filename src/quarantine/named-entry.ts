import type { Choice } from '../discord/message-view.ts';
import { normaliseName } from '../knowledge/normalise.ts';

const MOST_CHOICES = 25;
const MOST_NAMED = 25;
const MOST_CHARACTERS = 80;
/** A longer name is no word that people type on in. */
const MOST_IN_SENTENCE = 24;

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

/** A text that is typed freely, and how its last word may go on: "two clo" as "two clownfish". */
export function typedOrChosen(entries: Iterable<Named>, typed: string): Choice[] {
  const asIs = typed.trim().slice(0, MOST_CHARACTERS);
  const [, before = '', last = ''] = /^(.*?)([^\s]*)$/s.exec(asIs) ?? [];
  const key = normaliseName(last);
  const going = [...entries].flatMap(({ name, aliases = [] }) => {
    const fitting = [name, ...aliases].filter((each) => key !== '' && normaliseName(each).startsWith(key));
    return (fitting[0] === name && name.length <= MOST_IN_SENTENCE ? fitting : byLength(fitting)).slice(0, 1);
  });
  // The shortest goes on from what was typed with the least guessing.
  const texts = [asIs, ...byLength(going).map((name) => `${before}${before === '' ? name : name.toLowerCase()}`)];
  return [...new Set(texts)]
    .filter((text) => text !== '' && text.length <= MOST_CHARACTERS)
    .slice(0, MOST_CHOICES)
    .map((text) => ({ name: text, value: text }));
}

const byLength = (names: readonly string[]): string[] => [...names].sort((one, other) => one.length - other.length);

/** "There are: …" for an answer to what is not known. */
export function oneOfTheList(entries: Iterable<{ name: string }>): string {
  const names = [...entries].map(({ name }) => name);
  return names.length === 0
    ? 'This one has none.'
    : `There are: ${names.slice(0, MOST_NAMED).join(', ')}${names.length > MOST_NAMED ? ', and more; type part of a name' : ''}.`;
}
