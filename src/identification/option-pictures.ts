import type { Block } from '../discord/message-view.ts';
import { optionSheet } from '../drawing/option-sheet.ts';
import { altTextOf } from '../drawing/page.ts';
import type { Subject } from '../drawing/subject.ts';
import { BODY_FORM_SUBJECTS, SHELL_SHAPE_SUBJECTS } from '../drawing/trait-options.ts';
import type { Question } from './questions.ts';

type Picture = Extract<Block, { kind: 'picture' }>;

/** A sheet holds this many drawings; further options have their button all the same. */
const MOST_DRAWN = 9;

const SUBJECTS: Partial<Record<string, Readonly<Record<string, Subject>>>> = {
  bodyForm: BODY_FORM_SUBJECTS,
  shellShape: SHELL_SHAPE_SUBJECTS,
};

/** A sheet of drawings for a question whose options are easier to see than to read; undefined for the others. */
export function pictureFor({ trait, ask, options }: Question): Picture | undefined {
  const subjects = trait === undefined ? undefined : SUBJECTS[trait];
  if (!subjects) return undefined;
  const drawn = options.slice(0, MOST_DRAWN).flatMap(({ id, say }) => {
    const subject = subjects[id];
    return subject ? [{ label: say, subject }] : [];
  });
  if (drawn.length < 2) return undefined;
  const sheet = optionSheet(ask, drawn);
  return { kind: 'picture', name: 'answers.png', alt: altTextOf(sheet), svg: sheet.svg, width: sheet.width };
}
