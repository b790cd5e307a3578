import type { Coral } from '../knowledge/coral.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { knownOf } from './find.ts';
import type { FindIndex, Found, Search } from './find-index.ts';
import type { Asked } from './find-match.ts';

export type Near = {
  /** What the ones that are near have in common with what was looked for. */
  by: 'choices' | 'growth' | 'kind';
  found: readonly Found[];
};

const MOST = 3;

/**
 * What comes near where nothing matches: the same words with fewer choices, else the same growth form of the same kind
 * of animal, else the same kind.
 */
export function nearestTo(index: FindIndex, asked: Asked, search: Search, base: KnowledgeBase): Near | null {
  const { text, area, light, growth, kind, settled, free } = asked.filter;
  const chosen = light ?? growth ?? kind ?? (settled || free || area !== '');
  if (text !== '' && chosen) {
    const looser: Asked = { ...asked, filter: { text, area, light: null, growth: null, kind: null, settled: false, free: false }, area: [] }; // prettier-ignore
    const found = index.search(looser, search);
    if (found.length > 0) return { by: 'choices', found: found.slice(0, MOST) };
  }
  const meant = asked.coral === null ? undefined : base.corals.get(asked.coral);
  if (!meant) return null;
  const all: Asked = { filter: { ...asked.filter, text: '', area: '', light: null, growth: null, kind: null, settled: false, free: false }, whole: null, coral: null, words: [], area: [] }; // prettier-ignore
  const left = index.search(all, search).filter(({ offer }) => offer.left > 0);
  const like = (test: (coral: Coral) => boolean) =>
    left.filter(({ offer }) => {
      const { coral } = knownOf(offer, base);
      const entry = coral === null ? undefined : base.corals.get(coral);
      return entry !== undefined && test(entry);
    });
  const grown = like(({ kind, growthForm }) => kind === meant.kind && growthForm === meant.growthForm);
  if (grown.length > 0) return { by: 'growth', found: grown.slice(0, MOST) };
  const akin = like((entry) => entry.kind === meant.kind);
  return akin.length > 0 ? { by: 'kind', found: akin.slice(0, MOST) } : null;
}
