import type { Figure } from '../knowledge/parameter.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';

/** What members read as the source of every balance of salt. */
export const SALT_BALANCE = 'Salt counted by mass, with seawater densities of EOS-80 (Millero & Poisson 1981).';

/** Where an answer comes from: the formula first, then how far the limits and defaults beside it can be trusted. */
export function fromWords(
  { sources }: Pick<KnowledgeBase, 'sources'>,
  formula: string,
  figures: readonly (Figure | undefined)[] = [],
): string {
  const words = figures.flatMap((figure) => (figure ? [standingOf(figure, sources)] : []));
  const rules = [...new Set(words)].join('; ');
  return rules === '' ? formula : `${formula} Limits and defaults: ${rules}.`;
}

function standingOf({ standing, source }: Figure, sources: KnowledgeBase['sources']): string {
  const cited = source === undefined ? undefined : sources.get(source)?.short;
  switch (standing) {
    case 'published':
      return cited ? `${cited}, published` : 'published';
    case 'from-memory':
      return cited ? `${cited}, cited from memory` : 'from memory';
    case 'computed':
      return 'computed from published constants';
    case 'common-practice':
      return 'common practice, no source';
  }
}
