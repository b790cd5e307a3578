import type { Choice, MessageView } from '../discord/message-view.ts';
import { md } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import type { Reagent } from '../knowledge/reagent.ts';
import { cannotView } from '../water/asked.view.ts';

const MOST_SHOWN = 40;

/** The reagents that raise a parameter, the usual one first. */
export const reagentsFor = ({ reagents }: Pick<KnowledgeBase, 'reagents'>, { raisedBy }: Parameter): Reagent[] =>
  raisedBy.flatMap((id) => reagents.get(id) ?? []);

/** The reagent that was typed, by id, name, another name or formula; without one the usual one. */
export function chooseReagent(
  base: Pick<KnowledgeBase, 'reagents'>,
  parameter: Parameter,
  typed: string | undefined,
): { kind: 'reagent'; reagent: Reagent; assumed: boolean } | { kind: 'cannot'; view: MessageView } {
  const known = reagentsFor(base, parameter);
  const [usual] = known;
  if (!usual) throw new RangeError(`knowledge/parameters/${parameter.id}.yaml names no reagent that raises it`);
  if (typed === undefined || typed.trim() === '') return { kind: 'reagent', reagent: usual, assumed: true };
  const key = normaliseName(typed);
  const reagent = known.find(({ id, name, aliases, formula }) =>
    [id, name, formula, ...aliases].some((each) => normaliseName(each) === key),
  );
  if (reagent) return { kind: 'reagent', reagent, assumed: false };
  const came = typed.length > MOST_SHOWN ? `${typed.slice(0, MOST_SHOWN - 1).toWellFormed()}…` : typed.toWellFormed();
  return {
    kind: 'cannot',
    view: cannotView('I don’t know that reagent', [
      md`I read “${came}”. For ${parameter.name.toLowerCase()} I can work with: ${known.map(({ name }) => name).join(', ')}.`,
      md`It has to be the pure substance: of a mixture only its maker knows what is in it.`,
    ]),
  };
}

/** Choices while `reagent` is typed. */
export function suggestReagent(base: Pick<KnowledgeBase, 'reagents'>, parameter: Parameter, typed: string): Choice[] {
  const key = normaliseName(typed);
  return reagentsFor(base, parameter)
    .filter(({ name, aliases, formula }) =>
      [name, formula, ...aliases].some((each) => normaliseName(each).includes(key)),
    )
    .map(({ id, name, formula }) => ({ name: `${name} (${formula})`.slice(0, 100), value: id }));
}
