import type { Fish } from '../knowledge/fish.ts';
import { normaliseName } from '../knowledge/normalise.ts';

/** What a member's own words name: kinds of fish, and words such as "wrasse" that several kinds share. */
export type Kinds = {
  certain: readonly Fish[];
  shared: readonly { word: string; kinds: readonly Fish[] }[];
  /** The other words: what a fish is called says nothing about how it is ("powder blue tang", "blue spot jawfish"). */
  rest: string;
};

const LEAST_SHARED = 3;
const LEAST_SHORTENED = 4;
/** After these a shortened name is over: "an angel with spots". */
const JOINING = new Set(['and', 'with', 'that', 'for', 'in', 'from', 'plus', 'who', 'which']);

/** Finds kinds of fish in words such as "two clownfish and a wrasse with spots"; the longest name wins. */
export function kindsIn(text: string, fish: Iterable<Fish>): Kinds {
  const all = [...fish];
  const words = normaliseName(text).split(' ');
  const taken = new Set<number>();
  const certain = new Set<Fish>();
  const names = all
    .flatMap((each) =>
      [each.name, each.id.replaceAll('-', ' '), ...each.aliases].map((name) => ({
        each,
        name: normaliseName(name).split(' '),
      })),
    )
    .sort((one, other) => other.name.length - one.name.length);
  for (const { each, name } of names) {
    for (let from = 0; from + name.length <= words.length; from += 1) {
      const places = name.map((_, at) => from + at);
      if (!name.every((word, at) => words[from + at] === word) || places.some((at) => taken.has(at))) continue;
      for (const at of places) taken.add(at);
      certain.add(each);
    }
  }
  const shared = words.flatMap((word, at) => {
    const kinds = taken.has(at) ? [] : kindsCalled(word, words[at + 1], all);
    if (kinds.length === 1) for (const kind of kinds) certain.add(kind);
    return kinds.length > 1 ? [{ word, kinds }] : [];
  });
  return { certain: [...certain], shared, rest: words.filter((_, at) => !taken.has(at)).join(' ') };
}

/** Kinds whose name ends with a word, or with it and "fish": "wrasse", "angel". */
function kindsCalled(word: string, next: string | undefined, fish: readonly Fish[]): Fish[] {
  if (word.length < LEAST_SHARED) return [];
  const isOver = next === undefined || JOINING.has(next);
  return fish.filter(({ name }) => {
    const last = normaliseName(name).split(' ').at(-1);
    return last === word || (isOver && word.length >= LEAST_SHORTENED && last === `${word}fish`);
  });
}

/** Whether one of these stands in a text as whole words, whatever their number. */
export function saysOneOf(text: string, phrases: readonly string[]): boolean {
  const key = ` ${normaliseName(text)} `;
  return phrases.some((phrase) => key.includes(` ${normaliseName(phrase)} `));
}
