import type { ReadDescription } from './read-description.ts';
import type { Described } from './session.ts';

/** A description as it is kept; what is known of the surroundings counts before what the words let fall. */
export function describedFrom(
  { evidence }: ReadDescription,
  { near, since }: { near: string | null | undefined; since: Described['since'] | undefined },
): Described {
  return {
    observations: evidence.observations.map((observation) =>
      'readings' in observation ? { ...observation, readings: [...observation.readings] } : observation,
    ),
    named: [...evidence.named],
    alarm: evidence.alarm,
    hurt: [...evidence.hurt],
    near: near ?? null,
    since: since ?? evidence.context.since ?? null,
  };
}
