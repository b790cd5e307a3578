/** Rows of cells as aligned columns; the first column is words, the others are numbers. */
export function tableOf(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_cell, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows
    .map((row) =>
      row
        .map((cell, at) => (at === 0 ? cell.padEnd(widths[at] ?? 0) : cell.padStart(widths[at] ?? 0)))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
