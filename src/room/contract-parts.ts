import type { Problem } from './form-refusal.ts';
import type { Part } from './message-body.ts';

const LINK = 5;
const PREMIUM = 6;
const SELECTS = [3, 5, 6, 7, 8];
const OPTIONS_MAX = 25;

/** What is wrong with a button: each style has its own one of `custom_id` and `url`. */
export function buttonProblems(button: Part, path: PropertyKey[]): Problem[] {
  const say = (key: string, message: string): Problem => ({ path: [...path, key], message });
  const { style, custom_id, url, label, emoji } = button;
  if (style === PREMIUM) return [];
  const problems = !label && !emoji?.name && !emoji ? [say('label', 'a button needs a label or an emoji')] : [];
  if (style === LINK) {
    if (!url) problems.push(say('url', 'a link button needs a url'));
    if (custom_id != null) problems.push(say('custom_id', 'a link button has no custom_id'));
    return problems;
  }
  if (!custom_id) problems.push(say('custom_id', 'this style of button needs a custom_id'));
  if (url != null) problems.push(say('url', 'only a link button has a url'));
  return problems;
}

/** What is wrong with a select, in a message or in a modal. */
export function selectProblems(select: Part, path: PropertyKey[]): Problem[] {
  if (!SELECTS.includes(select.type)) return [];
  const say = (key: string, message: string): Problem => ({ path: [...path, key], message });
  const options = select.options ?? [];
  const values = options.map(({ value }) => value);
  const least = select.min_values ?? 1;
  const most = select.max_values ?? 1;
  const problems: Problem[] = [];
  if (!select.custom_id) problems.push(say('custom_id', 'a select needs a custom_id'));
  if (select.type === 3 && options.length === 0) problems.push(say('options', 'a string select needs options'));
  if (options.length > OPTIONS_MAX) problems.push(say('options', `must be ${OPTIONS_MAX} or fewer`));
  if (new Set(values).size < values.length) problems.push(say('options', 'two options have the same value'));
  if (least > most) problems.push(say('min_values', 'is more than max_values'));
  if (select.type === 3 && most > options.length) problems.push(say('max_values', 'is more than there are options'));
  if (options.filter((one) => one.default === true).length > most)
    problems.push(say('options', 'more are chosen than max_values'));
  return problems;
}
