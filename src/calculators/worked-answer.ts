import type { MessageView } from '../discord/message-view.ts';

export type CheckResult = 'right' | 'off';
export type Check = { byId: string; result: CheckResult; note: string | null; at: Date };

/** A worked answer that is used again: to be checked by a second person, or to be reminded of day by day. */
export type WorkedAnswer = {
  id: number;
  guildId: string;
  askerId: string;
  /** Whose tank it is for; null: the asker's own. */
  forId: string | null;
  channelId: string;
  title: string;
  view: MessageView;
  /** One sentence a dose. */
  doses: readonly string[];
  askedAt: Date;
  check: Check | null;
};
