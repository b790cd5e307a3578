import type { CompiledKnowledge } from './knowledge-base.ts';
import type { LinkProblem } from './knowledge-check.ts';

/** The help that a chore names is there, and no two chores answer to one name. */
export function choresHoldTogether(
  { chores, firstAid }: CompiledKnowledge,
  fileOf: (kind: string, id: string) => string,
): LinkProblem[] {
  const known = new Set(firstAid.map(({ id }) => id));
  const takenBy = new Map<string, string>();
  return chores.flatMap(({ id, name, aliases, firstAid: rows }) => [
    ...rows
      .filter((row) => !known.has(row))
      .map((row) => ({
        file: fileOf('chore', id),
        path: ['firstAid'],
        message: `came "${row}", expected a row of knowledge/first-aid`,
      })),
    ...[name, ...aliases].flatMap((each) => {
      const key = each.toLowerCase();
      const other = takenBy.get(key);
      takenBy.set(key, id);
      return other === undefined
        ? []
        : [{ file: fileOf('chore', id), path: ['name'], message: `came "${each}", which ${other} has already` }];
    }),
  ]);
}
