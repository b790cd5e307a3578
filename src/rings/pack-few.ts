import type { IndexedGraph, Longest } from './swap-graph.ts';

/** Members of one ring, each giving to the next and the last to the first. */
export type RingOf = { members: readonly number[]; value: number };

/** As many members as can be packed exactly: the work grows twofold with each. */
export const MOST_PACKED = 16;

/**
 * What counts: as many members as can be served and of such choices the most value; or the most pressing members, with a
 * little lot in it so that the same few are not always packed alike.
 */
export type Taste = 'most' | { pressing: Float64Array; dice: () => number };

export type Packer = {
  pack(few: readonly number[], taste: Taste): readonly RingOf[];
  /** Arcs and choices looked at so far: what the work is measured in. */
  steps(): number;
};

/** How much of its worth a ring may gain by lot. */
const LOT = 0.25;

type Candidate = RingOf & { mask: number; size: number; worth: number };

/**
 * A packer for one graph. Exact: it looks at the members one by one and takes for each every ring among those left, or
 * none, and remembers the best for each set of members that is left.
 */
export function createPacker(graph: IndexedGraph, longest: Longest): Packer {
  const { count, first, to, value } = graph;
  const places = new Int32Array(count).fill(-1);
  // What is known of each set of members: in which round it was found out, how many it serves, how well, and how.
  const round = new Int32Array(1 << MOST_PACKED);
  const served = new Uint8Array(1 << MOST_PACKED);
  const worth = new Float64Array(1 << MOST_PACKED);
  const choice = new Int32Array(1 << MOST_PACKED);
  /** Rings by the member with the lowest place in them; of rings of the same members only the best. */
  const ringsOf: Candidate[][] = Array.from({ length: MOST_PACKED }, () => []);
  let rounds = 0;
  let steps = 0;

  /** Finds the rings among the few, by walking from the lowest place of each. */
  const findRings = (few: readonly number[], taste: Taste) => {
    const arcs = few.map((member) => {
      const within: { place: number; value: number }[] = [];
      const end = first[member + 1] ?? 0;
      for (let arc = first[member] ?? 0; arc < end; arc += 1) {
        const place = places[to[arc] ?? 0] ?? -1;
        if (place >= 0) within.push({ place, value: value[arc] ?? 0 });
      }
      steps += end - (first[member] ?? 0);
      return within;
    });
    const best = new Map<number, Candidate>();
    const walk = (path: number[], mask: number, sum: number) => {
      const [start = 0] = path;
      for (const { place, value: more } of arcs[path.at(-1) ?? 0] ?? []) {
        steps += 1;
        if (place === start && path.length > 1) {
          const known = best.get(mask);
          if (known && known.value >= sum + more) continue;
          const members = path.map((each) => few[each] ?? 0);
          best.set(mask, { members, value: sum + more, mask, size: path.length, worth: sum + more });
        } else if (place > start && !(mask & (1 << place)) && path.length < longest) {
          path.push(place);
          walk(path, mask | (1 << place), sum + more);
          path.pop();
        }
      }
    };
    few.forEach((_member, place) => {
      best.clear();
      walk([place], 1 << place, 0);
      const rings = [...best.values()];
      if (taste !== 'most')
        for (const ring of rings) {
          const pressing = ring.members.reduce((sum, member) => sum + (taste.pressing[member] ?? 0), 0);
          ring.worth = pressing * (1 + LOT * taste.dice());
        }
      ringsOf[place] = rings;
    });
  };

  const settle = (left: number, byServed: boolean): void => {
    if (left === 0 || round[left] === rounds) return;
    const lowest = 31 - Math.clz32(left & -left);
    const without = left & (left - 1);
    settle(without, byServed);
    let [mostServed, mostWorth, chosen] = [served[without] ?? 0, worth[without] ?? 0, -1];
    const rings = ringsOf[lowest] ?? [];
    steps += rings.length + 1;
    for (let at = 0; at < rings.length; at += 1) {
      const ring = rings[at];
      if (!ring || (ring.mask & left) !== ring.mask) continue;
      const rest = left & ~ring.mask;
      settle(rest, byServed);
      const servedNow = (served[rest] ?? 0) + ring.size;
      const worthNow = (worth[rest] ?? 0) + ring.worth;
      if (byServed && servedNow !== mostServed ? servedNow < mostServed : worthNow <= mostWorth) continue;
      [mostServed, mostWorth, chosen] = [servedNow, worthNow, at];
    }
    round[left] = rounds;
    served[left] = mostServed;
    worth[left] = mostWorth;
    choice[left] = chosen;
  };

  return {
    pack(few, taste) {
      if (few.length > MOST_PACKED) throw new RangeError(`at most ${MOST_PACKED} members, got ${few.length}`);
      few.forEach((member, place) => (places[member] = place));
      findRings(few, taste);
      rounds += 1;
      const all = 2 ** few.length - 1;
      settle(all, taste === 'most');
      const rings: RingOf[] = [];
      for (let left = all; left !== 0;) {
        const ring = ringsOf[31 - Math.clz32(left & -left)]?.[choice[left] ?? -1];
        if (ring) rings.push({ members: ring.members, value: ring.value });
        left &= ring ? ~ring.mask : left - 1;
      }
      for (const member of few) places[member] = -1;
      return rings;
    },
    steps: () => steps,
  };
}
