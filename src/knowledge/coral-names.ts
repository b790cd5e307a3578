import type { KnowledgeBase } from './knowledge-base.ts';
import { normaliseName } from './normalise.ts';
import { editDistance } from './edit-distance.ts';
import { trigramIndex } from './trigram-index.ts';

/** Corals by the names that keepers use. */
export type CoralNames = {
  /** The coral of a name or id, the nearest one for a slip of a letter; undefined when none is near. */
  idOf(text: string): string | undefined;
  /** The first coral that a text names. */
  inText(text: string): string | undefined;
  suggest(typed: string): { name: string; value: string }[];
};

const MOST_CHOICES = 25;
const LONGEST_NAME_WORDS = 4;

/** Looks corals up by genus, hobby name and id. Pure; built at the first use. */
export function createCoralNames(base: KnowledgeBase): CoralNames {
  let built: CoralNames | undefined;
  const names = () => (built ??= buildCoralNames(base));
  return {
    idOf: (text) => names().idOf(text),
    inText: (text) => names().inText(text),
    suggest: (typed) => names().suggest(typed),
  };
}

function buildCoralNames(base: KnowledgeBase): CoralNames {
  const exact = new Map<string, string>();
  for (const [id, { name, hobbyNames }] of base.corals)
    for (const each of [id, name, ...hobbyNames])
      if (!exact.has(normaliseName(each))) exact.set(normaliseName(each), id);
  const names = [...exact.keys()];
  const index = trigramIndex(names.map((name) => name.replaceAll(' ', '')));
  const near = (typed: string, most: number) =>
    index.nearest(normaliseName(typed).replaceAll(' ', ''), most).map((at) => names[at] ?? '');
  return {
    idOf(text) {
      const name = normaliseName(text);
      const found = exact.get(name);
      if (found || name.length < 5) return found;
      const [best = ''] = near(text, 1);
      return editDistance(name, best).whole <= Math.max(1, Math.floor(name.length / 6)) ? exact.get(best) : undefined;
    },
    inText(text) {
      const words = normaliseName(text).split(' ');
      for (let length = LONGEST_NAME_WORDS; length > 0; length -= 1)
        for (let at = 0; at + length <= words.length; at += 1) {
          const name = words.slice(at, at + length).join(' ');
          const id = name.length >= 4 ? exact.get(name) : undefined;
          if (id) return id;
        }
      return undefined;
    },
    suggest(typed) {
      const ids =
        typed.trim() === '' ? [...base.corals.keys()] : near(typed, 40).flatMap((name) => exact.get(name) ?? []);
      return [...new Set(ids)]
        .slice(0, MOST_CHOICES)
        .map((id) => ({ name: base.corals.get(id)?.name.slice(0, 100) ?? id, value: id }));
    },
  };
}
