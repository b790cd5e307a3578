/** Which names share three-letter pieces with a query: a cheap first sieve before names are compared in full. */
export type TrigramIndex = {
  /** Indexes of the `most` names that share the largest part of their pieces with `tight`, best first. */
  nearest(tight: string, most: number): number[];
};

/** Builds the index over space-free names. Memory: one number for each piece of each name. */
export function trigramIndex(names: readonly string[]): TrigramIndex {
  const postings = new Map<string, number[]>();
  const sizes = new Uint8Array(names.length);
  names.forEach((name, index) => {
    const pieces = piecesOf(name);
    sizes[index] = Math.min(255, pieces.size);
    for (const piece of pieces) {
      const list = postings.get(piece);
      if (list) list.push(index);
      else postings.set(piece, [index]);
    }
  });
  const shared = new Uint8Array(names.length);

  return {
    nearest(tight, most) {
      const pieces = piecesOf(tight);
      const touched: number[] = [];
      for (const piece of pieces) {
        for (const index of postings.get(piece) ?? []) {
          if (shared[index] === 0) touched.push(index);
          shared[index] = (shared[index] ?? 0) + 1;
        }
      }
      // Measured against the query alone and against both: a half-typed name shares few pieces of a long one.
      const scored = touched.map((index) => {
        const common = shared[index] ?? 0;
        const score = common / (pieces.size + (sizes[index] ?? 0)) + (0.5 * common) / pieces.size;
        shared[index] = 0;
        return { index, score };
      });
      scored.sort((one, other) => other.score - one.score || one.index - other.index);
      return scored.slice(0, most).map(({ index }) => index);
    },
  };
}

function piecesOf(tight: string): Set<string> {
  const padded = `^^${tight}$`;
  const pieces = new Set<string>();
  for (let at = 0; at + 3 <= padded.length; at += 1) pieces.add(padded.slice(at, at + 3));
  return pieces;
}
