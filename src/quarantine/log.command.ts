import { z } from 'zod';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md } from '../discord/message-view.ts';
import { readingIn, readingTroubleView } from './reading-option.ts';
import { saysView } from './start.view.ts';
import { todayView } from './state.view.ts';
import { ownChoices, planGone, standingOf, WHICH, withOwn, type QuarantineDeps } from './which.command.ts';

/** `/quarantine log`: a reading, or something that happened. */
export function logCommand(deps: QuarantineDeps): AnyCommand {
  const kinds = ['temperature', 'salinity', 'copper', 'ammonia', 'nitrite', 'ph'] as const;
  return defineCommand({
    name: 'quarantine log',
    description: 'Notes a reading, or something that happened',
    options: [
      { name: 'reading', description: 'What was measured', required: false, choices: kinds },
      {
        name: 'value',
        description: 'With its unit: "78 F", "35 ppt", "0.17 mg/L"',
        required: false,
        mostCharacters: 40,
      },
      {
        name: 'form',
        description: 'How copper is bound; a copper reading without it is refused',
        required: false,
        choices: ['ionic', 'chelated', 'amine'],
      },
      {
        name: 'happened',
        description: 'What happened',
        required: false,
        choices: [
          'animal added',
          'water or wet tools shared',
          'death, cause known',
          'death, cause unknown',
          'moved to the next tank',
          'a pest, worm or its eggs seen',
          'a fish seen where none may be',
        ],
      },
      WHICH,
    ],
    input: z.object({
      reading: z.enum(kinds).optional(),
      value: z.string().max(40).optional(),
      form: z.enum(['ionic', 'chelated', 'amine']).optional(),
      happened: z.string().max(60).optional(),
      which: z.string().max(100).optional(),
    }),
    run: ({ reading, value, form, happened, which }, request) =>
      withOwn(deps, which, request, ({ quarantine }) => {
        const { memberId, now } = request;
        if (happened !== undefined) {
          const event = HAPPENED[happened];
          if (!event) return saysView('I don’t know that', md`Choose from the list of **happened:**.`);
          deps.store.note(quarantine, { ...event, at: now }, memberId, now);
        } else {
          const read = readingIn(reading, value, form);
          if (read.kind !== 'read') return readingTroubleView(read);
          deps.store.note(quarantine, { kind: 'reading', at: now, reading: read.reading }, memberId, now);
        }
        const after = standingOf(deps, quarantine, now);
        return after ? todayView(quarantine, after.plan, after.state, now) : planGone();
      }),
    suggest: (_option, typed, request) => ownChoices(deps, typed, request),
  });
}

const HAPPENED: Readonly<
  Record<
    string,
    | { kind: 'animal-added' }
    | { kind: 'shared-water' }
    | { kind: 'death'; causeKnown: boolean }
    | { kind: 'moved-tank' }
    | { kind: 'sign-seen'; sign: string; effect: 'pest' | 'fish'; urgency: 'urgent' }
  >
> = {
  'animal added': { kind: 'animal-added' },
  'water or wet tools shared': { kind: 'shared-water' },
  'death, cause known': { kind: 'death', causeKnown: true },
  'death, cause unknown': { kind: 'death', causeKnown: false },
  'moved to the next tank': { kind: 'moved-tank' },
  'a pest, worm or its eggs seen': { kind: 'sign-seen', sign: 'pest-seen', effect: 'pest', urgency: 'urgent' },
  'a fish seen where none may be': { kind: 'sign-seen', sign: 'fish-seen', effect: 'fish', urgency: 'urgent' },
};
