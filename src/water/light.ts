import { lightRamp, type LightRamp } from '../../shared/light-ramp.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { FurtherFigure } from '../knowledge/parameter.ts';
import { known } from './known.ts';

/** A week: keepers look at their corals and turn the lamp up on one day of it. */
export const STEP_DAYS = 7;

export type RampRules = {
  /** The largest step, in per cent of the target. */
  step: FurtherFigure;
  days: FurtherFigure;
  enough: FurtherFigure;
  experienced: FurtherFigure;
  start: FurtherFigure;
};

export const rampRules = (base: KnowledgeBase): RampRules => ({
  step: known(base, 'light', 'step'),
  days: known(base, 'light', 'ramp-days'),
  enough: known(base, 'light', 'enough'),
  experienced: known(base, 'light', 'experienced-only'),
  start: known(base, 'light', 'start'),
});

/** A weekly ramp under the cap of the knowledge base. */
export function weeklyRamp(
  rules: RampRules,
  light: { startPar: number; targetPar: number; parAtFull?: number },
): { ramp: LightRamp; capPar: number } {
  const capPar = (rules.step.high / 100) * light.targetPar;
  return { ramp: lightRamp({ ...light, capPar, stepDays: STEP_DAYS }), capPar };
}
