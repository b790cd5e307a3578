import { describe, expect, it } from 'vitest';
import { cyclesOf } from '../../../src/rings/cycles.ts';
import { maxMatching } from '../../../src/rings/max-matching.ts';
import { turnedRound } from '../../../src/rings/cycles.ts';
import { partsOf } from '../../../src/rings/parts.ts';
import { planRings } from '../../../src/rings/plan-rings.ts';
import { seededDice } from '../../../src/rings/seeded-dice.ts';
import { arcBetween, indexGraph, longestFor, type SwapArc, type SwapGraph } from '../../../src/rings/swap-graph.ts';
import { worthOf } from './brute-force.ts';
import { randomClub } from './random-club.ts';
import { randomGraph, shuffled } from './random-graph.ts';

const arc = (from: string, to: string, more: Partial<SwapArc> = {}): SwapArc => ({
  from,
  to,
  offerId: 1,
  weight: 0.5,
  km: 10,
  ...more,
});
const clubOf = (arcs: readonly SwapArc[], ids = ['nell', 'uma', 'bo']): SwapGraph => ({
  members: ids.map((id) => ({ id, weight: 1 })),
  arcs,
});

describe('indexGraph', () => {
  it('is the same for members and arcs in any order', () => {
    const graph = randomClub({ members: 30, seed: 1 });
    expect(indexGraph(shuffled(graph, 2))).toEqual(indexGraph(graph));
  });

  it('leaves out strangers, gifts to oneself and all but the best of several', () => {
    const best = arc('nell', 'uma', { offerId: 3, weight: 0.9 });
    const { indexed, arcs } = indexGraph(
      clubOf([
        arc('nell', 'uma', { offerId: 2 }),
        best,
        arc('nell', 'uma', { offerId: 4, weight: 0.9 }),
        arc('nell', 'nell'),
        arc('nell', 'stranger'),
        arc('stranger', 'nell'),
      ]),
    );
    expect(arcs).toEqual([best]);
    expect([...indexed.to]).toEqual([2]);
    expect([arcBetween(indexed, 1, 2), arcBetween(indexed, 2, 1), arcBetween(indexed, 0, 2)]).toEqual([0, -1, -1]);
  });

  it('reads weights and drives that make no sense as the nearest that do', () => {
    const value = (member: number, more: Partial<SwapArc>) => {
      const members = ['nell', 'uma'].map((id) => ({ id, weight: id === 'nell' ? member : 1 }));
      return indexGraph({ members, arcs: [arc('nell', 'uma', more)] }).indexed.value[0];
    };
    expect(value(-2, { weight: 7, km: -5 })).toBe(value(1, { weight: 1, km: 0 }));
    expect(value(NaN, { weight: NaN, km: NaN })).toBe(value(1, { weight: 0, km: null }));
    expect(value(Infinity, { km: Infinity })).toBe(value(1_000, { km: 1_000 }));
    expect(value(2, {})).toBeGreaterThan(value(1, {}) ?? Infinity);
  });
});

describe('longestFor', () => {
  it('allows shorter rings in larger clubs', () => {
    expect([3, 59, 60, 300, 301].map(longestFor)).toEqual([4, 4, 3, 3, 2]);
  });
});

describe('cyclesOf', () => {
  it('finds every cycle once, with what it is worth', () => {
    for (let seed = 1; seed <= 60; seed += 1) {
      const graph = randomGraph(seed);
      const { indexed, arcs } = indexGraph(graph);
      const { count, first, members, value } = cyclesOf(indexed, 4);
      const seen = new Set<string>();
      for (let cycle = 0; cycle < count; cycle += 1) {
        const ring = [...members.subarray(first[cycle], first[cycle + 1])];
        const inRing = ring.map((from, at) => arcs[arcBetween(indexed, from, ring[(at + 1) % ring.length] ?? -1)]!);
        expect(new Set(ring).size).toBe(ring.length);
        expect(Math.min(...ring)).toBe(ring[0]);
        expect(worthOf(graph, [{ arcs: inRing }]).value).toBeCloseTo((value[cycle] ?? NaN) / 1e6, 4);
        seen.add(ring.join());
      }
      expect(seen.size).toBe(count);
      expect(count).toBe(countByTrace(graph));
    }
  });

  it('leaves out a length that has too many, and says so', () => {
    const { indexed } = indexGraph(randomClub({ members: 60, seed: 1 }));
    const all = cyclesOf(indexed, 4);
    const upToThree = cyclesOf(indexed, 3);
    expect(all.complete && upToThree.complete).toBe(true);
    expect(cyclesOf(indexed, 4, all.count - 1)).toEqual({ ...upToThree, complete: false });
  });
});

