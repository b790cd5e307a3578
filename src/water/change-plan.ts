import type { OutOfRange } from '../../shared/range.ts';
import { afterChanges, changesForTarget, fractionForTarget, type NotByChanging } from '../../shared/water-change.ts';

export type ChangeTarget = {
  start: number;
  newWater: number;
  target: number;
  /** The most by which a value may move in a day, in its own unit; null when nobody knows one. */
  capADay: number | null;
  /** The largest share to change at once. */
  mostShare: number;
};
export type ChangePlan =
  | {
      kind: 'plan';
      /** The share of each change, all alike, and what is left after each. */
      share: number;
      after: number[];
      /** The share that would do it in one go, and by how much the value would jump. */
      oneGoShare: number;
      oneGoMoves: number;
    }
  | { kind: 'too-many'; most: number; oneGoShare: number }
  | NotByChanging
  | OutOfRange;

/** Two months of daily changes: whoever needs more needs another way. */
const MOST_CHANGES = 60;

/**
 * Equal changes to a target, at most one a day, none of which moves the value by more than its cap. The first moves it most, so
 * that one decides how large they may be.
 */
export function changePlan({ start, newWater, target, capADay, mostShare }: ChangeTarget): ChangePlan {
  const one = fractionForTarget({ start, newWater, target });
  if (one.kind !== 'fraction') return one;
  const oneGoShare = one.fraction;
  const gap = Math.abs(start - newWater);
  const share = Math.min(mostShare, oneGoShare, capADay === null ? 1 : capADay / gap);
  const counted = changesForTarget({ start, newWater, target, fraction: share });
  // A share too small to count takes for ever.
  if (counted.kind === 'out-of-range') return { kind: 'too-many', most: MOST_CHANGES, oneGoShare };
  if (counted.kind !== 'changes') return counted;
  const count = counted.changes;
  if (count > MOST_CHANGES) return { kind: 'too-many', most: MOST_CHANGES, oneGoShare };
  const equal = 1 - (1 - oneGoShare) ** (1 / count);
  const after = Array.from({ length: count }, (_, at) => {
    const found = afterChanges({ start, newWater, fraction: equal, changes: at + 1 });
    return found.kind === 'changed' ? found.final : target;
  });
  return { kind: 'plan', share: equal, after, oneGoShare, oneGoMoves: Math.abs(target - start) };
}
