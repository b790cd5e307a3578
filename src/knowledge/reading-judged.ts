import type { Figure, Parameter } from './parameter.ts';

/** How a reading stands to the figures of its parameter. `figure` is the one that decided. */
export type ReadingJudged = {
  kind: 'urgent-low' | 'urgent-high' | 'low' | 'high' | 'below-target' | 'above-target' | 'in-target' | 'no-figures';
  figure: Figure | null;
};

/**
 * Compares a reading, in the parameter's own unit, with its alarms and then with its target. Nothing else is compared: what is
 * natural, what holds for special cases only, and what merely explains are no limits. An upper alarm counts from its own value on
 * ("stop at 0.25 or more"), a lower one below it, since it may be the low end of the target.
 */
export function judgeReading(parameter: Parameter, reading: number): ReadingJudged {
  const { urgentBelow, urgentAbove, warnBelow, warnAbove, target } = parameter;
  if (urgentBelow && reading < urgentBelow.high) return { kind: 'urgent-low', figure: urgentBelow };
  if (urgentAbove && reading >= urgentAbove.low) return { kind: 'urgent-high', figure: urgentAbove };
  if (warnBelow && reading < warnBelow.high) return { kind: 'low', figure: warnBelow };
  if (warnAbove && reading >= warnAbove.low) return { kind: 'high', figure: warnAbove };
  if (!target) return { kind: 'no-figures', figure: null };
  if (reading < target.low) return { kind: 'below-target', figure: target };
  if (reading > target.high) return { kind: 'above-target', figure: target };
  return { kind: 'in-target', figure: target };
}
