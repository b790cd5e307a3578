import { normaliseName } from './normalise.ts';
import { choresHoldTogether } from './chore-check.ts';
import type { CompiledKnowledge } from './knowledge-base.ts';
import { figuresOf } from './parameter.ts';
import { quarantineHoldsTogether, quarantineSources } from './quarantine-check.ts';
import { waterHoldsTogether } from './water-check.ts';

/** A complaint about how entries fit together; `file` and `path` say where it stands. */
export type LinkProblem = { file: string; path: string[]; message: string };

/** What one file cannot know: every link leads somewhere, names are unique, hazards have first aid. */
export function checkLinks(knowledge: CompiledKnowledge, fileOf: (kind: string, id: string) => string): LinkProblem[] {
  return [
    ...sourcesExist(knowledge, fileOf),
    ...namesAreUnique(knowledge, fileOf),
    ...coralNamesAreUnique(knowledge, fileOf),
    ...lodgersAreKnown(knowledge, fileOf),
    ...pairsHold(knowledge, fileOf),
    ...hazardsHaveFirstAid(knowledge, fileOf),
    ...questionsLeadSomewhere(knowledge, fileOf),
    ...waterHoldsTogether(knowledge, fileOf),
    ...quarantineHoldsTogether(knowledge, fileOf),
    ...choresHoldTogether(knowledge, fileOf),
  ];
}

type FileOf = (kind: string, id: string) => string;

function sourcesExist(knowledge: CompiledKnowledge, fileOf: FileOf): LinkProblem[] {
  const { critters, corals, lookAlikes, sources, parameters, reagents } = knowledge;
  const known = new Set(sources.map(({ id }) => id));
  const used = new Set<string>();
  const missing = (file: string, path: string[], id: string): LinkProblem[] => {
    used.add(id);
    return known.has(id)
      ? []
      : [{ file, path, message: `came the source "${id}", expected an id of knowledge/sources.yaml; add it there` }];
  };
  const problems = [
    ...critters.flatMap(({ id, sources: cited }) =>
      Object.keys(cited).flatMap((source) => missing(fileOf('critter', id), ['sources', source], source)),
    ),
    ...corals.flatMap(({ id, sources: cited }) =>
      Object.keys(cited).flatMap((source) => missing(fileOf('coral', id), ['sources', source], source)),
    ),
    ...lookAlikes.flatMap(({ id, sources: cited }) =>
      cited.flatMap((source) => missing(fileOf('look-alike', id), ['sources'], source)),
    ),
    ...parameters.flatMap((parameter) =>
      [...parameter.sources, ...figuresOf(parameter).flatMap(({ source }) => source ?? [])].flatMap((source) =>
        missing(fileOf('parameter', parameter.id), ['sources'], source),
      ),
    ),
    ...reagents.flatMap(({ id, sources: cited }) =>
      cited.flatMap((source) => missing(fileOf('reagent', id), ['sources'], source)),
    ),
    ...knowledge.chores.flatMap(({ id, source }) => missing(fileOf('chore', id), ['source'], source)),
    ...quarantineSources(knowledge).flatMap(({ kind, id, cited }) =>
      cited.flatMap((source) => missing(fileOf(kind, id), ['sources'], source)),
    ),
  ];
  const idle = sources.filter(({ id }) => !used.has(id));
  return [
    ...problems,
    ...idle.map(({ id }) => ({
      file: fileOf('source', id),
      path: [id],
      message: `came the source "${id}", which no entry cites; cite it or remove it`,
    })),
  ];
}

function namesAreUnique({ critters, ambiguousNames }: CompiledKnowledge, fileOf: FileOf): LinkProblem[] {
  const owners = new Map<string, string>();
  const problems: LinkProblem[] = [];
  const claim = (name: string, owner: string, file: string, path: string[]) => {
    const key = normaliseName(name);
    const earlier = owners.get(key);
    if (earlier && earlier !== owner)
      problems.push({
        file,
        path,
        message: `came the name "${name}", which ${earlier} has already; a name that means several things goes to knowledge/ambiguous-names`,
      });
    else owners.set(key, owner);
  };
  for (const { id, names } of ambiguousNames)
    for (const name of names) claim(name, `the question ${id}`, fileOf('ambiguous-name', id), ['names']);
  for (const { id, name, aliases } of critters) {
    claim(name, id, fileOf('critter', id), ['name']);
    for (const alias of aliases) claim(alias, id, fileOf('critter', id), ['aliases']);
  }
  return problems;
}

