import type { PlanEvent } from './plan-event.ts';

type Happening = PlanEvent extends infer Event
  ? Event extends { id: string; at: Date }
    ? Omit<Event, 'id' | 'at'>
    : never
  : never;

/** What can happen besides readings and steps, as a keeper would say it. */
export const HAPPENINGS: Readonly<Record<string, Happening>> = {
  'animal added': { kind: 'animal-added' },
  'water or wet tools shared': { kind: 'shared-water' },
  'death, cause known': { kind: 'death', causeKnown: true },
  'death, cause unknown': { kind: 'death', causeKnown: false },
  'moved to the next tank': { kind: 'moved-tank' },
  'the vet’s dose or bath was given': { kind: 'dose-given' },
  'a meal was refused': { kind: 'check-in', signs: [], appetite: 'none' },
  'a pest, worm or its eggs seen': { kind: 'sign-seen', sign: 'pest-seen', effect: 'pest', urgency: 'urgent' },
  'a fish seen where none may be': { kind: 'sign-seen', sign: 'fish-seen', effect: 'fish', urgency: 'urgent' },
};
