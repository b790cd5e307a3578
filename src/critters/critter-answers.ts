import type { MessageView } from '../discord/message-view.ts';
import { md } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { Finder } from '../knowledge/finder.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { lookUp, type LookUp } from '../knowledge/look-up.ts';
import { cardView } from './card.view.ts';
import { compareView } from './compare.view.ts';
import { noteView, notThereView, questionView } from './names.view.ts';

/** The answer to a name that somebody typed. */
export function answerName(
  base: KnowledgeBase,
  finder: Finder,
  typed: string,
  audience: MessageView['audience'],
): MessageView {
  return answerLookUp(base, lookUp(base, finder, typed), audience);
}

/** Cards by base, entry and audience: they never change while a base is loaded, and most questions are the same few. */
const cards = new WeakMap<KnowledgeBase, Map<string, MessageView>>();

function keptCard(base: KnowledgeBase, critter: Critter, audience: MessageView['audience']): MessageView {
  const kept = cards.get(base) ?? new Map<string, MessageView>();
  cards.set(base, kept);
  const key = `${critter.id} ${audience}`;
  const card = kept.get(key) ?? cardView(base, critter, { audience });
  kept.set(key, card);
  return card;
}

/** A look-up as a message. */
export function answerLookUp(base: KnowledgeBase, found: LookUp, audience: MessageView['audience']): MessageView {
  switch (found.kind) {
    case 'found':
      return keptCard(base, found.critter, audience);
    case 'read-as':
      return cardView(base, found.critter, { audience, readAs: found });
    case 'question':
      return questionView(base, found.question, found.typed, audience);
    case 'not-there':
      return notThereView(found.typed, found.nearest, audience);
    case 'nothing-typed':
      return noteView(
        'Which animal?',
        md`Type a name, a nickname or part of one, such as **bristle worm**, **asterina** or **zoas**, and pick from the list.`,
      );
  }
}

/** Two typed names side by side; when one of them is not clear, that one is answered first. */
export function answerCompare(base: KnowledgeBase, finder: Finder, one: string, other: string): MessageView {
  const found = [lookUp(base, finder, one), lookUp(base, finder, other)] as const;
  const unclear = found.find(({ kind }) => kind !== 'found' && kind !== 'read-as');
  if (unclear) return answerLookUp(base, unclear, 'member');
  const [first, second] = found.map((each) => ('critter' in each ? each.critter : undefined));
  if (!first || !second) return answerLookUp(base, found[0], 'member');
  if (first.id === second.id)
    return noteView(
      'Those are the same entry',
      md`Both names lead to **${first.name}**. Name another animal to compare it with.`,
    );
  return compareView(base, first, second, { audience: 'member' });
}