/** A coral may share a name with a critter (zoas stand in both), but with no other coral and no question. */
function coralNamesAreUnique({ corals, ambiguousNames }: CompiledKnowledge, fileOf: FileOf): LinkProblem[] {
  const owners = new Map<string, string>();
  for (const { id, names } of ambiguousNames)
    for (const name of names) owners.set(normaliseName(name), `the question ${id}`);
  return corals.flatMap(({ id, name, hobbyNames }) =>
    [name, ...hobbyNames].flatMap((text, at) => {
      const key = normaliseName(text);
      const earlier = owners.get(key);
      if (!earlier) owners.set(key, id);
      return !earlier || earlier === id
        ? []
        : [
            {
              file: fileOf('coral', id),
              path: [at === 0 ? 'name' : 'hobbyNames'],
              message: `came the name "${text}", which ${earlier} has already; a name that means several things goes to knowledge/ambiguous-names`,
            },
          ];
    }),
  );
}

function lodgersAreKnown({ corals, critters }: CompiledKnowledge, fileOf: FileOf): LinkProblem[] {
  const known = new Set(critters.map(({ id }) => id));
  return corals.flatMap((coral) =>
    (['pests', 'lodgers'] as const).flatMap((list) =>
      coral[list].flatMap((critter) => {
        const file = fileOf('coral', coral.id);
        if (!known.has(critter))
          return [{ file, path: [list], message: `came "${critter}", expected the id of a critter` }];
        if (list === 'lodgers' && coral.pests.includes(critter))
          return [{ file, path: [list], message: `came "${critter}", which stands under pests too; keep one of them` }];
        return [];
      }),
    ),
  );
}

function pairsHold({ critters, lookAlikes }: CompiledKnowledge, fileOf: FileOf): LinkProblem[] {
  const known = new Set(critters.map(({ id }) => id));
  const seen = new Set<string>();
  return lookAlikes.flatMap((pair) => {
    const file = fileOf('look-alike', pair.id);
    const problems: LinkProblem[] = [];
    for (const side of ['a', 'b'] as const)
      if (!known.has(pair[side]))
        problems.push({ file, path: [side], message: `came "${pair[side]}", expected the id of a critter` });
    if (pair.id !== `${pair.a}--${pair.b}`)
      problems.push({ file, path: ['a'], message: `came the file name ${pair.id}, expected ${pair.a}--${pair.b}` });
    if (seen.has(`${pair.b}--${pair.a}`))
      problems.push({ file, path: ['a'], message: 'came the same pair the other way round, expected each pair once' });
    if (pair.a === pair.b) problems.push({ file, path: ['b'], message: 'came the same critter twice, expected two' });
    seen.add(pair.id);
    return problems;
  });
}

function hazardsHaveFirstAid({ critters, corals, firstAid, traits }: CompiledKnowledge, fileOf: FileOf): LinkProblem[] {
  const known = new Set(firstAid.map(({ id }) => id));
  const entries = [
    ...critters.map(({ id, humanHazards }) => ({ file: fileOf('critter', id), humanHazards })),
    ...corals.map(({ id, humanHazards }) => ({ file: fileOf('coral', id), humanHazards })),
    {
      file: 'knowledge/traits.yaml',
      humanHazards: Object.keys(traits?.alarms.people ?? {}).filter((hazard) => hazard !== 'any'),
    },
  ];
  return entries.flatMap(({ file, humanHazards }) =>
    humanHazards
      .filter((hazard) => !known.has(hazard))
      .map((hazard) => ({
        file,
        path: ['humanHazards'],
        message: `came the hazard "${hazard}", expected a file knowledge/first-aid/${hazard}.yaml`,
      })),
  );
}

function questionsLeadSomewhere(
  { critters, corals, ambiguousNames }: CompiledKnowledge,
  fileOf: FileOf,
): LinkProblem[] {
  const known = {
    critter: new Set(critters.map(({ id }) => id)),
    coral: new Set(corals.map(({ id }) => id)),
  };
  return ambiguousNames.flatMap(({ id, answers }) =>
    answers.flatMap((answer) => {
      const [kind, led] =
        'coral' in answer ? (['coral', answer.coral] as const) : (['critter', answer.critter] as const);
      return known[kind].has(led)
        ? []
        : [
            {
              file: fileOf('ambiguous-name', id),
              path: ['answers'],
              message: `came "${led}", expected the id of a ${kind}`,
            },
          ];
    }),
  );
}
