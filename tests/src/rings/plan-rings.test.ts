import { describe, expect, it } from 'vitest';
import { planWords } from '../../../src/rings/plan-words.ts';
import { planRings } from '../../../src/rings/plan-rings.ts';
import type { Longest, RingPlan, SwapGraph } from '../../../src/rings/swap-graph.ts';
import { bestOfAll, worthOf } from './brute-force.ts';
import { randomClub } from './random-club.ts';
import { randomGraph, shuffled } from './random-graph.ts';

const LENGTHS: readonly Longest[] = [2, 3, 4];

/** What is wrong with a plan; nothing, if each ring is one and nobody is in two. */
function faultsOf(graph: SwapGraph, { rings, served, bound, sure }: RingPlan, longest: Longest): string[] {
  const givers = rings.flatMap((ring) => ring.arcs.map(({ from }) => from));
  return [
    ...rings.filter(({ arcs }) => arcs.length < 2 || arcs.length > longest).map(() => 'a ring of another length'),
    ...rings
      .filter(({ arcs }) => arcs.some((arc, at) => arc.to !== arcs[(at + 1) % arcs.length]?.from))
      .map(() => 'a ring that does not close'),
    ...rings.flatMap(({ arcs }) => arcs.filter((arc) => !graph.arcs.includes(arc))).map(() => 'an arc nobody offered'),
    ...(new Set(givers).size === givers.length ? [] : ['a member in two rings']),
    ...(givers.length === served ? [] : ['a wrong count']),
    ...(served <= bound ? [] : ['a bound below what is served']),
    ...(sure === (served === bound) ? [] : ['a wrong claim to be sure']),
  ];
}

