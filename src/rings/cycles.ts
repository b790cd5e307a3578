import type { IndexedGraph, Longest } from './swap-graph.ts';

/**
 * Cycles of a graph, short ones first. The members of cycle c stand from `first[c]` to before `first[c + 1]`, the one
 * with the lowest number in front, each giving to the next and the last to the first.
 */
export type Cycles = {
  count: number;
  first: Int32Array;
  members: Int32Array;
  value: Float64Array;
  /** All cycles up to the longest are here. */
  complete: boolean;
};

const MOST_CYCLES = 150_000;
/** How many arcs are looked at for one length before it is left out. */
const MOST_STEPS = 30_000_000;

/** All simple cycles of two members up to `longest`, each of them once. A length that has too many is left out altogether. */
export function cyclesOf(graph: IndexedGraph, longest: Longest, most = MOST_CYCLES): Cycles {
  const found: Found = { first: [0], members: [], value: [] };
  const incoming = turnedRound(graph);
  let complete = true;
  for (let length = 2; length <= longest && complete; length += 1) {
    const before = { cycles: found.value.length, members: found.members.length };
    complete = addCycles(graph, incoming, length, found, most);
    if (complete) continue;
    found.first.length = before.cycles + 1;
    found.value.length = before.cycles;
    found.members.length = before.members;
  }
  return {
    count: found.value.length,
    first: Int32Array.from(found.first),
    members: Int32Array.from(found.members),
    value: Float64Array.from(found.value),
    complete,
  };
}

type Found = { first: number[]; members: number[]; value: number[] };

/** Adds the cycles of one length; false when there are too many. */
function addCycles(
  { count, first, to, value }: IndexedGraph,
  incoming: IndexedGraph,
  length: number,
  found: Found,
  most: number,
): boolean {
  /** The start that a member gives to, by its number and one, and what that adds. */
  const closes = new Int32Array(count);
  const closingValue = new Float64Array(count);
  const path: number[] = [];
  let steps = 0;

  const walk = (start: number, from: number, sum: number): boolean => {
    const end = first[from + 1] ?? 0;
    for (let arc = first[from] ?? 0; arc < end; arc += 1) {
      const next = to[arc] ?? 0;
      if (next <= start || path.includes(next)) continue;
      if ((steps += 1) > MOST_STEPS) return false;
      const sumNow = sum + (value[arc] ?? 0);
      if (path.length + 1 < length) {
        path.push(next);
        const went = walk(start, next, sumNow);
        path.pop();
        if (!went) return false;
      } else if (closes[next] === start + 1) {
        if (found.value.length >= most) return false;
        found.members.push(...path, next);
        found.first.push(found.members.length);
        found.value.push(sumNow + (closingValue[next] ?? 0));
      }
    }
    return true;
  };

  for (let start = 0; start < count; start += 1) {
    const end = incoming.first[start + 1] ?? 0;
    for (let arc = incoming.first[start] ?? 0; arc < end; arc += 1) {
      const giver = incoming.to[arc] ?? 0;
      closes[giver] = start + 1;
      closingValue[giver] = incoming.value[arc] ?? 0;
    }
    path.push(start);
    if (!walk(start, start, 0)) return false;
    path.pop();
  }
  return true;
}

/** The graph with every arc turned round: the arcs of a member are what they get. */
export function turnedRound({ count, first, to, value }: IndexedGraph): IndexedGraph {
  const starts = new Int32Array(count + 1);
  for (const target of to) starts[target + 1] = (starts[target + 1] ?? 0) + 1;
  for (let at = 0; at < count; at += 1) starts[at + 1] = (starts[at + 1] ?? 0) + (starts[at] ?? 0);
  const next = starts.slice();
  const turned = { count, first: starts, to: new Int32Array(to.length), value: new Float64Array(to.length) };
  for (let from = 0; from < count; from += 1) {
    const end = first[from + 1] ?? 0;
    for (let arc = first[from] ?? 0; arc < end; arc += 1) {
      const target = to[arc] ?? 0;
      const place = next[target] ?? 0;
      next[target] = place + 1;
      turned.to[place] = from;
      turned.value[place] = value[arc] ?? 0;
    }
  }
  return turned;
}
