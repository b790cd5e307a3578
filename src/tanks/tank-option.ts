import type { Choice } from '../discord/message-view.ts';
import type { Tank } from './tank.ts';
import { nameKey } from './tank-name.ts';

const MOST_CHOICES = 25;

/** Which tank an option means. Without one it is the only one there is; otherwise the member has to say. */
export type ChosenTank =
  | { kind: 'tank'; tank: Tank }
  | { kind: 'no-tanks' }
  | { kind: 'which'; tanks: readonly Tank[] }
  | { kind: 'unknown'; typed: string; tanks: readonly Tank[] };

/** The tank that was typed: its name, or the beginning of it where that fits one only. */
export function chooseTank(tanks: readonly Tank[], typed: string | undefined): ChosenTank {
  const [first, ...others] = tanks;
  if (!first) return { kind: 'no-tanks' };
  const key = nameKey(typed ?? '');
  if (key === '') return others.length === 0 ? { kind: 'tank', tank: first } : { kind: 'which', tanks };
  const exact = tanks.find(({ name }) => nameKey(name) === key);
  if (exact) return { kind: 'tank', tank: exact };
  const [begun, ...more] = tanks.filter(({ name }) => nameKey(name).startsWith(key));
  return begun && more.length === 0 ? { kind: 'tank', tank: begun } : { kind: 'unknown', typed: typed ?? '', tanks };
}

/** Tanks to choose from while a `tank` option is typed. */
export function tankChoices(tanks: readonly Tank[], typed: string): Choice[] {
  const key = nameKey(typed);
  return tanks
    .filter(({ name }) => nameKey(name).includes(key))
    .slice(0, MOST_CHOICES)
    .map(({ name }) => ({ name, value: name }));
}
