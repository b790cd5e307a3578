import type { Ring, SwapArc, SwapGraph } from '../../../src/rings/swap-graph.ts';

export type Worth = { served: number; value: number };

/** What an arc adds, from its definition: how much it is wanted, a hundredth less for each km, 20 km where nobody knows. */
const arcWorth = ({ weight, km }: SwapArc) => weight - (km ?? 20) / 100;

/** What rings are worth by the rules of the game, straight from their arcs. */
export function worthOf({ members }: SwapGraph, rings: readonly Ring[]): Worth {
  const weight = new Map(members.map((each) => [each.id, each.weight]));
  const arcs = rings.flatMap((ring) => ring.arcs);
  return {
    served: arcs.length,
    value: arcs.reduce((sum, arc) => sum + arcWorth(arc) + (weight.get(arc.from) ?? NaN), 0),
  };
}

/** The best of all sets of disjoint cycles, by trying every one of them. It shares nothing with what it checks. */
export function bestOfAll({ members, arcs }: SwapGraph, longest: number): Worth {
  const ids = members.map(({ id }) => id);
  const between = (from: string, to: string) => {
    const worths = arcs.filter((arc) => arc.from === from && arc.to === to).map(arcWorth);
    return worths.length > 0 ? Math.max(...worths) : undefined;
  };
  const table = ids.map((from) => ids.map((to) => between(from, to)));
  const weights = members.map(({ weight }) => weight);
  let best: Worth = { served: 0, value: 0 };
  const placed = new Set<number>();

  /** Decides about the first member who is not placed yet: in no ring, or in each of those that are left. */
  const decide = (member: number, sofar: Worth) => {
    if (member === ids.length) {
      if (sofar.served > best.served || (sofar.served === best.served && sofar.value > best.value)) best = sofar;
      return;
    }
    if (placed.has(member)) return decide(member + 1, sofar);
    decide(member + 1, sofar);
    const walk = (path: number[], value: number) => {
      const last = path.at(-1) ?? member;
      const back = table[last]?.[member];
      if (path.length > 1 && back !== undefined) {
        path.forEach((each) => placed.add(each));
        decide(member + 1, { served: sofar.served + path.length, value: sofar.value + value + back });
        path.forEach((each) => placed.delete(each));
      }
      if (path.length === longest) return;
      for (let next = member + 1; next < ids.length; next += 1) {
        const worth = table[last]?.[next];
        if (worth === undefined || placed.has(next) || path.includes(next)) continue;
        walk([...path, next], value + worth + (weights[next] ?? NaN));
      }
    };
    walk([member], weights[member] ?? NaN);
  };
  decide(0, { served: 0, value: 0 });
  return best;
}
