import type { Cycles } from './cycles.ts';
import { arcBetween, type IndexedGraph } from './swap-graph.ts';

/** Members who could be in a ring with this one, drawn by lot: those of one ring, or of one arc. */
export type Nearby = (member: number) => readonly number[];

/** Draws among the known cycles of a member; where not all cycles are known, every other draw is one of their arcs. */
export function nearbyOf(
  { graph, incoming, cycles }: { graph: IndexedGraph; incoming: IndexedGraph; cycles: Cycles },
  dice: () => number,
): Nearby {
  const { first, members, count, complete } = cycles;
  const starts = new Int32Array(graph.count + 1);
  for (const member of members) starts[member + 1] = (starts[member + 1] ?? 0) + 1;
  for (let at = 0; at < graph.count; at += 1) starts[at + 1] = (starts[at + 1] ?? 0) + (starts[at] ?? 0);
  const next = starts.slice();
  const cyclesOfMembers = new Int32Array(members.length);
  for (let cycle = 0; cycle < count; cycle += 1)
    for (const member of members.subarray(first[cycle] ?? 0, first[cycle + 1] ?? 0)) {
      const place = next[member] ?? 0;
      next[member] = place + 1;
      cyclesOfMembers[place] = cycle;
    }
  const oneOf = (from: ArrayLike<number>, start: number, end: number): number | undefined =>
    end > start ? from[start + Math.floor(dice() * (end - start))] : undefined;

  return (member) => {
    if (complete || dice() < 0.5) {
      const cycle = oneOf(cyclesOfMembers, starts[member] ?? 0, starts[member + 1] ?? 0);
      if (cycle !== undefined) return [...members.subarray(first[cycle] ?? 0, first[cycle + 1] ?? 0)];
    }
    const arcs = dice() < 0.5 ? graph : incoming;
    const other = oneOf(arcs.to, arcs.first[member] ?? 0, arcs.first[member + 1] ?? 0);
    return other === undefined ? [] : [other];
  };
}

/** The graph without the arcs that lie on no cycle, if all cycles are known. */
export function onlyOnCycles(graph: IndexedGraph, { count, first, members, complete }: Cycles): IndexedGraph {
  if (!complete) return graph;
  const used = new Uint8Array(graph.to.length);
  for (let cycle = 0; cycle < count; cycle += 1) {
    const [start, end] = [first[cycle] ?? 0, first[cycle + 1] ?? 0];
    for (let at = start; at < end; at += 1)
      used[arcBetween(graph, members[at] ?? 0, members[at + 1 < end ? at + 1 : start] ?? 0)] = 1;
  }
  const firstKept = new Int32Array(graph.count + 1);
  for (let member = 0; member < graph.count; member += 1) {
    const row = used.subarray(graph.first[member] ?? 0, graph.first[member + 1] ?? 0);
    firstKept[member + 1] = (firstKept[member] ?? 0) + row.reduce((sum, each) => sum + each, 0);
  }
  const isUsed = (_each: number, at: number) => used[at] === 1;
  return { count: graph.count, first: firstKept, to: graph.to.filter(isUsed), value: graph.value.filter(isUsed) };
}
