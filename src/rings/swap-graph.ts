// Who could give whom what, brought into an order that does not depend on how it was handed in.

/** A member who takes part. `weight` is at least 1, and more for those who were left out before. */
export type SwapMember = { id: string; weight: number };

/** `from` gives a piece of an offer to `to`. `weight`, from 0 to 1: how much it is wanted. */
export type SwapArc = { from: string; to: string; offerId: number; weight: number; km: number | null };

export type SwapGraph = { members: readonly SwapMember[]; arcs: readonly SwapArc[] };

/** A ring of members: each of them gives one piece and gets one. */
export type Ring = { arcs: readonly SwapArc[] };

export type RingPlan = {
  rings: readonly Ring[];
  /** How many members give a piece and get one. */
  served: number;
  /** No plan of rings this long can serve more. */
  bound: number;
  /** The plan serves as many as can be served. */
  sure: boolean;
};

export type Longest = 2 | 3 | 4;

/**
 * The same graph in numbers. Members stand in the order of their ids; the arcs of member m are those from `first[m]` to
 * before `first[m + 1]`, in the order of who gets. `value` is what an arc adds to a plan.
 */
export type IndexedGraph = { count: number; first: Int32Array; to: Int32Array; value: Float64Array };

/** Common practice, no source: a drive this long outweighs a piece that is wanted most. */
const KM_AS_MUCH_AS_A_WANT = 100;
/** Common practice, no source: what a drive counts as when nobody knows how long it is. */
const UNKNOWN_KM = 20;
const MOST_KM = 1_000;
const MOST_MEMBER_WEIGHT = 1_000;
/** Values are whole numbers, so that sums are the same in every order. */
const PARTS = 1_000_000;

/** Long rings serve more members and fall through more often; above these sizes shorter ones serve nearly everybody. */
export function longestFor(members: number): Longest {
  if (members < 60) return 4;
  return members <= 300 ? 3 : 2;
}

/**
 * The graph in numbers, and its arcs in the same order.
 *
 * What makes no sense is left out: arcs of members who do not take part, arcs to oneself, weights out of range. Of
 * several arcs between the same two members only the best can ever be used, so the others are left out too.
 */
export function indexGraph({ members, arcs }: SwapGraph): { indexed: IndexedGraph; arcs: readonly SwapArc[] } {
  const weights = new Map<string, number>();
  for (const { id, weight } of members) weights.set(id, Math.max(weights.get(id) ?? 1, memberWeight(weight)));
  const ids = [...weights.keys()].sort((one, other) => (one < other ? -1 : 1));
  const place = new Map(ids.map((id, at) => [id, at]));
  const best = ids.map(() => new Map<number, SwapArc>());
  for (const arc of arcs) {
    const [from, to] = [place.get(arc.from), place.get(arc.to)];
    if (from === undefined || to === undefined || from === to) continue;
    const known = best[from]?.get(to);
    if (!known || isBefore(arc, known)) best[from]?.set(to, arc);
  }
  const first = new Int32Array(ids.length + 1);
  best.forEach((row, at) => (first[at + 1] = (first[at] ?? 0) + row.size));
  const to = new Int32Array(first.at(-1) ?? 0);
  const inOrder = best.flatMap((row, from) => {
    const takers = Int32Array.from(row.keys()).sort();
    to.set(takers, first[from]);
    return Array.from(takers, (taker) => row.get(taker) ?? []).flat();
  });
  // Whoever is in a ring gives once, so what a member counts for can be added to what they give.
  const valueOf = (arc: SwapArc) => arcValue(arc) + Math.round(PARTS * (weights.get(arc.from) ?? 1));
  return { indexed: { count: ids.length, first, to, value: Float64Array.from(inOrder, valueOf) }, arcs: inOrder };
}

/** What a piece is worth to a plan by itself: how much it is wanted, less the drive. */
function arcValue({ weight, km }: SwapArc): number {
  const wanted = weight > 0 ? Math.min(weight, 1) : 0;
  const drive = km === null || Number.isNaN(km) ? UNKNOWN_KM : Math.min(Math.max(km, 0), MOST_KM);
  return Math.round(PARTS * (wanted - drive / KM_AS_MUCH_AS_A_WANT));
}

function memberWeight(weight: number): number {
  return weight > 1 ? Math.min(weight, MOST_MEMBER_WEIGHT) : 1;
}

/** Of two arcs between the same members: the better one, and of equal ones the older offer. */
function isBefore(one: SwapArc, other: SwapArc): boolean {
  const gain = arcValue(one) - arcValue(other);
  if (gain !== 0) return gain > 0;
  if (one.offerId !== other.offerId) return one.offerId < other.offerId;
  return one.weight > other.weight;
}

/** The place of the arc between two members, or -1. */
export function arcBetween({ first, to }: IndexedGraph, from: number, target: number): number {
  let [low, high] = [first[from] ?? 0, (first[from + 1] ?? 0) - 1];
  while (low <= high) {
    const middle = (low + high) >> 1;
    const at = to[middle] ?? 0;
    if (at === target) return middle;
    if (at < target) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}
