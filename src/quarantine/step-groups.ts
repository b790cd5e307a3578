import type { Plan } from '../knowledge/plan.ts';
import type { StepState } from './plan-state.ts';

/** Steps that are the same act several times over: the turns of a run, or steps that differ by a number and say the same. */
export type StepGroup = { name: string; run: string | null; steps: [StepState, ...StepState[]] };

/** Every step in the group it belongs to; most stand alone. Runs come first. */
export function stepGroups({ runs }: Plan, steps: readonly StepState[]): StepGroup[] {
  const groups = new Map<string, [StepState, ...StepState[]]>();
  for (const step of [...steps.filter(({ run }) => run), ...steps.filter(({ run }) => !run)]) {
    const key = step.run ? `run ${step.run.id}` : `${step.id.replace(/-\d+$/, '-')} ${step.says}`;
    const known = groups.get(key);
    if (known) known.push(step);
    else groups.set(key, [step]);
  }
  return [...groups.values()].map((group) => {
    const run = runs.find(({ id }) => id === group[0].run?.id);
    return { name: run?.title ?? sharedName(group.map(({ title }) => title)), run: run?.id ?? null, steps: group };
  });
}

/** The words that all titles begin with: "Look again" of "Look again after 1 hour" and "Look again after 4 hours". */
function sharedName([first = '', ...others]: readonly string[]): string {
  if (others.length === 0) return first;
  const words = first.split(' ');
  let shared = words.findIndex((word, at) => others.some((title) => title.split(' ')[at] !== word));
  if (shared < 0) shared = words.length;
  while (shared > 1 && /^(after|on|for|day|the|at)$/.test(words[shared - 1] ?? '')) shared -= 1;
  return shared === 0 ? first : words.slice(0, shared).join(' ').replace(/[,:]$/, '');
}
