import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { furtherFigure, type Figure, type FurtherFigure, type Parameter } from '../knowledge/parameter.ts';

/**
 * What the club knows about a quantity of the water.
 *
 * @throws RangeError when there is no such entry: answers without their limits would be worse than none.
 */
export function parameterOf({ parameters }: Pick<KnowledgeBase, 'parameters'>, id: string): Parameter {
  const parameter = parameters.get(id);
  if (!parameter) throw new RangeError(`knowledge/parameters/${id}.yaml is missing`);
  return parameter;
}

/** A further figure of a quantity by its key. @throws RangeError as above. */
export const known = (base: Pick<KnowledgeBase, 'parameters'>, id: string, key: string): FurtherFigure =>
  furtherFigure(parameterOf(base, id), key);

/** One of the usual figures of an entry. @throws RangeError when the entry gives none. */
export function givenFigure(
  parameter: Parameter,
  name: 'target' | 'riseADay' | 'fallADay' | 'warnAbove' | 'urgentAbove' | 'kitError',
): Figure {
  const figure = parameter[name];
  if (!figure) throw new RangeError(`knowledge/parameters/${parameter.id}.yaml has no ${name}`);
  return figure;
}

/** The middle of a span, where one number has to be taken. */
export const middle = ({ low, high }: { low: number; high: number }): number => (low + high) / 2;
