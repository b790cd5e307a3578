import type { SwapGraph } from '../../../src/rings/swap-graph.ts';

// The most members that rings can serve, as two programmes that have nothing in common with each other or the product.

type Terms = Map<string, string[]>;

function noted(terms: Terms, row: string, term: string): void {
  terms.set(row, [...(terms.get(row) ?? []), term]);
}

/** Who can give to whom, as numbers; each pair once. */
function gifts({ members, arcs }: SwapGraph): { count: number; to: readonly ReadonlySet<number>[] } {
  const place = new Map(members.map(({ id }, at) => [id, at]));
  const to = members.map(() => new Set<number>());
  for (const arc of arcs) to[place.get(arc.from) ?? -1]?.add(place.get(arc.to) ?? -1);
  return { count: members.length, to };
}

const programme = (served: string[], rows: Terms, bounds: (row: string) => string, columns: Iterable<string>) =>
  [
    'Maximize',
    ` served: ${served.join('\n + ')}`,
    'Subject To',
    ...[...rows].map(([row, terms]) => ` ${row}: ${terms.join('\n ')} ${bounds(row)}`),
    'Binary',
    ...columns,
    'End',
    '',
  ].join('\n');

/** One column for each ring; a member is in one at most. */
export function byCycles(graph: SwapGraph, longest: number): string {
  const { count, to } = gifts(graph);
  const rows: Terms = new Map();
  const served: string[] = [];
  const columns: string[] = [];
  const walk = (path: number[]) => {
    const [start = 0] = path;
    for (const next of to[path.at(-1) ?? 0] ?? []) {
      if (next === start) {
        const name = `r${columns.length}`;
        columns.push(name);
        served.push(`${path.length} ${name}`);
        for (const member of path) noted(rows, `m${member}`, `+ ${name}`);
      } else if (next > start && path.length < longest && !path.includes(next)) walk([...path, next]);
    }
  };
  for (let start = 0; start < count; start += 1) walk([start]);
  return programme(served, rows, () => '<= 1', columns);
}

/**
 * One column for each arc at each place of a ring that begins with a certain member, the lowest in it: whoever gets at
 * one place gives at the next, and a ring ends where it began. No ring is ever written down.
 */
export function byArcs(graph: SwapGraph, longest: number): string {
  const { count, to } = gifts(graph);
  const rows: Terms = new Map();
  const columns = new Set<string>();
  for (let start = 0; start < count; start += 1)
    for (let at = 1; at <= longest; at += 1)
      for (let from = start; from < count; from += 1) {
        if ((at === 1) !== (from === start)) continue;
        for (const target of to[from] ?? []) {
          if (target < start || (at === longest && target !== start)) continue;
          const name = `x${start}_${at}_${from}_${target}`;
          columns.add(name);
          noted(rows, `m${from}`, `+ ${name}`);
          if (at > 1) noted(rows, `f${start}_${at}_${from}`, `- ${name}`);
          if (target !== start) noted(rows, `f${start}_${at + 1}_${target}`, `+ ${name}`);
        }
      }
  return programme([...columns], rows, (row) => (row.startsWith('m') ? '<= 1' : '= 0'), columns);
}
