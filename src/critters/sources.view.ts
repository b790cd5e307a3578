import { joined, md, type Markdown } from '../discord/message-view.ts';
import type { Claim, Critter } from '../knowledge/critter.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Source } from '../knowledge/source.ts';

const CLAIM_WORDS: Record<Claim, string> = {
  name: 'name',
  what: 'what it is',
  know: 'how to know it',
  does: 'what it does',
  matters: 'why it matters',
  depends: 'what it depends on',
  now: 'what to do',
  worry: 'when to worry',
  caution: 'caution',
};

/** The standing of a source as members read it. */
export function standingInWords(standing: Source['standing']): string {
  switch (standing) {
    case 'published':
      return 'published';
    case 'common-practice':
      return 'common practice, no source';
    case 'from-memory':
      return 'cited from memory';
  }
}

type Cited = { source: Source; claims: Claim[] };

function citedBy(base: KnowledgeBase, critter: Critter): Cited[] {
  return Object.entries(critter.sources).flatMap(([id, claims]) => {
    const source = base.sources.get(id);
    return source ? [{ source, claims }] : [];
  });
}

const inWords = (claims: readonly Claim[]) => claims.map((claim) => CLAIM_WORDS[claim]).join(', ');

/** One small line: who says what, and how far to trust it. */
export function sourcesLine(base: KnowledgeBase, critter: Critter): Markdown {
  const cited = citedBy(base, critter).map(({ source, claims }) =>
    source.standing === 'common-practice'
      ? md`common practice, no source (${inWords(claims)})`
      : md`${source.short}, ${standingInWords(source.standing)} (${inWords(claims)})`,
  );
  return md`-# Sources: ${joined(cited, '; ')}`;
}

/** Every source in full, a line each. */
export function sourcesInFull(base: KnowledgeBase, critter: Critter): Markdown {
  return joined(
    citedBy(base, critter).map(
      ({ source, claims }) => md`- ${source.cite} *${standingInWords(source.standing)}: ${inWords(claims)}*`,
    ),
  );
}
