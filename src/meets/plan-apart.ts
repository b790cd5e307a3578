import type { Ring, RingPlan, SwapArc, SwapGraph } from '../rings/swap-graph.ts';
import { inRingOrder, type RingArc } from './ring.ts';

/** What could be swapped in rings at one moment. */
export type Planned = { graph: SwapGraph; plan: RingPlan; rings: readonly (readonly RingArc[])[] };

const NOTHING: RingPlan = { rings: [], served: 0, bound: 0, sure: true };
/** A plan that still brings together who does not want to meet after so many rounds goes without those rings. */
const MOST_ROUNDS = 4;

/**
 * A plan in which no ring has two members between whom there is a block, wherever in it they stand: those of a ring may
 * well meet in one place. Where a ring has, it is planned anew without the piece that one of the two would get in it, and
 * without the piece of the other; the better plan of the two counts.
 */
export async function planApart(
  graph: SwapGraph,
  blocked: ReadonlySet<string>,
  nameOf: (offerId: number) => string,
  solve: (graph: SwapGraph) => Promise<RingPlan>,
): Promise<Planned> {
  const planned = (open: SwapGraph) => (open.members.length < 2 || open.arcs.length < 2 ? NOTHING : solve(open));
  let [open, plan] = [graph, await planned(graph)];
  const { bound } = plan;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const pieces = piecesOfBlocked(plan, blocked);
    if (pieces.length === 0) break;
    const tries: [SwapGraph, RingPlan][] = [];
    for (const piece of pieces) {
      const less = { members: open.members, arcs: open.arcs.filter((arc) => !isSame(piece, arc)) };
      tries.push([less, await planned(less)]);
    }
    tries.sort(([, one], [, other]) => servedApart(other, blocked) - servedApart(one, blocked));
    [open, plan] = tries[0] ?? [open, plan];
  }
  const apart = plan.rings.filter((ring) => !blockedPair(ring, blocked));
  const served = servedApart(plan, blocked);
  const rings = apart.flatMap(({ arcs }) => {
    const named = arcs.map(({ offerId, from, to }) => ({ offerId, from, to, name: nameOf(offerId) }));
    const ordered = inRingOrder(named);
    return ordered ? [ordered] : [];
  });
  return { graph, plan: { rings: apart, served, bound, sure: served === bound }, rings };
}

/** Two members of a ring between whom there is a block. */
function blockedPair({ arcs }: Ring, blocked: ReadonlySet<string>): [string, string] | undefined {
  const members = arcs.map(({ from }) => from);
  for (const one of members) for (const other of members) if (blocked.has(`${one}/${other}`)) return [one, other];
  return undefined;
}

/** What the two of the first such pair would get in their ring. */
function piecesOfBlocked({ rings }: RingPlan, blocked: ReadonlySet<string>): SwapArc[] {
  for (const ring of rings) {
    const pair = blockedPair(ring, blocked);
    if (pair) return ring.arcs.filter(({ to }) => pair.includes(to));
  }
  return [];
}

const servedApart = ({ rings }: RingPlan, blocked: ReadonlySet<string>): number =>
  rings.reduce((sum, ring) => sum + (blockedPair(ring, blocked) ? 0 : ring.arcs.length), 0);
const isSame = (one: SwapArc, other: SwapArc): boolean =>
  one.from === other.from && one.to === other.to && one.offerId === other.offerId;
