import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { z } from 'zod';
import { AmbiguousName } from './ambiguous-name.ts';
import { ChoreIdea } from './chore.ts';
import { Coral } from './coral.ts';
import { Critter } from './critter.ts';
import { FirstAid } from './first-aid.ts';
import { issuesInWords } from './issues-in-words.ts';
import { KNOWLEDGE_FORMAT, type CompiledKnowledge } from './knowledge-base.ts';
import { checkLinks } from './knowledge-check.ts';
import { LookAlike } from './look-alike.ts';
import { Parameter } from './parameter.ts';
import { Fish } from './fish.ts';
import { LifeCycle } from './life-cycle.ts';
import { Plan } from './plan.ts';
import { Purpose } from './purpose.ts';
import { Remedy } from './remedy.ts';
import { Sign } from './sign.ts';
import { Reagent } from './reagent.ts';
import { Sources } from './source.ts';
import { TraitVocabulary } from './trait-vocabulary.ts';
import { parseYaml, type Place, type Problem } from './yaml-file.ts';

export type LoadedKnowledge = { knowledge: CompiledKnowledge; problems: Problem[] };

type Parsed<T> = { id: string; file: string; data: T; placeOf: (path: readonly PropertyKey[]) => Place };

/**
 * Reads and checks all of `folder`: every file by its schema, then how they fit together.
 *
 * Reading goes on after a mistake, so that one run names all of them. Use the knowledge only when there is none.
 */
export function loadKnowledge(folder: string): LoadedKnowledge {
  const problems: Problem[] = [];
  const entries = <S extends z.ZodType>(kind: string, schema: S) =>
    yamlFiles(join(folder, kind)).flatMap((file) => readEntry(file, schema, problems));

  const critters = entries('critters', Critter);
  const corals = entries('corals', Coral);
  const lookAlikes = entries('look-alikes', LookAlike);
  const firstAid = entries('first-aid', FirstAid);
  const ambiguousNames = entries('ambiguous-names', AmbiguousName);
  const parameters = entries('parameters', Parameter);
  const reagents = entries('reagents', Reagent);
  const fish = entries('fish', Fish);
  const lifeCycles = entries('life-cycles', LifeCycle);
  const plans = entries('plans', Plan);
  const purposes = entries('purposes', Purpose);
  const remedies = entries('remedies', Remedy);
  const signs = entries('signs', Sign);
  const chores = entries('chores', ChoreIdea);
  const sourceFile = readEntry(join(folder, 'sources.yaml'), Sources, problems);
  const vocabulary = join(folder, 'traits.yaml');
  const [traits] = existsSync(vocabulary) ? readEntry(vocabulary, TraitVocabulary, problems) : [];

  for (const { file, data, placeOf } of critters) {
    const shelf = basename(join(file, '..'));
    if (shelf !== data.group)
      problems.push({
        file,
        ...placeOf(['group']),
        message: `came group "${data.group}" in the folder ${shelf}, expected the folder critters/${data.group}`,
      });
  }

  const withId = <T extends object>(parsed: Parsed<T>[]) => parsed.map(({ id, data }) => ({ id, ...data }));
  const sources = sourceFile.flatMap(({ data }) => Object.entries(data).map(([id, source]) => ({ id, ...source })));
  const knowledge: CompiledKnowledge = {
    format: KNOWLEDGE_FORMAT,
    critters: withId(critters),
    corals: withId(corals),
    lookAlikes: withId(lookAlikes),
    sources,
    firstAid: withId(firstAid),
    ambiguousNames: withId(ambiguousNames),
    parameters: withId(parameters),
    fish: withId(fish),
    lifeCycles: withId(lifeCycles),
    plans: withId(plans),
    purposes: withId(purposes),
    remedies: withId(remedies),
    signs: withId(signs),
    chores: withId(chores),
    reagents: withId(reagents),
    ...(traits ? { traits: traits.data } : {}),
  };

  problems.push(...idsGivenTwice(critters));
  // A file that was refused is missing everywhere else: links are looked at once all files can be read.
  if (problems.length === 0) {
    const shelves = new Map<string, Parsed<object>[]>([
      ['source', sourceFile],
      ['critter', critters],
      ['coral', corals],
      ['look-alike', lookAlikes],
      ['ambiguous-name', ambiguousNames],
      ['parameter', parameters],
      ['reagent', reagents],
      ['fish', fish],
      ['life-cycle', lifeCycles],
      ['plan', plans],
      ['purpose', purposes],
      ['remedy', remedies],
      ['sign', signs],
      ['chore', chores],
    ]);
    const find = (kind: string, id: string) =>
      shelves.get(kind)?.find((parsed) => kind === 'source' || parsed.id === id);
    const places = new Map([...shelves.values()].flat().map((parsed) => [parsed.file, parsed.placeOf]));
    const links = checkLinks(knowledge, (kind, id) => find(kind, id)?.file ?? `${kind} ${id}`);
    for (const { file, path, message } of links)
      problems.push({ file, ...(places.get(file)?.(path) ?? START), message });
  }
  return { knowledge, problems };
}

const START: Place = { line: 1, column: 1 };

/** Critters lie in several folders, so two files may bear one name. */
function idsGivenTwice(critters: readonly Parsed<unknown>[]): Problem[] {
  const files = new Map<string, string>();
  return critters.flatMap(({ id, file }) => {
    const earlier = files.get(id);
    files.set(id, file);
    return earlier ? [{ file, ...START, message: `came the id "${id}", which ${earlier} has already` }] : [];
  });
}

function readEntry<S extends z.ZodType>(file: string, schema: S, problems: Problem[]): Parsed<z.output<S>>[] {
  const parsed = parseYaml(file, readFileSync(file, 'utf8'));
  if (!parsed.ok) {
    problems.push(...parsed.problems);
    return [];
  }
  const checked = schema.safeParse(parsed.value);
  if (!checked.success) {
    problems.push(...issuesInWords(file, parsed.value, checked.error.issues, parsed.placeOf));
    return [];
  }
  return [{ id: basename(file, '.yaml'), file, data: checked.data, placeOf: parsed.placeOf }];
}

function yamlFiles(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => join(folder, name));
}
