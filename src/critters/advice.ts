import type { Critter } from '../knowledge/critter.ts';
import type { MessageView } from '../discord/message-view.ts';

/** The four acts a card can advise; a word first, a colour never alone. */
export const ADVICE = {
  keep: 'Leave it',
  watch: 'Watch it',
  remove: 'Take it out',
  urgent: 'Act today',
} as const satisfies Record<Critter['verdict'], string>;

export const TONE = {
  keep: 'calm',
  watch: 'watch',
  remove: 'remove',
  urgent: 'urgent',
} as const satisfies Record<Critter['verdict'], MessageView['tone']>;

export const adviceOf = ({ verdict }: Critter) => ADVICE[verdict];
