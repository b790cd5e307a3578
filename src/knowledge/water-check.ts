import { canBeDosed, phDirection } from '../../shared/reagent.ts';
import type { CompiledKnowledge } from './knowledge-base.ts';
import type { LinkProblem } from './knowledge-check.ts';
import { normaliseName } from './normalise.ts';
import { figuresOf, raisedAs, type Parameter } from './parameter.ts';
import type { Reagent } from './reagent.ts';
import { missingFromReagent } from './reagent-safety.ts';

type FileOf = (kind: string, id: string) => string;
type Complain = (path: string, message: string) => LinkProblem;

/** How parameters and reagents fit together: who raises what, what comes first, and what every hazard demands. */
export function waterHoldsTogether(
  { parameters, reagents, firstAid }: CompiledKnowledge,
  fileOf: FileOf,
): LinkProblem[] {
  const known = new Set(parameters.map(({ id }) => id));
  const helps = new Set(firstAid.map(({ id }) => id));
  const byId = new Map(reagents.map((reagent) => [reagent.id, reagent]));
  return [
    ...parameters.flatMap((parameter) => {
      const complain = complaintsOf(fileOf('parameter', parameter.id));
      return [
        ...raisers(parameter, byId, complain),
        ...order(parameter, known, complain),
        ...form(parameter, complain),
        ...standing(parameter, complain),
      ];
    }),
    ...reagents.flatMap((reagent) => {
      const complain = complaintsOf(fileOf('reagent', reagent.id));
      return [
        ...reagent.firstAid
          .filter((row) => !helps.has(row))
          .map((row) => complain('firstAid', `came "${row}", expected a row of knowledge/first-aid`)),
        ...missingFromReagent(reagent).map(({ path, message }) => complain(path, message)),
        ...chemistry(reagent, complain),
        ...offered(reagent, parameters, complain),
      ];
    }),
    ...namedOnce('parameter', parameters, fileOf),
    ...namedOnce('reagent', reagents, fileOf),
  ];
}

const complaintsOf =
  (file: string): Complain =>
  (path, message) => ({ file, path: [path], message });

function raisers(parameter: Parameter, byId: ReadonlyMap<string, Reagent>, complain: Complain): LinkProblem[] {
  const word = raisedAs(parameter);
  return parameter.raisedBy.flatMap((id) => {
    const found = byId.get(id);
    if (!found) return [complain('raisedBy', `came "${id}", expected the id of a reagent`)];
    return found.raises.some((raised) => raised === word)
      ? []
      : [complain('raisedBy', `came "${id}", whose entry does not say that it raises ${word}`)];
  });
}

const order = ({ after, apart }: Parameter, known: ReadonlySet<string>, complain: Complain): LinkProblem[] =>
  [...after, ...(apart?.from ?? [])]
    .filter((other) => !known.has(other))
    .map((other) => complain('after', `came "${other}", expected the id of a parameter`));

/** A form stands in the id, so that no reading of one form is ever filed under another. */
function form({ id, form, raisedBy }: Parameter, complain: Complain): LinkProblem[] {
  if (!form) return [];
  return [
    ...(id.endsWith(`-${form}`) ? [] : [complain('form', `came "${form}", expected an id that ends in -${form}`)]),
    ...(form !== 'ionic' && raisedBy.length > 0
      ? [complain('raisedBy', `came a reagent for the ${form} form, expected none, since its label gives the dose`)]
      : []),
  ];
}

/** What is computed follows from somebody’s numbers, and says whose. */
const standing = (parameter: Parameter, complain: Complain): LinkProblem[] =>
  figuresOf(parameter)
    .filter(({ standing, source }) => standing === 'computed' && source === undefined)
    .map(({ low }) => complain('sources', `came the computed figure ${low} without a source, expected its source`));

/** The calculators have to know how it comes apart, and the entry has to agree with them. */
function chemistry({ formula, phEffect }: Reagent, complain: Complain): LinkProblem[] {
  if (!canBeDosed(formula))
    return [complain('formula', `came "${formula}", expected one cation and one anion, such as CaCl2.2H2O`)];
  const direction = phDirection(formula);
  return direction === phEffect
    ? []
    : [complain('phEffect', `came "${phEffect}" for ${formula}, expected "${direction}"`)];
}

/** A reagent that nobody offers is a slip in one of the two files. */
const offered = (reagent: Reagent, parameters: readonly Parameter[], complain: Complain): LinkProblem[] =>
  parameters.some(({ raisedBy }) => raisedBy.includes(reagent.id))
    ? []
    : [complain('raises', `came "${reagent.id}", which no parameter lists under raisedBy`)];

function namedOnce(
  kind: 'parameter' | 'reagent',
  entries: readonly { id: string; name: string; aliases: readonly string[] }[],
  fileOf: FileOf,
): LinkProblem[] {
  const owners = new Map<string, string>();
  return entries.flatMap(({ id, name, aliases }) =>
    [name, ...aliases].flatMap((text, at) => {
      const key = normaliseName(text);
      const owner = owners.get(key) ?? id;
      owners.set(key, owner);
      if (owner === id) return [];
      const path = [at === 0 ? 'name' : 'aliases'];
      return [{ file: fileOf(kind, id), path, message: `came the name "${text}", which ${owner} has already` }];
    }),
  );
}
