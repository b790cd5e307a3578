import type { Plan, Rule } from '../knowledge/plan.ts';
import type { Happened } from './fold-events.ts';
import type { SIGN_EFFECTS } from './plan-event.ts';

/** An event that a rule is about. */
export type Touched = { at: Date; rule: Rule; says: string };

const BY_EFFECT: Partial<Record<(typeof SIGN_EFFECTS)[number], Rule['on']>> = {
  infectious: 'infectious-sign',
  weak: 'weak-sign',
  pest: 'pest-seen',
  fish: 'fish-seen',
};

const IN_WORDS: Record<Rule['on'], string> = {
  'infectious-sign': 'a sign that may be catching was seen',
  'weak-sign': 'a weak sign was seen',
  'poor-appetite': 'an animal did not eat normally',
  'missed-meal': 'a meal was refused',
  'animal-added': 'an animal was added',
  'shared-water': 'water or a wet tool came from another tank',
  'unknown-death': 'an animal died of a cause nobody knows',
  'fish-seen': 'a fish was seen in a tank that should have none',
  'pest-seen': 'a pest or its eggs were seen',
};

/** Everything that happened to which a rule could apply, once for the whole plan. */
export function occasions({ events, signs }: Happened): { on: Rule['on']; at: Date }[] {
  return [
    ...signs.flatMap(({ effect, at }) => {
      const on = BY_EFFECT[effect];
      return on ? [{ on, at }] : [];
    }),
    ...events.flatMap((event): { on: Rule['on']; at: Date }[] => {
      const { at } = event;
      if (event.kind === 'animal-added' || event.kind === 'shared-water') return [{ on: event.kind, at }];
      if (event.kind === 'death' && !event.causeKnown) return [{ on: 'unknown-death', at }];
      if (event.kind !== 'check-in' || event.appetite === 'normal') return [];
      const poor = { on: 'poor-appetite' as const, at };
      return event.appetite === 'none' ? [poor, { on: 'missed-meal', at }] : [poor];
    }),
  ].sort((a, b) => a.at.getTime() - b.at.getTime());
}

/** What touched one hold or run, in order of time. */
export function touchedBy(plan: Plan, of: string, happened: ReturnType<typeof occasions>): Touched[] {
  const rules = new Map(plan.rules.filter((rule) => rule.of === of).map((rule) => [rule.on, rule]));
  return happened.flatMap(({ on, at }) => {
    const rule = rules.get(on);
    return rule ? [{ at, rule, says: IN_WORDS[on] }] : [];
  });
}
