import type { Part } from './parts.ts';
import type { Longest } from './swap-graph.ts';

/** Larger programmes are not solved in the time that anyone waits. */
const MOST_COLUMNS = 20_000;
/** The solver's own tolerance, a thousand times over: a bound is never rounded down across a whole number. */
const SLACK = 1e-4;

/** The largest whole number of members that rings of this length can serve when they serve at most this many. */
export function boundOfPart(atMost: number, longest: Longest): number {
  const whole = Math.floor(atMost + SLACK);
  return longest === 2 ? whole - (whole % 2) : whole;
}

/**
 * A linear programme whose optimum no plan can exceed: as many members as can be served when a ring may also be used in
 * part. Null when it is too large. Rings of the same members count as one, because they serve the same number.
 */
export function boundProgramme({ rings }: Part): string | null {
  const columns = new Map(rings.map((ring) => [[...ring].sort((one, other) => one - other).join(), ring]));
  if (columns.size > MOST_COLUMNS) return null;
  const withMember = new Map<number, string[]>();
  const served: string[] = [];
  for (const ring of columns.values()) {
    const name = `r${served.length}`;
    served.push(`${ring.length} ${name}`);
    for (const member of ring) {
      const row = withMember.get(member);
      if (row) row.push(name);
      else withMember.set(member, [name]);
    }
  }
  const rows = [...withMember].map(([member, names]) => ` m${member}: ${sum(names)} <= 1`);
  return ['Maximize', ` served: ${sum(served)}`, 'Subject To', ...rows, 'End', ''].join('\n');
}

const sum = (terms: readonly string[]) => terms.join('\n + ');
