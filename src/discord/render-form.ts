import {
  ComponentType,
  TextInputStyle,
  type APIComponentInLabel,
  type APIModalInteractionResponseCallbackData,
} from 'discord.js';
import { writeCustomId } from './custom-id.ts';
import type { FormField, FormView } from './message-view.ts';

/** Discord's limits on a form. */
const MOST_TITLE = 45;
const MOST_LABEL = 45;
const MOST_DESCRIPTION = 100;
const MOST_FIELDS = 5;
const MOST_OPTION = 100;

/** A form as Discord takes it. */
export function renderForm({ act, args, title, fields }: FormView): APIModalInteractionResponseCallbackData {
  if (fields.length > MOST_FIELDS)
    throw new RangeError(`a form may have ${MOST_FIELDS} fields, this one has ${fields.length}`);
  return {
    custom_id: writeCustomId(act, args),
    title: title.slice(0, MOST_TITLE),
    components: fields.map((field) => ({
      type: ComponentType.Label,
      label: field.label.slice(0, MOST_LABEL),
      ...(field.description ? { description: field.description.slice(0, MOST_DESCRIPTION) } : {}),
      component: inputOf(field),
    })),
  };
}

function inputOf(field: FormField): APIComponentInLabel {
  if (field.kind === 'choice')
    return {
      type: ComponentType.StringSelect,
      custom_id: field.name,
      required: field.required,
      options: field.options.map(({ label, value, description }) => ({
        label: label.slice(0, MOST_OPTION),
        value,
        ...(description ? { description: description.slice(0, MOST_OPTION) } : {}),
      })),
    };
  if (field.kind === 'upload')
    return {
      type: ComponentType.FileUpload,
      custom_id: field.name,
      required: field.required,
      min_values: field.required ? 1 : 0,
      max_values: 1,
    };
  return {
    type: ComponentType.TextInput,
    custom_id: field.name,
    style: field.kind === 'line' ? TextInputStyle.Short : TextInputStyle.Paragraph,
    required: field.required,
    max_length: field.mostCharacters,
    ...(field.placeholder ? { placeholder: field.placeholder } : {}),
    ...(field.value ? { value: field.value } : {}),
  };
}
