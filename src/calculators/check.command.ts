import { z } from 'zod';
import type { ButtonAct, FormAct } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import {
  answerGoneView,
  checkedAlreadyView,
  checkedView,
  checkForm,
  needsAThirdView,
  sharedView,
} from './check.view.ts';
import type { WorkedAnswer } from './worked-answer.ts';
import type { WorkedAnswerStore } from './worked-answers.store.ts';

const Filled = z.object({ result: z.enum(['right', 'off']), note: z.string().default('') });

/** **Check this**: a second person who is neither the asker nor the owner of the tank vouches for an answer, or stops it. */
export function checkButtons(answers: WorkedAnswerStore): ButtonAct[] {
  return [
    {
      act: 'answer-check',
      run: ([id], request) => withOpenAnswer(answers, id, request, (answer) => checkForm(answer)),
    },
    {
      act: 'answer-share',
      run: ([id], request) => {
        const answer = answerOf(answers, id, request);
        if (!answer || answer.askerId !== request.memberId) return answerGoneView();
        return answer.check ? checkedAlreadyView(answer.check.byId) : sharedView(answer);
      },
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

function answerOf(answers: WorkedAnswerStore, id: string | undefined, { guildId }: Request): WorkedAnswer | undefined {
  const number = Number(id);
  return guildId !== null && Number.isSafeInteger(number) ? answers.find(number, guildId) : undefined;
}

function withOpenAnswer(
  answers: WorkedAnswerStore,
  id: string | undefined,
  request: Request,
  run: (answer: WorkedAnswer) => Answer,
): Answer {
  const answer = answerOf(answers, id, request);
  if (!answer) return answerGoneView();
  if (answer.askerId === request.memberId || answer.forId === request.memberId) return needsAThirdView();
  return answer.check ? checkedAlreadyView(answer.check.byId) : run(answer);
}
