import { z } from 'zod';
import { describedFrom } from '../identification/described.ts';
import type { ReadDescription } from '../identification/read-description.ts';
import { Answer, Described, type Sighting } from '../identification/session.ts';

/** What a case takes along of a sighting, as it was when the club was asked: later answers do not change the case. */
export const CarriedSighting = z.strictObject({ id: z.int(), described: Described, answers: z.array(Answer) });
export type CarriedSighting = z.infer<typeof CarriedSighting>;

/**
 * A sighting with the words that were sent to the club. Words that were changed in the form are read anew; what was
 * said of harm before stays said, since nobody should lose a warning by tidying up a sentence.
 */
export function carriedFrom(
  { id, text, described, answers }: Sighting,
  sentText: string,
  read: (text: string) => ReadDescription,
): CarriedSighting {
  if (sentText.trim() === text.trim()) return { id, described, answers: [...answers] };
  const anew = describedFrom(read(sentText), { near: described.near, since: described.since });
  return {
    id,
    answers: [...answers],
    described: {
      ...anew,
      alarm: anew.alarm || described.alarm,
      hurt: [...new Set([...anew.hurt, ...described.hurt])],
    },
  };
}
