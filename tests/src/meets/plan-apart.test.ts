import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planApart } from '../../../src/meets/plan-apart.ts';
import { planRings } from '../../../src/rings/plan-rings.ts';
import type { SwapArc, SwapGraph } from '../../../src/rings/swap-graph.ts';

const MEMBERS = ['bo', 'ida', 'nell', 'olu', 'tom', 'uma'];
const pair = fc.record({ from: fc.constantFrom(...MEMBERS), to: fc.constantFrom(...MEMBERS) });
const graphOf = (pairs: readonly { from: string; to: string }[]) => {
  const all = [...new Map(pairs.filter(({ from, to }) => from !== to).map((each) => [`${each.from}/${each.to}`, each])).values()]; // prettier-ignore
  const arcs = all.map(({ from, to }, at): SwapArc => ({ from, to, offerId: at + 1, weight: 0.6, km: null }));
  return { members: MEMBERS.map((id) => ({ id, weight: 1 })), arcs };
};

test('no ring has two members with a block between them, and no plan claims more than it does', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(pair, { maxLength: 16 }), fc.array(pair, { maxLength: 3 }), async (pairs, blocks) => {
      const blocked = new Set(
        blocks.flatMap(({ from, to }) => (from === to ? [] : [`${from}/${to}`, `${to}/${from}`])),
      );
      const given = graphOf(pairs);
      const graph = { ...given, arcs: given.arcs.filter(({ from, to }) => !blocked.has(`${from}/${to}`)) };
      const solve = (open: SwapGraph) => Promise.resolve(planRings(open, { seed: 1, longest: 4, budgetMs: 5 }));
      const { plan, rings } = await planApart(graph, blocked, String, solve);
      for (const ring of rings)
        for (const { from } of ring)
          for (const { from: other } of ring) expect(blocked.has(`${from}/${other}`)).toBe(false);
      expect(plan.served).toBe(rings.flat().length);
      expect(plan.served).toBeLessThanOrEqual(plan.bound);
      expect(plan.sure).toBe(plan.served === plan.bound);
      if (blocked.size === 0) expect(plan.served).toBe((await solve(graph)).served);
    }),
    { numRuns: 60 },
  );
});