/** Cycles of two, three and four members, counted from walks that come home: those of four lose the ones that turn back. */
function countByTrace({ members, arcs }: SwapGraph): number {
  const has = members.map(({ id: from }) =>
    members.map(({ id: to }) => Number(arcs.some((each) => each.from === from && each.to === to))),
  );
  const times = (one: number[][], other: number[][]) =>
    one.map((row) => row.map((_, at) => row.reduce((sum, each, k) => sum + each * (other[k]?.[at] ?? 0), 0)));
  const trace = (table: number[][]) => table.reduce((sum, row, at) => sum + (row[at] ?? 0), 0);
  const square = times(has, has);
  const both = has.map((row, from) => row.reduce((sum, each, to) => sum + each * (has[to]?.[from] ?? 0), 0));
  const total = both.reduce((sum, each) => sum + each, 0);
  // A closed walk of four steps that is no cycle goes out and back twice: over one pair, or over two that share a member.
  const turning = 2 * both.reduce((sum, each) => sum + each * each, 0) - total;
  return trace(square) / 2 + trace(times(square, has)) / 3 + (trace(times(square, square)) - turning) / 4;
}

describe('partsOf', () => {
  it('keeps apart who share no ring, and leaves out who is in none', () => {
    const pairs = [arc('nell', 'uma'), arc('uma', 'nell'), arc('bo', 'olu'), arc('olu', 'bo')];
    const graph = clubOf([...pairs, arc('uma', 'bo'), arc('tom', 'nell')], ['nell', 'uma', 'bo', 'olu', 'tom']);
    const { indexed } = indexGraph(graph);
    const parts = (most?: number) =>
      partsOf({ graph: indexed, incoming: turnedRound(indexed), longest: 3, cycles: cyclesOf(indexed, 3, most) });
    // In the order of their names: bo, nell, olu, tom, uma.
    expect(parts().map(({ members }) => members)).toEqual([
      [0, 2],
      [1, 4],
    ]);
    // Without the cycles it is only known who lies on one, and who gives to whom.
    expect(parts(0).map(({ members }) => members)).toEqual([[0, 1, 2, 4]]);
  });
});

describe('a club with more cycles than are written down', () => {
  it('is still planned well, and its bound holds', () => {
    const graph = randomClub({ members: 50, seed: 2 });
    const all = planRings(graph, { seed: 1, longest: 4, budgetMs: 60 });
    const few = planRings(graph, { seed: 1, longest: 4, budgetMs: 60, mostCycles: 100 });
    expect(few.bound).toBeGreaterThanOrEqual(all.served);
    expect(few.served).toBeGreaterThanOrEqual(all.served - 2);
    expect(few.rings.some((ring) => ring.arcs.length === 4)).toBe(true);
  });
});

describe('maxMatching', () => {
  it('is as large as the largest of all sets of pairs', () => {
    const dice = seededDice(3);
    for (let club = 0; club < 400; club += 1) {
      const count = 2 + Math.floor(dice() * 9);
      const pairable = Array.from({ length: count }, (): number[] => []);
      for (let one = 0; one < count; one += 1)
        for (let other = one + 1; other < count; other += 1)
          if (dice() < 2.2 / count) {
            pairable[one]?.push(other);
            pairable[other]?.push(one);
          }
      const mate = [...maxMatching(pairable)];
      mate.forEach(
        (other, one) => other === -1 || expect([mate[other], pairable[one]?.includes(other)]).toEqual([one, true]),
      );
      expect(mate.filter((other) => other !== -1).length / 2).toBe(mostPairs(pairable));
    }
  });
});

function mostPairs(pairable: readonly number[][], from = 0, taken: ReadonlySet<number> = new Set()): number {
  if (from === pairable.length) return 0;
  const without = mostPairs(pairable, from + 1, taken);
  if (taken.has(from)) return without;
  const partners = (pairable[from] ?? []).filter((other) => other > from && !taken.has(other));
  return Math.max(
    without,
    ...partners.map((other) => 1 + mostPairs(pairable, from + 1, new Set([...taken, from, other]))),
  );
}
