import type { Cycles } from './cycles.ts';
import type { RingOf } from './pack-few.ts';

/**
 * A plan to start from: again and again the cycle whose members have the fewest other cycles, so that those who are hard
 * to serve come first. Of such cycles the best by value.
 */
export function lowDegreeFirst({ count, first, members, value }: Cycles, memberCount: number): RingOf[] {
  const degree = new Int32Array(memberCount);
  for (const member of members) degree[member] = (degree[member] ?? 0) + 1;
  const taken = new Uint8Array(memberCount);
  const rings: RingOf[] = [];
  let open = Array.from({ length: count }, (_, cycle) => cycle);
  while (open.length > 0) {
    let chosen = -1;
    let lowest = Infinity;
    const still: number[] = [];
    for (const cycle of open) {
      const [start, end] = [first[cycle] ?? 0, first[cycle + 1] ?? 0];
      let sum = 0;
      let free = true;
      for (let at = start; at < end; at += 1) {
        const member = members[at] ?? 0;
        sum += degree[member] ?? 0;
        free &&= !taken[member];
      }
      if (!free) {
        for (let at = start; at < end; at += 1) degree[members[at] ?? 0] = (degree[members[at] ?? 0] ?? 0) - 1;
        continue;
      }
      still.push(cycle);
      const others = sum / (end - start);
      if (others < lowest || (others === lowest && (value[cycle] ?? 0) > (value[chosen] ?? 0))) {
        lowest = others;
        chosen = cycle;
      }
    }
    open = still;
    if (chosen < 0) break;
    const ring = [...members.subarray(first[chosen] ?? 0, first[chosen + 1] ?? 0)];
    for (const member of ring) taken[member] = 1;
    rings.push({ members: ring, value: value[chosen] ?? 0 });
  }
  return rings;
}
