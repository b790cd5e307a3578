import type { MessageView } from '../discord/message-view.ts';
import type { DoseInCourse } from './dose-in-course.ts';

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
  /** One a day, in order; empty where there is nothing to be reminded of. */
  doses: readonly DoseInCourse[];
  /** The kept tank it is for. */
  tankId: number | null;
  askedAt: Date;
  check: Check | null;
};
