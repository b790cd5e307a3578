import { hyposalinitySteps } from '../../shared/hyposalinity-steps.ts';
import type { OutOfRange } from '../../shared/range.ts';
import { saltForSalinity, swapForSalinity } from '../../shared/salinity-correction.ts';

export type SalinityAsked = {
  volumeL: number;
  now: number;
  target: number;
  temperatureC: number;
  /** The most that one step may move, and how far apart steps are. */
  mostPerStep: number;
  /** What raises it; lowering is always done with fresh water. */
  raiseBy: { kind: 'dry-salt'; saltFraction: number } | { kind: 'stronger-water'; salinity: number };
};

export type SalinityStep = { from: number; to: number; swapL: number; saltMixG: number };
export type SalinityPlan =
  | { kind: 'plan'; by: 'fresh-water' | 'dry-salt' | 'stronger-water'; steps: SalinityStep[]; roughL: number }
  | { kind: 'already-there' }
  /** The stronger water is not stronger than what is wanted. */
  | { kind: 'too-weak' }
  | OutOfRange;

const SLACK = 1e-9;

/** From one salinity to another in equal steps: fresh water swapped in on the way down, salt or stronger water on the way up. */
export function salinityPlan(asked: SalinityAsked): SalinityPlan {
  const { volumeL, now, target, temperatureC, mostPerStep, raiseBy } = asked;
  if (target === now) return { kind: 'already-there' };
  const whole = { volumeL, salinityNow: now, salinityTarget: target, temperatureC };
  if (target < now) {
    const down = hyposalinitySteps({
      volumeL,
      salinityStart: now,
      salinityTarget: target,
      mostDropPerStep: mostPerStep,
      temperatureC,
    });
    const once = swapForSalinity({ ...whole, salinityNewWater: 0 });
    if (down.kind === 'out-of-range') return down;
    if (once.kind === 'out-of-range') return once;
    if (down.kind !== 'steps' || once.kind !== 'swap') return { kind: 'already-there' };
    const steps = down.steps.map(({ from, to, freshL }) => ({ from, to, swapL: freshL, saltMixG: 0 }));
    return { kind: 'plan', by: 'fresh-water', steps, roughL: once.roughL };
  }
  const count = Math.max(1, Math.ceil((target - now) / mostPerStep - SLACK));
  const at = (step: number) => (step === count ? target : now + ((target - now) * step) / count);
  const steps: SalinityStep[] = [];
  for (let step = 0; step < count; step++) {
    const [from, to] = [at(step), at(step + 1)];
    const part = { ...whole, salinityNow: from, salinityTarget: to };
    const found =
      raiseBy.kind === 'dry-salt'
        ? saltForSalinity({ ...part, saltFraction: raiseBy.saltFraction })
        : swapForSalinity({ ...part, salinityNewWater: raiseBy.salinity });
    if (found.kind === 'out-of-range') return found;
    if (found.kind === 'wrong-side') return { kind: 'too-weak' };
    if (found.kind === 'already-there') continue;
    steps.push({
      from,
      to,
      swapL: found.kind === 'swap' ? found.swapL : 0,
      saltMixG: found.kind === 'salt' ? found.saltMixG : 0,
    });
  }
  const newWater = raiseBy.kind === 'stronger-water' ? raiseBy.salinity : 0;
  return { kind: 'plan', by: raiseBy.kind, steps, roughL: (volumeL * (target - now)) / (newWater - now) };
}

/** Everything that goes in over all steps: litres swapped, or grams of mix. */
export const totalOf = (steps: readonly SalinityStep[]): number =>
  steps.reduce((sum, { swapL, saltMixG }) => sum + swapL + saltMixG, 0);
