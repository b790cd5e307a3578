import { coloursIn } from '../beside/colour-words.ts';
import { createCoralNames, type CoralNames } from '../knowledge/coral-names.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';

type Kept = { names: CoralNames; short: ReadonlyMap<string, string> };
const KEPT = new WeakMap<KnowledgeBase, Kept>();

/** Corals by their names, built once. */
export const coralNames = (base: KnowledgeBase): CoralNames => keptOf(base).names;

/** The coral whose name the whole text is; "torch" is enough for a torch coral. */
export function coralNamed(base: KnowledgeBase, text: string): string | null {
  const { names, short } = keptOf(base);
  return names.idOf(text) ?? short.get(normaliseName(text)) ?? null;
}

/** The coral that a text names somewhere, if it names one. */
export function coralSaid(base: KnowledgeBase, text: string): string | null {
  const { names, short } = keptOf(base);
  const named = coralNamed(base, text) ?? names.inText(text);
  if (named) return named;
  const words = normaliseName(text).split(' ');
  const pairs = words.map((word, at) => `${word} ${words[at + 1] ?? ''}`);
  for (const name of [...pairs, ...words]) {
    const found = short.get(name);
    if (found) return found;
  }
  return null;
}

function keptOf(base: KnowledgeBase): Kept {
  let kept = KEPT.get(base);
  if (!kept) KEPT.set(base, (kept = { names: createCoralNames(base), short: shortNames(base) }));
  return kept;
}

const LEAST_SHORT = 3;

/** What is left of "torch coral" and the like without the last word, where it means one coral and is no colour. */
function shortNames(base: KnowledgeBase): ReadonlyMap<string, string> {
  const meant = new Map<string, Set<string>>();
  for (const [id, { name, hobbyNames }] of base.corals)
    for (const each of [name, ...hobbyNames].map(normaliseName)) {
      const short = each.endsWith(' coral') ? each.slice(0, -' coral'.length) : '';
      if (short.length >= LEAST_SHORT) meant.set(short, new Set([...(meant.get(short) ?? []), id]));
    }
  const one = [...meant].flatMap(([short, ids]) => {
    const [id] = ids;
    return id !== undefined && ids.size === 1 && coloursIn(short).length === 0 ? [[short, id] as const] : [];
  });
  return new Map(one);
}
