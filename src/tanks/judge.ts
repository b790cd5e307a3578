import type { Figure, Parameter } from '../knowledge/parameter.ts';

/** How a reading stands to the limits of its parameter, with the figure that decides. */
export type Judgement =
  | { kind: 'urgent' | 'warn'; side: 'below' | 'above'; figure: Figure }
  | { kind: 'in-target' | 'off-target'; figure: Figure }
  | { kind: 'no-limits' };

/** Judges a value, the gravest limit first. Where a limit is a span, its careful end counts. */
export function judge(parameter: Parameter, value: number): Judgement {
  const { urgentBelow, urgentAbove, warnBelow, warnAbove, target } = parameter;
  if (urgentBelow && value < urgentBelow.high) return { kind: 'urgent', side: 'below', figure: urgentBelow };
  if (urgentAbove && value > urgentAbove.low) return { kind: 'urgent', side: 'above', figure: urgentAbove };
  if (warnBelow && value < warnBelow.high) return { kind: 'warn', side: 'below', figure: warnBelow };
  if (warnAbove && value > warnAbove.low) return { kind: 'warn', side: 'above', figure: warnAbove };
  if (!target) return { kind: 'no-limits' };
  return { kind: value >= target.low && value <= target.high ? 'in-target' : 'off-target', figure: target };
}
