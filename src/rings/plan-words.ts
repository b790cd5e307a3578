import type { RingPlan } from './swap-graph.ts';

/** What a plan does, and how much better any plan could be: "serves 18, no plan can serve more than 19". */
export function planWords({ served, bound, sure }: Pick<RingPlan, 'served' | 'bound' | 'sure'>): string {
  if (bound === 0) return 'serves nobody: no ring can be made';
  return sure ? `serves ${served}, no plan can serve more` : `serves ${served}, no plan can serve more than ${bound}`;
}
