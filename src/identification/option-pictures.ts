import type { Block, DrawnPicture } from '../discord/message-view.ts';
import type { Question } from './questions.ts';

type Picture = Extract<Block, { kind: 'picture' }>;

/** A sheet holds this many drawings; further options have their button all the same. */
const MOST_DRAWN = 9;
/** Traits whose values are easier to see than to read. */
const DRAWN_TRAITS: ReadonlySet<string> = new Set(['bodyForm', 'shellShape']);

/** A sheet of drawings for a question about shapes; undefined for the others. */
export function pictureFor(question: Question): Picture | undefined {
  if (!DRAWN_TRAITS.has(question.trait ?? '') || question.options.length < 2) return undefined;
  return { kind: 'picture', name: 'answers.png', draw: () => drawOptions(question) };
}

/** Draws the first options of a question, numbered as its buttons stand. */
export async function drawOptions({ trait, ask, options }: Question): Promise<DrawnPicture> {
  const { altTextOf, optionSheet, BODY_FORM_SUBJECTS, SHELL_SHAPE_SUBJECTS } = await import('../drawing/plates.ts');
  const subjects = new Map(Object.entries(trait === 'bodyForm' ? BODY_FORM_SUBJECTS : SHELL_SHAPE_SUBJECTS));
  const drawn = options.slice(0, MOST_DRAWN).flatMap(({ id, say }) => {
    const subject = subjects.get(id);
    return subject ? [{ label: say, subject }] : [];
  });
  const sheet = optionSheet(ask, drawn);
  return { svg: sheet.svg, width: sheet.width, alt: altTextOf(sheet) };
}
