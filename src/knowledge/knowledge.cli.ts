import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { previewCard } from '../critters/preview.ts';
import { checkFile } from './check-file.ts';
import { jsonSchemas } from './json-schemas.ts';
import { indexKnowledge } from './knowledge-base.ts';
import { loadKnowledge } from './knowledge.loader.ts';
import type { Problem } from './yaml-file.ts';

const FOLDER = 'knowledge';
const COMPILED = 'dist/knowledge.json';
const USAGE = `npm run knowledge                    check everything
npm run knowledge -- check FILE ...  check the files named, each by itself
npm run knowledge -- schema          write knowledge/schema anew
npm run knowledge -- compile         check, then write ${COMPILED}
npm run knowledge -- preview ID ...  print the card of an entry as members read it`;

function main([act = 'check', ...args]: string[]): number {
  switch (act) {
    case 'check':
      return args.length > 0 ? report(args.flatMap(checkFile), `${args.length} files`) : checkAll();
    case 'schema':
      return writeSchemas();
    case 'compile':
      return compile();
    case 'preview':
      return preview(args);
    default:
      console.error(`came "${act}", expected one of these:\n${USAGE}`);
      return 2;
  }
}

function checkAll(): number {
  const { knowledge, problems } = loadKnowledge(FOLDER);
  const { critters, corals, lookAlikes, sources, firstAid, ambiguousNames, parameters, reagents, fish, plans, signs } =
    knowledge;
  const names = critters.reduce((sum, { aliases }) => sum + 1 + aliases.length, 0);
  return report(
    [...problems, ...(knowledge.traits ? [] : [NO_TRAITS]), ...staleSchemas()],
    `${critters.length} critters with ${names} names, ${corals.length} corals, ${lookAlikes.length} look-alike pairs, ${ambiguousNames.length} questions, ${firstAid.length} first-aid rows, ${parameters.length} parameters, ${reagents.length} reagents, ${plans.length} plans, ${signs.length} signs, ${fish.length} kinds of fish, ${sources.length} sources`,
  );
}

const NO_TRAITS: Problem = {
  file: join(FOLDER, 'traits.yaml'),
  line: 1,
  column: 1,
  message: 'came no file or one that was refused, expected the vocabulary of traits',
};

function staleSchemas(): Problem[] {
  return [...jsonSchemas()].flatMap(([name, text]) => {
    const file = join(FOLDER, 'schema', name);
    const fresh = existsSync(file) && readFileSync(file, 'utf8') === text;
    return fresh
      ? []
      : [
          {
            file,
            line: 1,
            column: 1,
            message: 'came an old schema, expected the one the code describes; run: npm run knowledge -- schema',
          },
        ];
  });
}

function writeSchemas(): number {
  mkdirSync(join(FOLDER, 'schema'), { recursive: true });
  for (const [name, text] of jsonSchemas()) writeFileSync(join(FOLDER, 'schema', name), text);
  return 0;
}

function compile(): number {
  const { knowledge, problems } = loadKnowledge(FOLDER);
  if (problems.length > 0) return report(problems, '');
  mkdirSync('dist', { recursive: true });
  writeFileSync(COMPILED, asciiJson(knowledge));
  return 0;
}

/** JSON in ASCII alone, which is read at the start without decoding: some milliseconds for a megabyte. */
const asciiJson = (value: unknown) =>
  JSON.stringify(value).replace(/[^ -~]/g, (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`);

function preview(ids: string[]): number {
  const { knowledge, problems } = loadKnowledge(FOLDER);
  if (problems.length > 0) return report(problems, '');
  const base = indexKnowledge(knowledge);
  for (const id of ids) console.log(previewCard(base, id));
  return 0;
}

function report(problems: Problem[], good: string): number {
  for (const { file, line, column, message } of problems)
    console.error(`${relative(process.cwd(), file)}:${line}:${column} ${message}`);
  if (problems.length > 0) console.error(`${problems.length} ${problems.length === 1 ? 'problem' : 'problems'}`);
  else console.log(`knowledge: ${good}: all is well`);
  return problems.length > 0 ? 1 : 0;
}

process.exitCode = main(process.argv.slice(2));
