import type { Choice } from '../discord/message-view.ts';
import type { CoralNames } from '../knowledge/coral-names.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { readCutDate } from './cut-date.ts';
import { MOST } from './draft.ts';

const MOST_CHOICES = 25;
const MOST_LABEL = 100;

/** Corals by every name that keepers use, and last what was typed, word for word. */
export function coralChoices(base: Pick<KnowledgeBase, 'corals'>, corals: CoralNames, typed: string): Choice[] {
  const own = typed.trim().slice(0, MOST.name);
  const found = corals.suggest(typed).map(({ name, value }) => {
    const others = (base.corals.get(value)?.hobbyNames ?? []).filter(
      (each) => normaliseName(each) !== normaliseName(name),
    );
    return {
      name: (others.length > 0 ? `${name} (${others.slice(0, 4).join(', ')})` : name).slice(0, MOST_LABEL),
      value,
    };
  });
  // What begins as it was typed comes before what is merely like it.
  const key = normaliseName(typed);
  const begins = ({ name }: Choice) =>
    normaliseName(name)
      .split(' ')
      .some((word) => word.startsWith(key));
  found.sort((one, other) => Number(begins(other)) - Number(begins(one)));
  const isAsTyped = own !== '' && !found.some(({ value }) => value === own);
  return isAsTyped ? [...found.slice(0, MOST_CHOICES - 1), { name: `In my words: ${own}`, value: own }] : found;
}

const CUTS = ['today', 'yesterday', '3 days ago', 'last week', '2 weeks ago', '3 weeks ago', 'last month', '2 months ago', '3 months ago', '6 months ago', 'last year']; // prettier-ignore
const SIZES = ['1 cm', '2 cm', '3 cm', '4 cm', '5 cm', '8 cm', '10 cm', 'one polyp', 'three polyps', 'five polyps', 'one head', 'two heads', 'three heads']; // prettier-ignore
const COLOURS = ['green', 'neon green', 'orange', 'red', 'pink', 'purple', 'blue', 'yellow', 'gold', 'brown', 'cream', 'white', 'grey', 'rainbow', 'green with purple tips', 'orange with green rim']; // prettier-ignore

/** Days that can be chosen, and what was typed where it says a day. */
export function cutChoices(typed: string, today: string): Choice[] {
  const listed = matching(CUTS, typed);
  const read = readCutDate(typed, today);
  if (read.kind !== 'on' || CUTS.includes(typed.trim().toLowerCase())) return listed;
  return [{ name: `${typed.trim()} (${read.date})`.slice(0, MOST_LABEL), value: typed.trim().slice(0, 40) }, ...listed];
}
export const sizeChoices = (typed: string): Choice[] => orAsTyped(SIZES, typed, MOST.size);
export const colourChoices = (typed: string): Choice[] => orAsTyped(COLOURS, typed, MOST.colour);
/** Places that members named before. */
export const areaChoices = (known: readonly string[], typed: string): Choice[] =>
  orAsTyped([...new Set(known)], typed, MOST.area);

const matching = (words: readonly string[], typed: string): Choice[] =>
  words
    .filter((word) => word.toLowerCase().includes(typed.trim().toLowerCase()))
    .slice(0, MOST_CHOICES)
    .map((word) => ({ name: word, value: word }));

function orAsTyped(words: readonly string[], typed: string, most: number): Choice[] {
  const listed = matching(words, typed);
  const own = typed.trim().slice(0, most);
  if (own === '' || listed.some(({ value }) => value === own)) return listed;
  return [{ name: own, value: own }, ...listed].slice(0, MOST_CHOICES);
}
