import { boundProgramme } from './bound.ts';
import { cyclesOf, turnedRound } from './cycles.ts';
import { firstPlan } from './first-plan.ts';
import { scoreOf, searchAround } from './local-search.ts';
import { nearbyOf, onlyOnCycles } from './nearby.ts';
import { createPacker, MOST_PACKED, type RingOf } from './pack-few.ts';
import { partsOf } from './parts.ts';
import { seededDice } from './seeded-dice.ts';
import { arcBetween, indexGraph, longestFor } from './swap-graph.ts';
import type { IndexedGraph, Longest, RingPlan, SwapArc, SwapGraph } from './swap-graph.ts';

export type PlanSetting = {
  seed: number;
  longest?: Longest;
  /** About so long on a plain machine. It is counted in steps of work and not by the clock, so a plan can be repeated. */
  budgetMs?: number;
  /** How many cycles are written down at most; with more of them the longest are found by the search alone. */
  mostCycles?: number;
};

/** A plan in numbers: for each ring the places of its arcs. */
export type IndexedPlan = { rings: readonly (readonly number[])[]; served: number; bound: number };

/** What a linear programme can still say of the bound: what is known for sure, and one programme for each open part. */
export type OpenBound = {
  /** As many as are served at most in the parts that were packed exactly. */
  certain: number;
  parts: readonly OpenPart[];
};
/** `programme` is null where it would be too large. */
export type OpenPart = { programme: string | null; atMost: number };

export type Listener = {
  onBetter?: (plan: IndexedPlan) => void;
  onOpenBound?: (bound: OpenBound) => void;
};

const BUDGET_MS = 250;
const STEPS_PER_MS = 12_000;

/**
 * Rings of members such that as many as possible give and get a piece, each of them in one ring at most; of plans that
 * serve as many, one with much of what is wanted, those left out before, and little driving.
 *
 * Parts of the club with no ring between them are planned by themselves, small ones exactly. `bound` is exact
 * there and for pairs; elsewhere it counts those who lie on any ring at all, and a linear programme can lower it.
 *
 * @throws RangeError when `longest` is not 2, 3 or 4, or the budget is negative.
 */
export function planRings(graph: SwapGraph, setting: PlanSetting): RingPlan {
  const { indexed, arcs } = indexGraph(graph);
  return ringPlan(planIndexed(indexed, setting), arcs);
}

/** The same in numbers; tells each better plan on the way. */
export function planIndexed(graph: IndexedGraph, setting: PlanSetting, listener: Listener = {}): IndexedPlan {
  const { seed, longest = longestFor(graph.count), budgetMs = BUDGET_MS, mostCycles } = setting;
  if (![2, 3, 4].includes(longest)) throw new RangeError(`longest must be 2, 3 or 4, got ${longest}`);
  if (!(budgetMs >= 0)) throw new RangeError(`budgetMs must not be negative, got ${budgetMs}`);
  const cycles = cyclesOf(graph, longest, mostCycles);
  const incoming = turnedRound(graph);
  const parts = partsOf({ graph, incoming, longest, cycles });
  const packer = createPacker(onlyOnCycles(graph, cycles), longest);
  const small = parts.filter(({ members }) => members.length <= MOST_PACKED);
  const large = parts.filter(({ members }) => members.length > MOST_PACKED);
  const settled = small.flatMap(({ members }) => packer.pack(members, 'most'));
  const certain = scoreOf(settled).served;
  const { rings: start, atMost } = firstPlan(graph, longest, cycles, large);
  const bound = atMost.reduce((sum, each) => sum + each, 0);
  const told = (rings: readonly RingOf[]) => plainPlan(graph, [...settled, ...rings], certain + bound);
  listener.onBetter?.(told(start));
  if (large.length === 0) return told([]);
  if (cycles.complete && longest > 2)
    listener.onOpenBound?.({
      certain,
      parts: large.map((part, at) => ({ programme: boundProgramme(part), atMost: atMost[at] ?? part.members.length })),
    });
  const dice = seededDice(seed);
  const better = searchAround(start, {
    count: graph.count,
    nearby: nearbyOf({ graph, incoming, cycles }, dice),
    packer,
    open: large.flatMap(({ members }) => members).sort((one, other) => one - other),
    bound,
    dice,
    steps: budgetMs * STEPS_PER_MS,
    onBetter: (rings) => listener.onBetter?.(told(rings)),
  });
  return told(better);
}

/** A plan in numbers as rings of arcs. */
export function ringPlan({ rings, served, bound }: IndexedPlan, arcs: readonly SwapArc[]): RingPlan {
  return {
    rings: rings.map((ring) => ({ arcs: ring.flatMap((place) => arcs[place] ?? []) })),
    served,
    bound,
    sure: served >= bound,
  };
}

function plainPlan(graph: IndexedGraph, rings: readonly RingOf[], bound: number): IndexedPlan {
  const inOrder = rings.map(({ members }) => fromLowest(members)).sort(([one = 0], [other = 0]) => one - other);
  return {
    rings: inOrder.map((members) =>
      members.map((from, at) => arcBetween(graph, from, members[(at + 1) % members.length] ?? from)),
    ),
    served: scoreOf(rings).served,
    bound,
  };
}

function fromLowest(members: readonly number[]): number[] {
  const at = members.indexOf(Math.min(...members));
  return [...members.slice(at), ...members.slice(0, at)];
}
