import type { ButtonView, MessageView, Request } from '../discord/message-view.ts';
import type { DoseInCourse } from './dose-in-course.ts';
import type { Worked } from './worked.view.ts';
import { workedView } from './worked.view.ts';

/** Where worked answers are kept, as far as answering needs to know. */
export type KeepsAnswers = {
  keep(answer: {
    guildId: string;
    askerId: string;
    forId: string | null;
    channelId: string;
    title: string;
    view: (id: number) => MessageView;
    doses: readonly DoseInCourse[];
    tankId: number | null;
    askedAt: Date;
  }): MessageView;
};

/** Longer lists of doses are no course that anybody keeps up. */
const MOST_DOSES = 60;

export const checkButton = (id: number): ButtonView => ({
  label: 'Check this',
  act: 'answer-check',
  args: [String(id)],
  style: 'primary',
});

/**
 * A worked answer with the buttons that need it to be kept: a check by a second person, and reminders day by day. In a
 * direct message there is nobody to check and no club to keep it for, so it goes out as it is.
 */
export function keptAnswer(
  answers: KeepsAnswers,
  { guildId, channelId, memberId, now }: Request,
  worked: Worked,
  { title, doses, tankId = null }: { title: string; doses: readonly (string | DoseInCourse)[]; tankId?: number | null },
): MessageView {
  if (guildId === null || channelId === null) return workedView(worked);
  const { forMember, buttons = [] } = worked;
  const courseDoses =
    doses.length > 1 && doses.length <= MOST_DOSES
      ? doses.map((dose) => (typeof dose === 'string' ? { words: dose, effect: null } : dose))
      : [];
  return answers.keep({
    guildId,
    channelId,
    title,
    askerId: memberId,
    forId: forMember?.id ?? null,
    doses: courseDoses,
    tankId,
    askedAt: now,
    view: (id) =>
      workedView({
        ...worked,
        buttons: [
          ...(forMember
            ? [checkButton(id)]
            : [{ label: 'Let somebody check', act: 'answer-share', args: [String(id)] } satisfies ButtonView]),
          ...(courseDoses.length > 0
            ? [{ label: 'Remind me daily', act: 'course-form', args: [String(id)] } satisfies ButtonView]
            : []),
          ...buttons,
        ],
      }),
  });
}
