import type { Cycles } from './cycles.ts';
import type { IndexedGraph, Longest } from './swap-graph.ts';

/** Members tied together by rings, and no ring leads out of them. `rings` holds the members of each cycle among them. */
export type Part = { members: readonly number[]; rings: readonly (readonly number[])[] };

/** The parts of a graph that can be planned by themselves. Members who lie on no ring are in none. */
export function partsOf(of: { graph: IndexedGraph; incoming: IndexedGraph; longest: Longest; cycles: Cycles }): Part[] {
  const { graph, cycles } = of;
  const leader = Array.from({ length: graph.count }, (_, member) => member);
  const leaderOf = (member: number): number => {
    let at = member;
    while (leader[at] !== at) at = leader[at] = leader[leader[at] ?? at] ?? at;
    return at;
  };
  const tie = (one: number, other: number) => {
    const [low, high] = [leaderOf(one), leaderOf(other)].sort((a, b) => a - b);
    if (low !== undefined && high !== undefined) leader[high] = low;
  };
  const onRing = new Uint8Array(graph.count);
  const ring = (cycle: number) => cycles.members.subarray(cycles.first[cycle] ?? 0, cycles.first[cycle + 1] ?? 0);
  for (let cycle = 0; cycle < cycles.count; cycle += 1) {
    const [start = 0, ...rest] = ring(cycle);
    onRing[start] = 1;
    for (const member of rest) {
      onRing[member] = 1;
      tie(start, member);
    }
  }
  if (!cycles.complete) tieByArcs(of, onRing, tie);

  const parts = new Map<number, { members: number[]; rings: number[][] }>();
  for (let member = 0; member < graph.count; member += 1) {
    if (!onRing[member]) continue;
    const part = parts.get(leaderOf(member)) ?? { members: [], rings: [] };
    part.members.push(member);
    parts.set(leaderOf(member), part);
  }
  for (let cycle = 0; cycle < cycles.count; cycle += 1) {
    const members = [...ring(cycle)];
    parts.get(leaderOf(members[0] ?? 0))?.rings.push(members);
  }
  return [...parts.values()];
}

/** When not all cycles are known, whoever gives to another is tied to them, if both lie on some ring. */
function tieByArcs(
  { graph, incoming, longest }: { graph: IndexedGraph; incoming: IndexedGraph; longest: Longest },
  onRing: Uint8Array,
  tie: (one: number, other: number) => void,
): void {
  for (let member = 0; member < graph.count; member += 1)
    if (!onRing[member] && liesOnRing(graph, incoming, longest, member)) onRing[member] = 1;
  for (let member = 0; member < graph.count; member += 1) {
    if (!onRing[member]) continue;
    for (const other of graph.to.subarray(graph.first[member] ?? 0, graph.first[member + 1] ?? 0))
      if (onRing[other]) tie(member, other);
  }
}

/** Whether a walk of at most `longest` arcs leads back to its start; a walk that meets itself on the way has a shorter one. */
function liesOnRing(graph: IndexedGraph, incoming: IndexedGraph, longest: Longest, start: number): boolean {
  const targets = ({ first, to }: IndexedGraph, member: number) =>
    to.subarray(first[member] ?? 0, first[member + 1] ?? 0);
  const givers = new Set(targets(incoming, start));
  let reached = new Set(targets(graph, start));
  const seen = new Set(reached);
  for (let length = 2; length <= longest; length += 1) {
    for (const member of reached) if (givers.has(member)) return true;
    const further = new Set<number>();
    for (const member of reached)
      for (const next of targets(graph, member))
        if (!seen.has(next) && next !== start) {
          seen.add(next);
          further.add(next);
        }
    reached = further;
  }
  return false;
}
