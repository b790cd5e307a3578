import { inFigures, shortly } from '../../shared/units/figures.ts';
import { afterChanges, afterContinuousChange, changesForTarget, pumpedForTarget } from '../../shared/water-change.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { cannotView, outOfRangeView, whichTankView } from './asked.view.ts';
import { changeCountView, changedView, outOfReachView, type ChangeGround } from './change.view.ts';
import { counted } from './words.ts';

/** What changes of a size leave: one after another, or pumped through at one level. */
export function remainingAnswer(
  base: KnowledgeBase,
  ground: ChangeGround,
  { share, times, pumped }: { share: number; times: number; pumped: boolean },
  example: Markdown,
): Worked | MessageView {
  const { start, newWater, water } = ground;
  const [s, n] = [shortly(start), shortly(newWater)];
  if (pumped) {
    if (water.volumeL === null) return whichTankView({ kind: 'no-tanks' });
    const pumpedL = share * water.volumeL * times;
    const found = afterContinuousChange({ start, newWater, pumpedL, volumeL: water.volumeL });
    if (found.kind === 'out-of-range') return outOfRangeView(found, example);
    const byHand = md`${n} + (${s} − ${n}) × e^(−${shortly(pumpedL)} ÷ ${shortly(water.volumeL)}) = ${inFigures(found.final)}`;
    return changedView(base, ground, found, 'pumped', byHand);
  }
  const found = afterChanges({ start, newWater, fraction: share, changes: times });
  if (found.kind === 'out-of-range') return outOfRangeView(found, example);
  const power = times === 1 ? md`` : md`^${times}`;
  const byHand = md`${n} + (${s} − ${n}) × (1 − ${shortly(share)})${power} = ${inFigures(found.final)}`;
  return changedView(base, ground, found, share, byHand);
}

/** How many changes of a size, or how many litres pumped, reach a target. */
export function countAnswer(
  base: KnowledgeBase,
  ground: ChangeGround,
  { target, share, pumped }: { target: number; share: number | null; pumped: boolean },
  example: Markdown,
): Worked | MessageView {
  const { start, newWater, water } = ground;
  const [s, n, t] = [shortly(start), shortly(newWater), shortly(target)];
  if (pumped || share === null) {
    if (water.volumeL === null) return whichTankView({ kind: 'no-tanks' });
    const found = pumpedForTarget({ start, newWater, target, volumeL: water.volumeL });
    switch (found.kind) {
      case 'pumped':
        return changeCountView(base, ground, {
          how: 'pumped',
          count: md`Pump ${inUnits(found.pumpedL, 'volume', water.units)} through`,
          final: target,
          moved: Math.abs(start - target),
          byHand: md`−${shortly(water.volumeL)} L × ln((${t} − ${n}) ÷ (${s} − ${n})) = ${inFigures(found.pumpedL)} L`,
        });
      case 'already-there':
        return already(start);
      case 'out-of-reach':
        return outOfReachView(ground, target, example);
      case 'out-of-range':
        return outOfRangeView(found, example);
    }
  }
  const found = changesForTarget({ start, newWater, target, fraction: share });
  switch (found.kind) {
    case 'changes':
      return changeCountView(base, ground, {
        how: share,
        count: md`${counted(found.changes, 'change')}`,
        final: found.final,
        moved: Math.abs((start - newWater) * share),
        byHand: md`ln((${t} − ${n}) ÷ (${s} − ${n})) ÷ ln(1 − ${shortly(share)}), rounded up = ${found.changes}`,
      });
    case 'already-there':
      return already(start);
    case 'out-of-reach':
      return outOfReachView(ground, target, example);
    case 'out-of-range':
      return outOfRangeView(found, example);
  }
}

const already = (start: number) =>
  cannotView('Nothing to do', [md`It is at ${shortly(start)} already, which is the target you gave.`]);
