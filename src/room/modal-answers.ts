import { ActRefused, inAList } from './act-refused.ts';
import type { OpenModal } from './interactions.ts';
import type { Part } from './message-body.ts';
import { fieldsOf } from './modal-form.ts';
import type { Field } from './modal-form.ts';
import { fileAt } from './picked.ts';
import type { Picked } from './picked.ts';
import type { GivenFile } from './room.ts';

export type Filled = { fields: Record<string, string>; files: Record<string, GivenFile[]> };
type Answered = Record<string, unknown>;

/** The components of a modal as its submission carries them. */
export function modalAnswers(modal: OpenModal, filled: Filled, picked: Picked): Answered[] {
  const fields = fieldsOf(modal.parts);
  const isFor = (field: Field, key: string) =>
    key === field.part.custom_id || key.toLowerCase() === field.label.toLowerCase();
  for (const key of [...Object.keys(filled.fields), ...Object.keys(filled.files)]) {
    const known = fields.some((field) => isFor(field, key));
    if (!known)
      throw new ActRefused(`the form has no field "${key}"; there are: ${inAList(fields.map(({ label }) => label))}`);
  }
  const answer = (part: Part): Answered => {
    const field = fields.find((one) => one.part === part);
    if (!field) return { type: part.type, id: part.id };
    const typed = Object.entries(filled.fields).find(([key]) => isFor(field, key))?.[1];
    const files = Object.entries(filled.files).find(([key]) => isFor(field, key))?.[1];
    return { type: part.type, id: part.id, custom_id: part.custom_id, ...fieldAnswer(field, typed, files, picked) };
  };
  return modal.parts.map((top) => {
    if (top.component) return { type: top.type, id: top.id, component: answer(top.component) };
    return { type: top.type, id: top.id, ...(top.components ? { components: top.components.map(answer) } : {}) };
  });
}

function fieldAnswer(
  field: Field,
  typed: string | undefined,
  files: GivenFile[] | undefined,
  picked: Picked,
): Answered {
  const { part, label } = field;
  switch (part.type) {
    case 4:
      return { value: textAnswer(field, typed ?? part.value ?? '') };
    case 3:
    case 22:
      return {
        values: counted(
          field,
          typed === undefined ? preset(part) : names(typed).map((name) => optionValue(field, name)),
        ),
      };
    case 5:
      return { values: counted(field, names(typed).map(picked.member)) };
    case 6:
      return { values: counted(field, names(typed).map(picked.role)) };
    case 7:
      return { values: counted(field, names(typed).map(picked.memberOrRole)) };
    case 8:
      return { values: counted(field, names(typed).map(picked.channel)) };
    case 19:
      return { values: counted(field, (files ?? names(typed).map(fileAt)).map(picked.file)) };
    case 21: {
      const value = typed ? optionValue(field, typed.trim()) : (preset(part)[0] ?? null);
      if (value === null && part.required !== false) throw stillNeeded(label);
      return { value };
    }
    case 23:
      return { value: typed !== undefined && ['yes', 'true', 'on', 'x'].includes(typed.trim().toLowerCase()) };
    default:
      throw new ActRefused(`the field "${label}" cannot be filled in`);
  }
}

function textAnswer({ part, label }: Field, value: string): string {
  if (value === '' && part.required !== false) throw stillNeeded(label);
  const most = part.max_length ?? 4000;
  if (value.length > most)
    throw new ActRefused(`"${label}" takes at most ${most} characters; these are ${value.length}`);
  if (value !== '' && value.length < (part.min_length ?? 0))
    throw new ActRefused(`"${label}" needs at least ${part.min_length} characters`);
  return value;
}

function counted({ part, label }: Field, values: string[]): string[] {
  if (values.length === 0) {
    if (part.required !== false && part.min_values !== 0) throw stillNeeded(label);
    return values;
  }
  const most = part.max_values ?? (part.type === 22 ? (part.options?.length ?? 10) : 1);
  if (values.length < (part.min_values ?? 1))
    throw new ActRefused(`"${label}" needs at least ${part.min_values} answers`);
  if (values.length > most) throw new ActRefused(`"${label}" takes at most ${most} answers`);
  return values;
}

function optionValue({ part, label }: Field, name: string): string {
  const plain = name.toLowerCase();
  const options = part.options ?? [];
  const option = options.find((one) => one.label.toLowerCase() === plain || one.value === name);
  if (!option)
    throw new ActRefused(`"${label}" does not offer "${name}"; there are: ${inAList(options.map((one) => one.label))}`);
  return option.value;
}

const preset = (part: Part): string[] =>
  (part.options ?? []).filter((one) => one.default === true).map(({ value }) => value);
const names = (typed = ''): string[] =>
  typed
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');
const stillNeeded = (label: string) => new ActRefused(`the field "${label}" must be filled in`);
