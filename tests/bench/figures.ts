/** The value below which `share` of the samples lie. */
export function quantile(samples: readonly number[], share: number): number {
  const sorted = [...samples].sort((one, other) => one - other);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? NaN;
}

export const median = (samples: readonly number[]) => quantile(samples, 0.5);

export type Row = { what: string; ours: string; floor: string; ratio: string; goal: string; met: boolean | null };

/** Rows as an aligned table. */
export function tableOf(rows: readonly Row[]): string {
  const cells = [
    ['what', 'ours', 'floor', 'ratio', 'goal', ''],
    ...rows.map(({ what, ours, floor, ratio, goal, met }) => [
      what,
      ours,
      floor,
      ratio,
      goal,
      met === null ? '' : met ? 'met' : 'MISSED',
    ]),
  ];
  const widths = cells[0]?.map((_cell, column) => Math.max(...cells.map((row) => row[column]?.length ?? 0))) ?? [];
  return cells
    .map((row) =>
      row
        .map((cell, column) => cell.padEnd(widths[column] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
