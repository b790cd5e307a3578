/** Whom each member could be paired with, both ways. */
export type Pairable = readonly (readonly number[])[];

/**
 * A set of pairs that no other set outnumbers; for each member the one they are paired with, or -1.
 *
 * Searches from each member without a pair for a path of alternating unpaired and paired steps that ends at another one,
 * and turns it over; odd rings on the way are shrunk to one point.
 * Source: J. Edmonds, Paths, trees, and flowers, Canadian Journal of Mathematics 17 (1965) 449-467.
 */
export function maxMatching(pairable: Pairable): Int32Array {
  const count = pairable.length;
  const mate = new Int32Array(count).fill(-1);
  /** The step before, for members reached by an unpaired step. */
  const parent = new Int32Array(count);
  /** The point to which a member's odd ring was shrunk. */
  const base = new Int32Array(count);

  const pointAbove = (one: number, other: number): number => {
    const above = new Set<number>();
    for (let at = base[one] ?? one; ; at = base[parent[mate[at] ?? -1] ?? -1] ?? at) {
      above.add(at);
      if (mate[at] === -1) break;
    }
    let at = base[other] ?? other;
    while (!above.has(at)) at = base[parent[mate[at] ?? -1] ?? -1] ?? at;
    return at;
  };
  const markWay = (from: number, point: number, child: number, shrunk: Set<number>) => {
    let [at, below] = [from, child];
    while (base[at] !== point) {
      const partner = mate[at] ?? -1;
      shrunk.add(base[at] ?? at).add(base[partner] ?? partner);
      parent[at] = below;
      below = partner;
      at = parent[partner] ?? -1;
    }
  };
  /** The free member at the end of an alternating path, or -1. */
  const pathEnd = (root: number): number => {
    parent.fill(-1);
    for (let at = 0; at < count; at += 1) base[at] = at;
    const reached = new Uint8Array(count);
    reached[root] = 1;
    const queue = [root];
    for (let head = 0; head < queue.length; head += 1) {
      const from = queue[head] ?? root;
      for (const to of pairable[from] ?? []) {
        if (base[from] === base[to] || mate[from] === to) continue;
        const partner = mate[to] ?? -1;
        if (to === root || (partner !== -1 && parent[partner] !== -1)) {
          const point = pointAbove(from, to);
          const shrunk = new Set<number>();
          markWay(from, point, to, shrunk);
          markWay(to, point, from, shrunk);
          for (let at = 0; at < count; at += 1) {
            if (!shrunk.has(base[at] ?? at)) continue;
            base[at] = point;
            if (!reached[at]) queue.push(at);
            reached[at] = 1;
          }
        } else if (parent[to] === -1) {
          parent[to] = from;
          if (partner === -1) return to;
          reached[partner] = 1;
          queue.push(partner);
        }
      }
    }
    return -1;
  };

  for (let member = 0; member < count; member += 1) {
    const free = mate[member] === -1 ? pairable[member]?.find((other) => mate[other] === -1) : undefined;
    if (free === undefined) continue;
    mate[member] = free;
    mate[free] = member;
  }
  for (let member = 0; member < count; member += 1) {
    if (mate[member] !== -1) continue;
    for (let at = pathEnd(member); at !== -1;) {
      const before = parent[at] ?? -1;
      const next = mate[before] ?? -1;
      mate[at] = before;
      mate[before] = at;
      at = next;
    }
  }
  return mate;
}
