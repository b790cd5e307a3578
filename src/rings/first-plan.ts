import { boundOfPart } from './bound.ts';
import type { Cycles } from './cycles.ts';
import { lowDegreeFirst } from './greedy.ts';
import { maxMatching } from './max-matching.ts';
import type { RingOf } from './pack-few.ts';
import type { Part } from './parts.ts';
import { arcBetween, type IndexedGraph, type Longest } from './swap-graph.ts';

/** A plan to start from, and for each part how many members any plan can serve there at most. */
export type FirstPlan = { rings: readonly RingOf[]; atMost: readonly number[] };

/** Pairs are matched, and no plan serves more; longer rings are taken one by one and leave room for something better. */
export function firstPlan(graph: IndexedGraph, longest: Longest, cycles: Cycles, parts: readonly Part[]): FirstPlan {
  if (longest === 2 && cycles.complete) {
    const matched = parts.map((part) => pairsOf(graph, part));
    return { rings: matched.flat(), atMost: matched.map((pairs) => 2 * pairs.length) };
  }
  const among = new Set(parts.flatMap(({ members }) => members));
  return {
    rings: lowDegreeFirst(cycles, graph.count).filter(({ members: [one = -1] }) => among.has(one)),
    atMost: parts.map(({ members }) => boundOfPart(members.length, longest)),
  };
}

/** As many pairs of a part as there can be. */
function pairsOf(graph: IndexedGraph, { members, rings }: Part): RingOf[] {
  const place = new Map(members.map((member, at) => [member, at]));
  const pairable = members.map((): number[] => []);
  for (const [one = -1, other = -1] of rings) {
    pairable[place.get(one) ?? -1]?.push(place.get(other) ?? -1);
    pairable[place.get(other) ?? -1]?.push(place.get(one) ?? -1);
  }
  const valueOf = (from: number, to: number) => graph.value[arcBetween(graph, from, to)] ?? 0;
  return [...maxMatching(pairable)].flatMap((mate, at) => {
    const [one, other] = [members[at], members[mate]];
    if (mate < at || one === undefined || other === undefined) return [];
    return [{ members: [one, other], value: valueOf(one, other) + valueOf(other, one) }];
  });
}
