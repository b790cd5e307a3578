import type { Figure } from '../knowledge/parameter.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';

/** How far a figure can be trusted, as members read it. */
export function standingOf({ standing, source }: Figure, { sources }: Pick<KnowledgeBase, 'sources'>): string {
  const short = source === undefined ? undefined : sources.get(source)?.short;
  switch (standing) {
    case 'published':
      return short ? `${short}, published` : 'published';
    case 'from-memory':
      return short ? `${short}, cited from memory` : 'from memory';
    case 'computed':
      return 'computed from published constants';
    case 'common-practice':
      return 'common practice, no source';
  }
}
