import type { FormField, FormView } from '../discord/message-view.ts';
import type { Sighting } from '../identification/session.ts';

/** What the fields of the form are called when they come back. */
export const PHOTO_FIELD = 'photo';
export const TEXT_FIELD = 'text';

const PHOTO: FormField = {
  kind: 'upload',
  name: PHOTO_FIELD,
  label: 'A photo, if you have one',
  description: 'JPEG, PNG or WebP, up to 10 MB. Where it was taken is removed before anybody sees it.',
  required: false,
};

/** Before the club is asked: a photo, if there is one, and the words so far to be looked over. */
export function askClubForm({ id, text, answers }: Sighting, takesPhotos: boolean, mostText: number): FormView {
  const answered = answers.filter(({ option }) => option !== 'skip').length;
  const along = answered === 0 ? '' : ` Your ${answered === 1 ? 'answer goes' : `${answered} answers go`} along.`;
  const said = text.trim().slice(0, mostText);
  return {
    kind: 'form',
    act: 'ask-club-sent',
    args: [String(id)],
    title: 'Ask the club',
    fields: [
      ...(takesPhotos ? [PHOTO] : []),
      {
        kind: 'paragraph',
        name: TEXT_FIELD,
        label: 'What you see',
        description: `The club reads this.${along}`,
        required: false,
        mostCharacters: mostText,
        placeholder: 'Shape, colour, size, where, when, what it does',
        ...(said === '' ? {} : { value: said }),
      },
    ],
  };
}
