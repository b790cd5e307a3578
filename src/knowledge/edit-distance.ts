/**
 * Damerau-Levenshtein distance in its optimal-string-alignment form: insertions, deletions, substitutions and
 * swaps of neighbours each cost one, and no stretch is edited twice.
 *
 * Also gives the least distance of `query` to any beginning of `name`, which is what a half-typed name needs;
 * both come from one table. Strings are cut to 48 characters, longer than any name.
 *
 * Source: Damerau F.J. (1964) Commun. ACM 7(3):171-176; Levenshtein V.I. (1966) Sov. Phys. Dokl. 10:707-710.
 */
export function editDistance(query: string, name: string): { whole: number; beginning: number } {
  const rows = Math.min(query.length, MOST);
  const columns = Math.min(name.length, MOST);
  let twoAgo = ROWS[0];
  let oneAgo = ROWS[1];
  let current = ROWS[2];
  for (let column = 0; column <= columns; column += 1) oneAgo[column] = column;
  for (let row = 1; row <= rows; row += 1) {
    const typed = query.charCodeAt(row - 1);
    const before = row > 1 ? query.charCodeAt(row - 2) : -1;
    current[0] = row;
    for (let column = 1; column <= columns; column += 1) {
      const meant = name.charCodeAt(column - 1);
      const same = typed === meant ? 0 : 1;
      let best = (oneAgo[column - 1] ?? 0) + same;
      const dropped = (oneAgo[column] ?? 0) + 1;
      const added = (current[column - 1] ?? 0) + 1;
      if (dropped < best) best = dropped;
      if (added < best) best = added;
      if (same && column > 1 && before === meant && typed === name.charCodeAt(column - 2)) {
        const swapped = (twoAgo[column - 2] ?? 0) + 1;
        if (swapped < best) best = swapped;
      }
      current[column] = best;
    }
    [twoAgo, oneAgo, current] = [oneAgo, current, twoAgo];
  }
  let beginning = oneAgo[0] ?? 0;
  for (let column = 1; column <= columns; column += 1) beginning = Math.min(beginning, oneAgo[column] ?? 0);
  return { whole: oneAgo[columns] ?? 0, beginning };
}

const MOST = 48;
const ROWS: [Uint8Array, Uint8Array, Uint8Array] = [
  new Uint8Array(MOST + 1),
  new Uint8Array(MOST + 1),
  new Uint8Array(MOST + 1),
];
