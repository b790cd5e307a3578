import type { AmbiguousName } from '../../../src/knowledge/ambiguous-name.ts';
import { createFinder } from '../../../src/knowledge/finder.ts';
import { indexKnowledge } from '../../../src/knowledge/knowledge-base.ts';
import { loadKnowledge } from '../../../src/knowledge/knowledge.loader.ts';

/** The knowledge that is shipped, read once for a test file. */
export const loaded = loadKnowledge('knowledge');
export const base = indexKnowledge(loaded.knowledge);
export const finder = createFinder(base);

/** Every name that leads somewhere, with the id it should lead to. */
export const everyName = [
  ...loaded.knowledge.critters.flatMap(({ id, name, aliases }) =>
    [name, ...aliases].map((text) => ({ text, kind: 'critter', id })),
  ),
  ...loaded.knowledge.ambiguousNames.flatMap(({ id, names }) => names.map((text) => ({ text, kind: 'question', id }))),
];

/** The critters that a question may be answered with, as `says` and `id`. */
export const critterAnswers = ({ answers }: AmbiguousName): { says: string; id: string }[] =>
  answers.flatMap((answer) => ('critter' in answer ? [{ says: answer.says, id: answer.critter }] : []));
