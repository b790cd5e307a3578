import { describe, expect, test } from 'vitest';
import { ChoreIdea } from '../../../src/knowledge/chore.ts';
import { choresHoldTogether } from '../../../src/knowledge/chore-check.ts';
import type { CompiledKnowledge } from '../../../src/knowledge/knowledge-base.ts';
import { knowledge } from '../../set-up-club.ts';

const chores = () => [...knowledge().chores.values()];
const wet = /unplug/i;

describe('the chores of the trade', () => {
  test('unplug before hands go in, wherever a pump, heater or lamp is handled', () => {
    const electric = chores().filter(({ name }) => /pump|powerhead|skimmer|heater|lamp|overflow|reservoir/i.test(name));
    expect(electric.length).toBeGreaterThan(5);
    for (const { id, caution, firstAid } of electric) {
      expect([id, wet.test(caution ?? '')]).toEqual([id, true]);
      expect(firstAid).toContain('electricity-water');
    }
  });

  test('acid goes into the water and never to bleach, with gloves and eyes covered', () => {
    const sour = chores().filter(({ how }) => /acid|vinegar/i.test(how.join(' ')));
    expect(sour.length).toBeGreaterThan(2);
    for (const { caution = '', firstAid } of sour) {
      expect(caution).toMatch(/acid into the water, never water into the acid.*bleach.*gloves and eye protection/);
      expect(firstAid).toContain('chem-acid');
    }
  });

  test('gloves and eyes covered round zoanthids', () => {
    for (const id of ['coral-barrier', 'coral-dip-round']) {
      const { caution, firstAid } = knowledge().chores.get(id)!;
      expect(caution).toMatch(/gloves and eye protection/);
      expect(firstAid).toContain('toxin-palytoxin');
    }
  });
});

test('help that is not there and a name given twice are complained of', () => {
  const [one, other] = chores();
  const base = {
    chores: [one!, { ...other!, aliases: [one!.name.toUpperCase()], firstAid: ['nowhere'] }],
    firstAid: [],
  };
  const problems = choresHoldTogether(
    {
      ...base,
      chores: base.chores.map((each, at) => (at === 0 ? { ...each, firstAid: [] } : each)),
    } as unknown as CompiledKnowledge,
    (kind, id) => `${kind} ${id}`,
  );
  expect(problems.map(({ path }) => path[0])).toEqual(['firstAid', 'name']);
});

test('an interval of no days is refused', () => {
  const chore = Object.fromEntries(Object.entries(chores()[0]!).filter(([key]) => key !== 'id'));
  expect(ChoreIdea.safeParse(chore).success).toBe(true);
  expect(ChoreIdea.safeParse({ ...chore, everyDays: 0 }).success).toBe(false);
});
