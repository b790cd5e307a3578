import { beforeAll, describe, expect, it } from 'vitest';
import type { SolveProgramme } from '../../../shared/joint-plan-model.ts';
import { boundOfPart } from '../../../src/rings/bound.ts';
import { planIndexed, planRings, type OpenBound } from '../../../src/rings/plan-rings.ts';
import { indexGraph, type Longest, type SwapGraph } from '../../../src/rings/swap-graph.ts';
import { bareSolver } from '../../shared/joint-plan-stage.ts';
import { byArcs, byCycles } from './programmes.ts';
import { randomClub } from './random-club.ts';

let solve: SolveProgramme;
beforeAll(async () => {
  solve = await bareSolver();
});

async function optimum(programme: string): Promise<number> {
  const solved = await solve(programme);
  if (solved.kind !== 'optimal') throw new Error(`an optimum was due, came ${JSON.stringify(solved)}`);
  return solved.objective;
}

/** The bound that the linear programme gives, as the ring solver reckons it. */
async function linearBound(graph: SwapGraph, longest: Longest, budgetMs: number) {
  let open: OpenBound | undefined;
  const setting = { seed: 1, longest, budgetMs };
  const plan = planIndexed(indexGraph(graph).indexed, setting, { onOpenBound: (bound) => (open = bound) });
  if (!open) return plan;
  let bound = open.certain;
  for (const { programme, atMost } of open.parts)
    bound += programme === null ? atMost : boundOfPart(await optimum(programme), longest);
  return { ...plan, bound };
}

describe('the best plan', () => {
  it.each([
    { members: 20, longest: 4, seed: 1 },
    { members: 30, longest: 4, seed: 2 },
    { members: 30, longest: 3, seed: 3 },
    { members: 40, longest: 3, seed: 4 },
    { members: 40, longest: 2, seed: 5 },
    { members: 60, longest: 3, seed: 2 },
    { members: 60, longest: 2, seed: 7 },
  ] as const)(
    'for $members members and rings of up to $longest is as good by cycles, by arcs and by search',
    async ({ members, longest, seed }) => {
      const graph = randomClub({ members, seed });
      const cycles = await optimum(byCycles(graph, longest));
      const arcs = await optimum(byArcs(graph, longest));
      expect(cycles).toBeCloseTo(arcs, 6);
      const plan = await linearBound(graph, longest, 150);
      expect(plan.served).toBe(Math.round(cycles));
      expect(plan.bound).toBeGreaterThanOrEqual(plan.served);
    },
  );

  it('serves no fewer pairs than the programme, in clubs of odd rings', async () => {
    for (let seed = 1; seed <= 12; seed += 1) {
      const graph = randomClub({ members: 60, seed, kinds: 24, most: 2 });
      const plan = planRings(graph, { seed, longest: 2, budgetMs: 5 });
      expect(plan.served, `club ${seed}`).toBe(Math.round(await optimum(byCycles(graph, 2))));
      expect(plan.sure).toBe(true);
    }
  });
});

describe('the bound', () => {
  it.each([2, 4])('leaves less than a hundredth open with 200 members and rings of up to 3, club %i', async (seed) => {
    const plan = await linearBound(randomClub({ members: 200, seed }), 3, 400);
    expect(plan.served).toBeGreaterThan(180);
    expect(plan.bound).toBeGreaterThanOrEqual(plan.served);
    expect(plan.served / plan.bound).toBeGreaterThanOrEqual(0.99);
  });

  it('is reckoned to whole members, and to pairs where there are only pairs', () => {
    expect([17.99999, 18, 18.4].map((each) => boundOfPart(each, 3))).toEqual([18, 18, 18]);
    expect([17.5, 18, 19].map((each) => boundOfPart(each, 2))).toEqual([16, 18, 18]);
  });
});
