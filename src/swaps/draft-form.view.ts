import { FLOWS } from '../knowledge/coral-words.ts';
import type { FormField, FormView, SelectOption } from '../discord/message-view.ts';
import { MOST, type Draft, type Typed, type TypedField } from './draft.ts';
import { LIGHTS } from './offer.ts';

/** Discord takes no more in one form. */
const MOST_FIELDS = 5;

/** What is asked of every offer; all of it may stay empty. */
const ASKED: readonly TypedField[] = ['special', 'size', 'swapFor', 'area', 'care'];
const ASKED_OF_A_GIFT: readonly TypedField[] = ['special', 'size', 'colour', 'area', 'care'];

/** The form of a draft with what was typed in it; `first`: fields that are asked before the usual ones. */
export function draftForm({ id, typed }: Draft, first: readonly TypedField[] = []): FormView {
  const usual = typed.give ? ASKED_OF_A_GIFT : ASKED;
  return form(id, typed, [...new Set([...first, ...usual])].slice(0, MOST_FIELDS));
}

/** A form with one field only, for what the usual one does not ask. */
export const oneFieldForm = ({ id, typed }: Draft, field: TypedField): FormView => form(id, typed, [field]);

const form = (id: number, typed: Typed, fields: readonly TypedField[]): FormView => ({
  kind: 'form',
  act: 'frag-draft-filled',
  args: [String(id)],
  title: 'About your piece',
  fields: fields.map((name) => fieldOf(name, typed)),
});

function fieldOf(name: TypedField, typed: Typed): FormField {
  const value = typed[name];
  const line = (label: string, mostCharacters: number, rest: { placeholder?: string; description?: string } = {}) =>
    ({ kind: 'line', name, label, mostCharacters, required: false, value, ...rest }) satisfies FormField;
  switch (name) {
    case 'special':
      return {
        ...line('What makes it special?', MOST.special, {
          placeholder: 'Its colour, how it grows, its story',
        }),
        kind: 'paragraph',
      };
    case 'size':
      return line('How big is a piece?', MOST.size, { placeholder: '3 cm, or two heads' });
    case 'swapFor':
      return line('Swap it for what?', MOST.swapFor, { description: 'Left empty: you are open to anything' });
    case 'area':
      return line('Where can it be picked up?', MOST.area, {
        description: 'Roughly. Everybody in the club can read it',
      });
    case 'care':
      return line('Dips done, and the mother’s age', MOST.care, { placeholder: 'Two iodine dips; mother six years' });
    case 'coral':
      return { ...line('Which coral?', MOST.name), required: true };
    case 'pieces':
      return line('How many pieces?', 10, { placeholder: '1' });
    case 'cut':
      return line('When was it cut?', 40, { placeholder: 'last week, 3 weeks ago, 1 Nov or 2026-11-01' });
    case 'healsIn':
      return line('Settled so many days after the cut', 10, { placeholder: '14' });
    case 'colour':
      return line('Which colour?', MOST.colour);
    case 'light':
      return { kind: 'choice', name, label: 'How much light does it have?', required: true, options: choices(LIGHTS) };
    case 'flow':
      return { kind: 'choice', name, label: 'How much flow does it have?', required: true, options: choices(FLOWS) };
  }
}

const choices = (words: readonly string[]): SelectOption[] =>
  words.map((word) => ({ label: word.charAt(0).toUpperCase() + word.slice(1), value: word }));

export const PHOTO_FIELD = 'photo';

/** Takes a photo straight from the phone. */
export const photoForm = ({ id, typed }: Draft): FormView => ({
  kind: 'form',
  act: 'frag-draft-photo-sent',
  args: [String(id)],
  title: 'A photo of your piece',
  fields: [
    {
      kind: 'upload',
      name: PHOTO_FIELD,
      label: 'Photo',
      description: 'JPEG, PNG or WebP, up to 10 MB. Where it was made is taken out',
      required: true,
    },
    {
      kind: 'line',
      name: 'photoAlt',
      label: 'What does it show?',
      description: 'For members who cannot see it; left empty, I say what it is',
      required: false,
      mostCharacters: 300,
      value: typed.photoAlt,
    },
  ],
});
