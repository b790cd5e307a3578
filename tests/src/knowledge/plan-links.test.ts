import { expect, test } from 'vitest';
import { checkLinks } from '../../../src/knowledge/knowledge-check.ts';
import type { Plan } from '../../../src/knowledge/plan.ts';
import { loaded } from './real-base.ts';

const { knowledge } = loaded;

/** What is said of the plans when the stop signs of one hold are these. */
function complaints(stops: string[]) {
  const plans = knowledge.plans.map((plan): Plan => ({
    ...plan,
    holds: plan.holds.map((hold) =>
      plan.id === 'copper-ionic' && hold.id === 'level' && hold.range?.stopSigns
        ? { ...hold, range: { ...hold.range, stopSigns: { ...hold.range.stopSigns, signs: stops } } }
        : hold,
    ),
  }));
  return checkLinks({ ...knowledge, plans }, (kind, id) => `${kind}/${id}`);
}

test('the signs that stop a hold are signs of the knowledge base', () => {
  const known = knowledge.plans
    .flatMap(({ holds }) => holds)
    .flatMap(({ range }) => range?.stopSigns?.signs ?? []);
  expect(known.length).toBeGreaterThan(0);
  expect(complaints(known)).toEqual([]);
  expect(complaints(['fish-singing'])).toEqual([
    { file: 'plan/copper-ionic', path: ['holds'], message: 'came "fish-singing", expected the id of a sign' },
  ]);
});
