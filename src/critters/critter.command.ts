import { z } from 'zod';
import { defineCommand, type AnyCommand, type ButtonAct, type MentionAnswer } from '../discord/command.ts';
import type { Choice, MessageView } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import { critterMatches, worthOffering } from '../knowledge/look-up.ts';
import type { Finder } from '../knowledge/finder.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { adviceOf } from './advice.ts';
import { cardView } from './card.view.ts';
import { compareView } from './compare.view.ts';
import { answerCompare, answerName } from './critter-answers.ts';
import { aidView, entryView, firstAidView } from './entry.view.ts';
import { cannotTellView, outOfDateView } from './names.view.ts';

const MOST_CHOICES = 25;
const MOST_CHOICE_NAME = 100;
const typedName = z.string().max(100);

/** `/critter name` and `/critter compare`. */
export function critterCommands(
  base: KnowledgeBase,
  finder: Finder,
  whenHurt: MentionAnswer = () => null,
): AnyCommand[] {
  const suggest = (_option: string, typed: string): Choice[] => suggestCritters(base, finder, typed);
  const nameOption = (name: string, description: string) =>
    ({ name, description, required: true, autocomplete: true, mostCharacters: 100 }) as const;
  return [
    defineCommand({
      name: 'critter name',
      description: 'Is it a pest or a cleaner? What it does, what to rule out, what to do',
      options: [nameOption('critter', 'Its name or nickname, or part of one')],
      input: z.object({ critter: typedName }),
      // Where a name is asked for, somebody who is hurt may write that instead; an entry's own name comes first.
      run: ({ critter }, request) =>
        (finder.exact(critter) ? null : whenHurt(critter, request)) ?? answerName(base, finder, critter, 'member'),
      suggest,
    }),
    defineCommand({
      name: 'critter compare',
      description: 'Two look-alikes side by side, and what each mistake costs',
      options: [nameOption('critter', 'One of the two'), nameOption('with', 'The other one')],
      input: z.object({ critter: typedName, with: typedName }),
      run: (input) => answerCompare(base, finder, input.critter, input.with),
      suggest,
    }),
  ];
}

/** The buttons of cards and comparisons. Each reads its entry ids again; an id that is gone gets a friendly answer. */
export function critterButtons(base: KnowledgeBase): ButtonAct[] {
  const withCritter = (act: string, run: (critter: Critter, shownBy: string) => MessageView): ButtonAct => ({
    act,
    run: ([id = ''], { memberName }) => {
      const critter = base.critters.get(id);
      return critter ? run(critter, memberName) : outOfDateView();
    },
  });
  const withPair = (act: string, run: (one: Critter, other: Critter, shownBy: string) => MessageView): ButtonAct => ({
    act,
    run: ([a = '', b = ''], { memberName }) => {
      const one = base.critters.get(a);
      const other = base.critters.get(b);
      return one && other ? run(one, other, memberName) : outOfDateView();
    },
  });
  return [
    withCritter('card', (critter) => cardView(base, critter, { audience: 'member' })),
    withCritter('entry', (critter) => entryView(base, critter)),
    withCritter('first-aid', (critter) => firstAidView(base, critter)),
    withCritter('show-card', (critter, shownBy) => cardView(base, critter, { audience: 'everyone', shownBy })),
    {
      act: 'aid',
      run: ([id = '']) => {
        const row = base.firstAid.get(id);
        return row ? aidView(row) : outOfDateView();
      },
    },
    withPair('compare', (one, other) => compareView(base, one, other, { audience: 'member' })),
    withPair('show-pair', (one, other, shownBy) => compareView(base, one, other, { audience: 'everyone', shownBy })),
    {
      act: 'cannot-tell',
      run: ([id = '']) => {
        const question = base.ambiguousNames.find((candidate) => candidate.id === id);
        return question ? cannotTellView(base, question) : outOfDateView();
      },
    },
  ];
}

/** At most 25 choices, each with its advice; with nothing typed, the animals met most often. */
export function suggestCritters(base: KnowledgeBase, finder: Finder, typed: string): Choice[] {
  const critters =
    typed.trim() === ''
      ? [...base.critters.values()].filter(({ howOftenMet }) => howOftenMet === 'very-common')
      : critterMatches(base, worthOffering(finder.nearest(typed, MOST_CHOICES)));
  return critters.slice(0, MOST_CHOICES).map((critter) => ({
    name: `${critter.name} — ${adviceOf(critter)}`.slice(0, MOST_CHOICE_NAME),
    value: critter.id,
  }));
}
