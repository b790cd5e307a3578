import type { SelectOption } from '../discord/message-view.ts';
import { adviceOf } from '../critters/advice.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { Finder } from '../knowledge/finder.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { critterMatches, crittersAnswering, lookUp } from '../knowledge/look-up.ts';

/** A name that a voter typed: one entry, or the nearest three to choose from. */
export type NamedEntry = { kind: 'clear'; critter: Critter } | { kind: 'unclear'; typed: string; nearest: Critter[] };

const NEAREST = 3;

/** Only a name that is in the base decides by itself; one that is merely near is offered. */
export function namedEntry(base: KnowledgeBase, finder: Finder, typed: string): NamedEntry {
  const found = lookUp(base, finder, typed);
  switch (found.kind) {
    case 'found':
      return { kind: 'clear', critter: found.critter };
    case 'read-as':
      return { kind: 'unclear', typed, nearest: [found.critter, ...found.others].slice(0, NEAREST) };
    case 'question':
      return { kind: 'unclear', typed, nearest: crittersAnswering(base, found.question).slice(0, NEAREST) };
    case 'not-there':
      return { kind: 'unclear', typed, nearest: found.nearest };
    case 'nothing-typed':
      return { kind: 'unclear', typed, nearest: critterMatches(base, finder.nearest(typed, NEAREST)) };
  }
}

/** Entries to choose from, each with its advice. */
export const entryOptions = (critters: readonly Critter[]): SelectOption[] =>
  critters.map((critter) => ({ label: critter.name, value: critter.id, description: adviceOf(critter) }));
