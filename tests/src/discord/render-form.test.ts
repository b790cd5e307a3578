import { expect, test } from 'vitest';
import type { FormView } from '../../../src/discord/message-view.ts';
import { renderForm } from '../../../src/discord/render-form.ts';

const form = (fields: FormView['fields']): FormView => ({
  kind: 'form',
  act: 'weigh',
  args: ['12'],
  title: 'x'.repeat(60),
  fields,
});

test('each field has its label, and what Discord counts is cut to its limits', () => {
  const rendered = renderForm(
    form([
      {
        kind: 'line',
        name: 'entry',
        label: 'Its name'.repeat(9),
        required: true,
        mostCharacters: 100,
        value: 'aiptasia',
      },
      {
        kind: 'choice',
        name: 'verdict',
        label: 'What is it?',
        required: false,
        options: [{ label: 'y'.repeat(120), value: 'pest' }],
      },
    ]),
  );
  expect(rendered.custom_id).toBe('1:weigh:12');
  expect(rendered.title).toHaveLength(45);
  const [line, choice] = rendered.components;
  expect(line).toMatchObject({
    type: 18,
    label: 'Its name'.repeat(9).slice(0, 45),
    component: { type: 4, style: 1, value: 'aiptasia', max_length: 100 },
  });
  expect(choice).toMatchObject({
    type: 18,
    component: { type: 3, required: false, options: [{ label: 'y'.repeat(100), value: 'pest' }] },
  });
});

test('a form of six fields is a mistake of ours', () => {
  const fields = Array.from(
    { length: 6 },
    (_, n) => ({ kind: 'line', name: `f${n}`, label: 'f', required: false, mostCharacters: 9 }) as const,
  );
  expect(() => renderForm(form(fields))).toThrow(RangeError);
});
