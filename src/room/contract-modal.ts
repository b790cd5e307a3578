import { selectProblems } from './contract-parts.ts';
import type { Problem } from './form-refusal.ts';
import { everyPart } from './message-body.ts';
import type { Part } from './message-body.ts';

// Rules for modals; Discord's documents are stricter than its description.

const PARTS_MAX = 5;
const ROW = 1;
const TEXT_INPUT = 4;
const TEXT_DISPLAY = 10;
const LABEL = 18;
const RADIO_GROUP = 21;
const CHECKBOX_GROUP = 22;

export function modalProblems(components: Part[]): Problem[] {
  const ids = [...everyPart(components)].flatMap(({ custom_id }) => custom_id ?? []);
  const twice = new Set(ids.filter((id, n) => ids.indexOf(id) !== n));
  const count = components.length < 1 || components.length > PARTS_MAX;
  return [
    ...(count ? [at(['components'], `a modal has 1 to ${PARTS_MAX} components, not ${components.length}`)] : []),
    ...(ids.length === 0 ? [at(['components'], 'a modal needs something to fill in')] : []),
    ...[...twice].map((id) => at(['components'], `custom_id "${id}" is there more than once`)),
    ...components.flatMap((part, n) => topProblems(part, ['components', n])),
  ];
}

function topProblems(part: Part, path: PropertyKey[]): Problem[] {
  switch (part.type) {
    case LABEL:
      return part.component
        ? fieldProblems(part.component, [...path, 'component'], true)
        : [at(path, 'a label needs a component')];
    case ROW:
      return (part.components ?? []).flatMap((inner, n) => fieldProblems(inner, [...path, 'components', n], false));
    case TEXT_DISPLAY:
      return [];
    default:
      return [at([...path, 'type'], `component type ${part.type} does not belong at the top of a modal`)];
  }
}

function fieldProblems(field: Part, path: PropertyKey[], inLabel: boolean): Problem[] {
  const say = (key: string, message: string) => at([...path, key], message);
  const options = field.options?.length ?? 0;
  switch (field.type) {
    case TEXT_INPUT: {
      const tooLong = (field.value?.length ?? 0) > (field.max_length ?? 4000);
      return [
        ...((field.min_length ?? 0) > (field.max_length ?? 4000) ? [say('min_length', 'is more than max_length')] : []),
        ...(tooLong ? [say('value', 'is longer than max_length')] : []),
        ...(inLabel && field.label != null ? [say('label', 'belongs to the Label around it')] : []),
        ...(!inLabel && !field.label ? [say('label', 'a text input outside of a Label needs its own')] : []),
      ];
    }
    case RADIO_GROUP:
      return options < 2 || options > 10 ? [say('options', 'a radio group has 2 to 10 options')] : [];
    case CHECKBOX_GROUP:
      return options < 1 || options > 10 ? [say('options', 'a checkbox group has 1 to 10 options')] : [];
    default:
      return field.disabled ? [say('disabled', 'nothing can be disabled in a modal')] : selectProblems(field, path);
  }
}

const at = (path: PropertyKey[], message: string): Problem => ({ path, message });
