import type { AmbiguousName } from './ambiguous-name.ts';
import type { Critter } from './critter.ts';
import type { Finder, Match } from './finder.ts';
import type { KnowledgeBase } from './knowledge-base.ts';
import { normaliseName } from './normalise.ts';

/** What came of looking up a name that somebody typed. */
export type LookUp =
  | { kind: 'nothing-typed' }
  /** The name is in the base. */
  | { kind: 'found'; critter: Critter }
  /** Not in the base, but one entry is clearly the nearest; said to the member, never silently taken. */
  | {
      kind: 'read-as';
      critter: Critter;
      typed: string;
      others: Critter[];
      /** An everyday word that keepers use for it. */ everyday?: true;
    }
  /** The name means several animals. */
  | { kind: 'question'; question: AmbiguousName; typed: string }
  /** Nothing near enough: the nearest three are offered. */
  | { kind: 'not-there'; typed: string; nearest: Critter[] };

/** A name this near is read as the entry, when no other entry comes close. */
const NEAR_ENOUGH = 0.8;
const LEAD_OVER_THE_NEXT = 0.05;
/** A dangerous animal this close behind turns a reading into a choice. */
const LEAD_OVER_DANGER = 0.12;
/** Offers this much worse than the best are left out. */
const NOISE_BELOW_THE_BEST = 0.25;
/** A name shorter than this is matched exactly or not at all. */
const SHORTEST_FUZZY = 5;

/** Hazards for which a misread name could cost a life or an eye. */
const GRAVE: ReadonlySet<string> = new Set([
  'venomous-harpoon',
  'venomous-bite',
  'toxin-palytoxin',
  'sting-serious',
  'spines',
]);

/**
 * Decides what a typed name means.
 *
 * A name that differs by a letter may be read as an ordinary entry, which the answer then says. It is never
 * read as an entry whose advice is to act today: such an entry is only offered, with its advice beside it.
 */
export function lookUp(base: KnowledgeBase, finder: Finder, typed: string): LookUp {
  const name = normaliseName(typed);
  if (name === '') return { kind: 'nothing-typed' };
  const exact = finder.exact(typed);
  if (exact) return resolved(base, exact.kind, exact.id, typed);

  const matches = finder.nearest(typed, 6);
  const [first, second] = matches;
  if (first && name.replaceAll(' ', '').length >= SHORTEST_FUZZY && isDecisive(base, first, second, matches)) {
    const question = base.ambiguousNames.find(({ id }) => first.target.kind === 'question' && id === first.target.id);
    if (question && question.mode !== 'whole-query-only') return { kind: 'question', question, typed: typed.trim() };
    const critter = first.target.kind === 'critter' ? base.critters.get(first.target.id) : undefined;
    if (critter && critter.verdict !== 'urgent')
      return {
        kind: 'read-as',
        critter,
        typed: typed.trim(),
        others: critterMatches(base, worthOffering(matches).slice(1)).slice(0, 2),
      };
  }
  return { kind: 'not-there', typed: typed.trim(), nearest: critterMatches(base, matches).slice(0, 3) };
}

function resolved(base: KnowledgeBase, kind: 'critter' | 'question', id: string, typed: string): LookUp {
  if (kind === 'critter') {
    const critter = base.critters.get(id);
    return critter ? { kind: 'found', critter } : { kind: 'not-there', typed, nearest: [] };
  }
  const question = base.ambiguousNames.find((candidate) => candidate.id === id);
  if (!question) return { kind: 'not-there', typed, nearest: [] };
  // Only a critter has a card to be read as; an everyday word for a coral is put as a question.
  const [first, ...others] = crittersAnswering(base, question);
  if (question.mode === 'whole-query-only' && first) {
    return { kind: 'read-as', critter: first, typed: typed.trim(), others, everyday: true };
  }
  return { kind: 'question', question, typed: typed.trim() };
}

function isDecisive(base: KnowledgeBase, first: Match, second: Match | undefined, matches: readonly Match[]): boolean {
  if (first.score < NEAR_ENOUGH) return false;
  if (second && first.score - second.score < LEAD_OVER_THE_NEXT) return false;
  return !matches.slice(1).some(({ target, score }) => {
    const critter = target.kind === 'critter' ? base.critters.get(target.id) : undefined;
    return critter && isGrave(critter) && first.score - score < LEAD_OVER_DANGER;
  });
}

/** Whether taking this animal for another could cost a life, an eye or a hand. */
export function isGrave({ verdict, humanHazards }: Critter): boolean {
  return verdict === 'urgent' || humanHazards.some((hazard) => GRAVE.has(hazard));
}

/** The matches that are not far behind the best: the rest would only be noise under it. */
export function worthOffering(matches: readonly Match[]): Match[] {
  const best = matches[0]?.score ?? 0;
  return matches.filter(({ score }) => score >= best - NOISE_BELOW_THE_BEST);
}

/** The critters that a question may be answered with, in its order; corals are left out. */
export function crittersAnswering(base: KnowledgeBase, { answers }: AmbiguousName): Critter[] {
  return answers.flatMap((answer) => ('critter' in answer ? (base.critters.get(answer.critter) ?? []) : []));
}

/** The critters behind matches; a question stands for its candidates. */
export function critterMatches(base: KnowledgeBase, matches: readonly Match[]): Critter[] {
  const critters = matches.flatMap(({ target }) => {
    if (target.kind === 'critter') return base.critters.get(target.id) ?? [];
    const question = base.ambiguousNames.find(({ id }) => id === target.id);
    return question ? crittersAnswering(base, question) : [];
  });
  return [...new Set(critters)];
}
