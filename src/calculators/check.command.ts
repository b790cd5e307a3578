import { z } from 'zod';
import type { ButtonAct, FormAct } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import { answerGoneView, checkedAlreadyView, checkedView, checkForm, needsAThirdView } from './check.view.ts';
import type { WorkedAnswer, WorkedAnswerStore } from './worked-answers.store.ts';

const Filled = z.object({ result: z.enum(['right', 'off']), note: z.string().default('') });

/** **Check this**: a second person who is neither the asker nor the owner of the tank vouches for an answer, or stops it. */
export function checkButtons(answers: WorkedAnswerStore): ButtonAct[] {
  return [
    {
      act: 'answer-check',
      run: ([id], request) => withOpenAnswer(answers, id, request, (answer) => checkForm(answer)),
    },
  ];
}

export function checkForms(answers: WorkedAnswerStore): FormAct[] {
  return [
    {
      act: 'answer-checked',
      run: ([id], filled, request) =>
        withOpenAnswer(answers, id, request, (answer) => {
          const { result, note } = Filled.parse(filled);
          const check = { byId: request.memberId, result, note: note.trim() || null, at: request.now };
          if (answers.check(answer.id, answer.guildId, check)) return checkedView(answer, check);
          return checkedAlreadyView(answers.find(answer.id, answer.guildId)?.check?.byId ?? '');
        }),
    },
  ];
}

function withOpenAnswer(
  answers: WorkedAnswerStore,
  id: string | undefined,
  { guildId, memberId }: Request,
  run: (answer: WorkedAnswer) => Answer,
): Answer {
  const number = Number(id);
  const answer = guildId !== null && Number.isSafeInteger(number) ? answers.find(number, guildId) : undefined;
  if (!answer) return answerGoneView();
  if (answer.askerId === memberId || answer.forId === memberId) return needsAThirdView();
  return answer.check ? checkedAlreadyView(answer.check.byId) : run(answer);
}
