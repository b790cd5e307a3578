import { PLANNED, type Planned } from '../../shared/joint-plan-model.ts';
import { readQuantity } from '../../shared/quantity-text.ts';
import { md, type Choice, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import type { Reagent } from '../knowledge/reagent.ts';
import { cannotView } from '../water/asked.view.ts';
import { parameterOf } from '../water/known.ts';

/** A reagent at hand; with the strength of its solution where it is dosed from one. */
export type AtHand = { reagent: Reagent; stockGPerL: number | null };
type Known = Pick<KnowledgeBase, 'parameters' | 'reagents'>;

const MOST_SHOWN = 40;
const MOST_CHARACTERS = 100;

/** Every reagent that raises one of these, the usual ones first. */
export function reagentsRaising(base: Known, planned: readonly Planned[] = PLANNED): Reagent[] {
  const usualFirst = planned.map((id) => parameterOf(base, id).raisedBy);
  const longest = Math.max(0, ...usualFirst.map(({ length }) => length));
  const ids = Array.from({ length: longest }, (_none, at) => usualFirst.flatMap((list) => list[at] ?? [])).flat();
  return [...new Set(ids)].flatMap((id) => base.reagents.get(id) ?? []);
}

/** What is taken when a member names no reagent: the usual one for each value that has to rise. */
export const usualReagents = (base: Known, rising: readonly Planned[]): AtHand[] =>
  rising.flatMap((id) => {
    const [usual] = reagentsRaising(base, [id]);
    return usual ? [{ reagent: usual, stockGPerL: null }] : [];
  });

/** What any of their names comes to: a trailing "60 g/L" or "at 60 g/L" is the strength of a solution. */
const WITH_STRENGTH = /^(.*?)\s+(?:at\s+)?([\d.,]+\s*g\s*\/\s*l)$/i;

/** The reagents of a list such as "baking soda, calcium chloride dihydrate 400 g/L". */
export function readReagents(
  base: Known,
  typed: string,
): { kind: 'reagents'; reagents: AtHand[] } | { kind: 'cannot'; view: MessageView } {
  const known = reagentsRaising(base);
  const reagents: AtHand[] = [];
  for (const part of partsOf(typed)) {
    const [, name = part, strength] = WITH_STRENGTH.exec(part) ?? [];
    const meant = namedBy(known, name);
    const [reagent, ...others] = meant;
    if (!reagent || others.length > 0) return { kind: 'cannot', view: unclearView(name, meant, known) };
    const stock = strength === undefined ? null : readQuantity(strength, { quantity: 'strength' });
    if (stock && stock.kind !== 'read')
      return {
        kind: 'cannot',
        view: cannotView('I cannot use that strength', [
          md`I read “${shortened(part)}”. A solution holds ${stock.allowed}, for example **${name} 60 g/L**.`,
        ]),
      };
    reagents.push({ reagent, stockGPerL: stock?.si ?? null });
  }
  const twice = reagents.find(({ reagent }, at) => reagents.findIndex((each) => each.reagent === reagent) < at);
  if (twice)
    return {
      kind: 'cannot',
      view: cannotView('One reagent stands there twice', [md`**${twice.reagent.name}**: name it once.`]),
    };
  return { kind: 'reagents', reagents };
}

const partsOf = (typed: string): string[] =>
  typed
    .split(/[,;+\n]|\band\b/i)
    .map((part) => part.trim())
    .filter((part) => part !== '');

/** By a name of its own; a beginning of several names is all of them. */
function namedBy(known: readonly Reagent[], typed: string): Reagent[] {
  const key = normaliseName(typed);
  const names = ({ id, name, formula, aliases }: Reagent) => [id, name, formula, ...aliases].map(normaliseName);
  const exact = known.filter((reagent) => names(reagent).includes(key));
  return exact.length > 0 || key === ''
    ? exact
    : known.filter((reagent) => names(reagent).some((name) => name.startsWith(key)));
}

const shortened = (text: string) =>
  text.length > MOST_SHOWN ? `${text.slice(0, MOST_SHOWN - 1).toWellFormed()}…` : text.toWellFormed();
const listed = (reagents: readonly Reagent[]) => reagents.map(({ name, formula }) => `${name} (${formula})`).join('; ');

const unclearView = (typed: string, meant: readonly Reagent[], known: readonly Reagent[]): MessageView =>
  meant.length > 0
    ? cannotView('Which of these do you have?', [
        md`“${shortened(typed)}” could be: ${listed(meant)}.`,
        md`They differ in the water they hold, so the grams differ. The label says which.`,
      ])
    : cannotView('I don’t know that reagent', [
        md`I read “${shortened(typed)}”. I can plan with: ${listed(known)}.`,
        md`Part them by commas. Each has to be the pure substance: of a mixture only its maker knows what is in it.`,
      ]);

/** Choices while `reagents` is typed: what is there already, and one more. Formulas keep them short enough. */
export function suggestReagents(base: Known, typed: string): Choice[] {
  const parts = typed.split(/[,;+]/);
  const last = normaliseName(parts.at(-1) ?? '');
  const known = reagentsRaising(base);
  const before = parts.slice(0, -1).flatMap((part) => {
    const [reagent] = namedBy(known, part.trim());
    return part.trim() !== '' && reagent ? [reagent] : [];
  });
  const there = before.map(({ formula }) => formula);
  return known
    .filter((reagent) => !before.includes(reagent))
    .filter(({ name, formula, aliases }) =>
      [name, formula, ...aliases].some((each) => normaliseName(each).includes(last)),
    )
    .map(({ name, formula }) => {
      const value = [...there, formula].join(', ');
      const spoken = [...there, `${name} (${formula})`].join(' + ');
      return { name: spoken.length <= MOST_CHARACTERS ? spoken : value, value };
    })
    .filter(({ name, value }) => name.length <= MOST_CHARACTERS && value.length <= MOST_CHARACTERS);
}