describe('planRings', () => {
  it('serves as many, and as well, as the best of all sets of rings: 1,000 clubs of up to 12 members', () => {
    const served: number[] = [];
    for (let seed = 1; seed <= 1_000; seed += 1) {
      const graph = randomGraph(seed);
      const longest = LENGTHS[seed % 3] ?? 3;
      const plan = planRings(graph, { seed, longest });
      const best = bestOfAll(graph, longest);
      expect(faultsOf(graph, plan, longest), `club ${seed}`).toEqual([]);
      expect(worthOf(graph, plan.rings), `club ${seed}`).toEqual({
        served: best.served,
        value: expect.closeTo(best.value, 4),
      });
      expect(plan.bound, `club ${seed}`).toBe(best.served);
      served.push(best.served);
    }
    // The clubs are worth trying: many have rings, and not everybody is in one.
    expect(served.filter((each) => each > 0).length).toBeGreaterThan(600);
    expect(new Set(served).size).toBeGreaterThan(9);
  });

  it.each([
    { members: 40, longest: 4 },
    { members: 60, longest: 3 },
    { members: 120, longest: 3 },
    { members: 150, longest: 2 },
  ] as const)('makes $members members rings of up to $longest that hold together', ({ members, longest }) => {
    for (const seed of [1, 2]) {
      const graph = randomClub({ members, seed });
      const plan = planRings(graph, { seed, longest, budgetMs: 30 });
      expect(faultsOf(graph, plan, longest)).toEqual([]);
      expect(plan.served).toBeGreaterThan(members * 0.4);
    }
  });

  it('is the same plan for the same seed, in whatever order members and arcs come', () => {
    const graph = randomClub({ members: 60, seed: 5 });
    const plan = planRings(graph, { seed: 9, longest: 4, budgetMs: 40 });
    expect(planRings(graph, { seed: 9, longest: 4, budgetMs: 40 })).toEqual(plan);
    for (const seed of [1, 2])
      expect(planRings(shuffled(graph, seed), { seed: 9, longest: 4, budgetMs: 40 })).toEqual(plan);
    const others = [1, 2, 3].map((seed) => planRings(graph, { seed, longest: 4, budgetMs: 5 }).rings);
    expect(new Set(others.map((rings) => JSON.stringify(rings))).size).toBeGreaterThan(1);
  });

  it('gets better with more work, and never worse', () => {
    const graph = randomClub({ members: 120, seed: 2 });
    const [none, some, more] = [0, 40, 160].map(
      (budgetMs) => planRings(graph, { seed: 1, longest: 3, budgetMs }).served,
    );
    expect(some).toBeGreaterThan(none ?? Infinity);
    expect(more).toBeGreaterThanOrEqual(some ?? Infinity);
  });

  it('leaves pairs out that the graph leaves out', () => {
    const graph = randomClub({ members: 50, seed: 3 });
    const [ring] = planRings(graph, { seed: 1 }).rings;
    const [one, other] = [ring?.arcs[0]?.from, ring?.arcs[0]?.to];
    const blocked = graph.arcs.filter(
      ({ from, to }) => !((from === one && to === other) || (from === other && to === one)),
    );
    expect(blocked.length).toBeLessThan(graph.arcs.length);
    const arcs = planRings({ ...graph, arcs: blocked }, { seed: 1 }).rings.flatMap((each) => each.arcs);
    expect(arcs.length).toBeGreaterThan(10);
    expect(arcs.filter(({ from, to }) => [from, to].includes(one ?? '') && [from, to].includes(other ?? ''))).toEqual(
      [],
    );
  });

  it('prefers those left out before, what is wanted more and the shorter drive, once as many are served', () => {
    const arc = (from: string, to: string, offerId: number, weight = 0.5, km: number | null = 10) => ({
      from,
      to,
      offerId,
      weight,
      km,
    });
    const members = [
      { id: 'nell', weight: 1 },
      { id: 'uma', weight: 1 },
      { id: 'bo', weight: 1 },
    ];
    // Nell can swap with Uma or with Bo.
    const both = (umas: ReturnType<typeof arc>, bos: ReturnType<typeof arc>) => [
      arc('nell', 'uma', 1),
      umas,
      arc('nell', 'bo', 1),
      bos,
    ];
    const withWhom = (graph: SwapGraph) =>
      planRings(graph, { seed: 1 })
        .rings[0]?.arcs.map(({ from }) => from)
        .filter((id) => id !== 'nell');
    const alike = both(arc('uma', 'nell', 2), arc('bo', 'nell', 3));
    const leftOut = members.map((each) => (each.id === 'uma' ? { ...each, weight: 2 } : each));
    expect(withWhom({ members: leftOut, arcs: alike })).toEqual(['uma']);
    expect(withWhom({ members, arcs: both(arc('uma', 'nell', 2), arc('bo', 'nell', 3, 0.9)) })).toEqual(['bo']);
    expect(withWhom({ members, arcs: both(arc('uma', 'nell', 2, 0.5, 3), arc('bo', 'nell', 3)) })).toEqual(['uma']);
    expect(withWhom({ members, arcs: both(arc('uma', 'nell', 2, 0.5, 30), arc('bo', 'nell', 3, 0.5, null)) })).toEqual([
      'bo',
    ]);
  });

  it('makes no rings where there are none', () => {
    const nothing = { rings: [], served: 0, bound: 0, sure: true };
    expect(planRings({ members: [], arcs: [] }, { seed: 1 })).toEqual(nothing);
    const [one, other] = ['nell', 'uma'].map((id) => ({ id, weight: 1 }));
    const gives = { from: 'nell', to: 'uma', offerId: 1, weight: 1, km: 1 };
    expect(planRings({ members: [one!, other!], arcs: [gives] }, { seed: 1 })).toEqual(nothing);
  });

  it('refuses what it cannot mean', () => {
    expect(() => planRings({ members: [], arcs: [] }, { seed: 1, longest: 5 as Longest })).toThrow(RangeError);
    expect(() => planRings({ members: [], arcs: [] }, { seed: 1, budgetMs: -1 })).toThrow(RangeError);
  });
});

describe('planWords', () => {
  it('says what a plan does and how much better one could be', () => {
    expect(planWords({ served: 18, bound: 19, sure: false })).toBe('serves 18, no plan can serve more than 19');
    expect(planWords({ served: 18, bound: 18, sure: true })).toBe('serves 18, no plan can serve more');
    expect(planWords({ served: 0, bound: 0, sure: true })).toBe('serves nobody: no ring can be made');
  });
});
