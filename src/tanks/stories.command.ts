import type { TankDeps } from './asked-tank.command.ts';
import { storyOf, type ReadingStory } from './reading-story.ts';
import type { Tank } from './tank.ts';
import { WINDOW_MS } from './what-it-shows.ts';

/** What is to be said of every parameter that was ever measured, in the order of the knowledge base. */
export function storiesOf({ base, tanks }: TankDeps, tank: Tank): ReadingStory[] {
  const measured = new Set(tanks.log.lastReadings(tank.guildId, tank.id).map(({ parameter }) => parameter));
  return [...base.parameters.keys()]
    .filter((id) => measured.has(id))
    .flatMap((id) => storyOfParameter({ base, tanks }, tank, id) ?? []);
}

/** The same of one parameter, from its last readings and what happened since the first of them. */
export function storyOfParameter(
  { base, tanks }: Pick<TankDeps, 'base' | 'tanks'>,
  tank: Tank,
  parameter: string,
): ReadingStory | null {
  const [last] = tanks.log.readings(tank.guildId, tank.id, parameter, 1);
  if (!last) return null;
  const from = new Date(last.at.getTime() - WINDOW_MS);
  return storyOf(base, tank, parameter, tanks.log.since(tank.guildId, tank.id, from));
}
