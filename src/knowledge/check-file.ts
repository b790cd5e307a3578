import { readFileSync } from 'node:fs';
import { sep } from 'node:path';
import type { z } from 'zod';
import { AmbiguousName } from './ambiguous-name.ts';
import { ChoreIdea } from './chore.ts';
import { Coral } from './coral.ts';
import { Critter } from './critter.ts';
import { FirstAid } from './first-aid.ts';
import { issuesInWords } from './issues-in-words.ts';
import { LookAlike } from './look-alike.ts';
import { Parameter } from './parameter.ts';
import { Fish } from './fish.ts';
import { LifeCycle } from './life-cycle.ts';
import { Plan } from './plan.ts';
import { Remedy } from './remedy.ts';
import { Sign } from './sign.ts';
import { Reagent } from './reagent.ts';
import { Sources } from './source.ts';
import { TraitVocabulary } from './trait-vocabulary.ts';
import { parseYaml, type Problem } from './yaml-file.ts';

const KINDS: [folder: string, schema: z.ZodType][] = [
  ['look-alikes', LookAlike],
  ['first-aid', FirstAid],
  ['ambiguous-names', AmbiguousName],
  ['corals', Coral],
  ['parameters', Parameter],
  ['fish', Fish],
  ['life-cycles', LifeCycle],
  ['plans', Plan],
  ['remedies', Remedy],
  ['signs', Sign],
  ['chores', ChoreIdea],
  ['reagents', Reagent],
  ['critters', Critter],
];

/** Checks one file by itself: its YAML and its schema, which its folder decides; a critter where no folder does. */
export function checkFile(file: string): Problem[] {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch {
    return [
      { file, line: 1, column: 1, message: 'came a name that cannot be read, expected a YAML file; check the path' },
    ];
  }
  const parsed = parseYaml(file, text);
  if (!parsed.ok) return parsed.problems;
  const schema = file.endsWith('traits.yaml')
    ? TraitVocabulary
    : file.endsWith('sources.yaml')
      ? Sources
      : (KINDS.find(([folder]) => file.split(sep).includes(folder))?.[1] ?? Critter);
  const checked = schema.safeParse(parsed.value);
  return checked.success ? [] : issuesInWords(file, parsed.value, checked.error.issues, parsed.placeOf);
}
