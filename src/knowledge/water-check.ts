import type { CompiledKnowledge } from './knowledge-base.ts';
import type { LinkProblem } from './knowledge-check.ts';

/** How parameters and reagents fit together: who raises what, what comes first, and the first aid of every reagent. */
export function waterHoldsTogether(
  { parameters, reagents, firstAid }: CompiledKnowledge,
  fileOf: (kind: string, id: string) => string,
): LinkProblem[] {
  const known = new Set(parameters.map(({ id }) => id));
  const helps = new Set(firstAid.map(({ id }) => id));
  const byId = new Map(reagents.map((reagent) => [reagent.id, reagent]));
  return [
    ...parameters.flatMap(({ id, raisedBy, after, apart }) => {
      const complain = (path: string, message: string): LinkProblem => ({
        file: fileOf('parameter', id),
        path: [path],
        message,
      });
      return [
        ...raisedBy.flatMap((reagent) => {
          const found = byId.get(reagent);
          if (!found) return [complain('raisedBy', `came "${reagent}", expected the id of a reagent`)];
          return found.raises.some((raised) => raised === id)
            ? []
            : [complain('raisedBy', `came "${reagent}", whose entry does not say that it raises ${id}`)];
        }),
        ...[...after, ...(apart?.from ?? [])]
          .filter((other) => !known.has(other))
          .map((other) => complain('after', `came "${other}", expected the id of a parameter`)),
      ];
    }),
    ...reagents.flatMap(({ id, firstAid: rows }) =>
      rows
        .filter((row) => !helps.has(row))
        .map((row): LinkProblem => ({
          file: fileOf('reagent', id),
          path: ['firstAid'],
          message: `came "${row}", expected a row of knowledge/first-aid`,
        })),
    ),
  ];
}
