import type { Fish, Tolerance } from '../knowledge/fish.ts';
import type { Plan } from '../knowledge/plan.ts';

/** What a plan asks a fish to bear. */
const ASKS: Readonly<Record<string, 'copper' | 'hyposalinity' | 'tankTransfer' | 'praziquantel'>> = {
  'copper-ionic': 'copper',
  'copper-bound': 'copper',
  hyposalinity: 'hyposalinity',
  'tank-transfer': 'tankTransfer',
  praziquantel: 'praziquantel',
};

export type Suited = { fish: Fish; tolerance: Exclude<Tolerance, 'ok'> };

/** Whether some fish may not bear a plan, so that their kind has to be known. */
export const asksOfFish = ({ id }: Pick<Plan, 'id'>): boolean => ASKS[id] !== undefined;

/** The fish that do not simply bear a plan, the most sensitive first; empty when all do, or the plan asks nothing of them. */
export function notSimplyBorne({ id }: Pick<Plan, 'id'>, fish: readonly Fish[]): Suited[] {
  const asked = ASKS[id];
  if (!asked) return [];
  const order = ['avoid', 'vet-only', 'caution'] as const;
  return fish
    .flatMap((each) => (each[asked] === 'ok' ? [] : [{ fish: each, tolerance: each[asked] }]))
    .sort((one, other) => order.indexOf(one.tolerance) - order.indexOf(other.tolerance));
}

/** Whether a plan has to be refused for these fish unless a vet directed it. */
export const isRefused = (suited: readonly Suited[]): boolean =>
  suited.some(({ tolerance }) => tolerance === 'avoid' || tolerance === 'vet-only');
