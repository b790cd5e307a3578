import type { Critter } from '../knowledge/critter.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { LookAlike, TellingFeature } from '../knowledge/look-alike.ts';
import { isGrave } from '../knowledge/look-up.ts';

/** A look-alike seen from one critter: the other, and the features with the sides put right. */
export type Double = {
  other: Critter;
  pair: LookAlike;
  features: { feature: string; mine: string; theirs: string; check: string; clears: boolean }[];
  /** The other one can hurt a person and this one does not, or not as much. */
  otherIsDanger: boolean;
  /** Whether taking this critter for the other, or the other for this, changes what one does. */
  changesAdvice: boolean;
};

const HARM = { keep: 0, watch: 1, remove: 2, urgent: 3 } as const;

/** The look-alikes of a critter, those whose confusion costs most first. */
export function doublesOf(base: KnowledgeBase, critter: Critter): Double[] {
  return (base.lookAlikesOf.get(critter.id) ?? [])
    .flatMap((pair): Double[] => {
      const isA = pair.a === critter.id;
      const other = base.critters.get(isA ? pair.b : pair.a);
      if (!other) return [];
      return [
        {
          other,
          pair,
          features: pair.features.map((feature) => turned(feature, isA)),
          otherIsDanger: pair.danger === other.id,
          changesAdvice:
            other.verdict !== critter.verdict || pair.danger === other.id || isGrave(other) !== isGrave(critter),
        },
      ];
    })
    .sort((one, other) => weight(other, critter) - weight(one, critter));
}

function turned({ feature, a, b, check, clears }: TellingFeature, isA: boolean): Double['features'][number] {
  return { feature, mine: isA ? a : b, theirs: isA ? b : a, check, clears };
}

const COST = { low: 0, medium: 1, high: 2 } as const;

/** What it would cost to take the other for this critter, then how harmful the other is. */
function weight({ other, pair, otherIsDanger }: Double, critter: Critter): number {
  const missed = pair.a === critter.id ? pair.bTakenForA : pair.aTakenForB;
  return (otherIsDanger ? 10 : 0) + 3 * COST[missed.cost] + HARM[other.verdict];
}

/**
 * The feature to look at first. Where the other can hurt a person only a feature that may clear it counts;
 * null when none may, so that the member goes on as if it were the dangerous one.
 */
export function settlingFeature({ features, otherIsDanger }: Double): Double['features'][number] | null {
  return (otherIsDanger ? features.find(({ clears }) => clears) : features[0]) ?? null;
}
