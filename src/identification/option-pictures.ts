import type { Block } from '../discord/message-view.ts';
import type { Question } from './questions.ts';

/** Pictures for questions whose options are easier to see than to read. */
export type OptionPictures = {
  forQuestion(question: Question): Extract<Block, { kind: 'picture' }> | undefined;
};

export const noPictures: OptionPictures = { forQuestion: () => undefined };
