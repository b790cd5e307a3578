import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path/posix';
import { describe, expect, test } from 'vitest';

// Who may import whom. Arrows point one way: programs → shell (Discord, disk, database) → pure code → shared.

/** In a feature folder a file without a role suffix is pure, and so is every view. */
const PURE = /^src\/(?!discord\/|database\/|room\/)(?:[^/]+\/)+[^/.]+(\.view)?\.ts$/;
/** What pure code may know of the Discord side: how a message is said as data. */
const PLAIN_DATA = /^src\/discord\/(message-view|command)\.ts$/;
const PROGRAM = /^src\/(main\.ts|.*\.cli\.ts)$/;
/** The files directly under src/ that tie features together. */
const TIES = /^src\/(main|bot|commands)\.ts$/;

type Rule = { rule: string; files: RegExp; allows: (to: string) => boolean };

const isPure = (to: string) =>
  /^(zod|date-fns|temporal-polyfill|shared\/.+)$/.test(to) || PURE.test(to) || PLAIN_DATA.test(to);

const RULES: readonly Rule[] = [
  {
    rule: 'shared code imports zod, date-fns and shared code',
    files: /^shared\//,
    allows: (to) => /^(zod|date-fns|shared\/.+)$/.test(to),
  },
  { rule: 'pure code and views import pure code', files: PURE, allows: isPure },
  {
    rule: 'discord.js stays in src/discord, src/room, commands and the programs',
    files: /^(shared|src)\/(?!discord\/|room\/|main\.ts$|bot\.ts$|.*\.command\.ts$)/,
    allows: (to) => to !== 'discord.js' && !to.startsWith('discord-api-types'),
  },
  {
    rule: 'better-sqlite3 stays in src/database, stores and workers',
    files: /^(shared|src)\/(?!database\/|.*\.(store|worker)\.ts$)/,
    allows: (to) => to !== 'better-sqlite3',
  },
  {
    rule: 'src/discord knows no feature, and of the outbox what a message in it is',
    files: /^src\/discord\/(?!.*\.cli\.ts$)/,
    allows: (to) => !/^src\/(?!discord\/|outbox\/outbox\.ts$)[^/]+\//.test(to),
  },
  {
    rule: 'src/database knows no feature',
    files: /^src\/database\//,
    allows: (to) => !/^src\/(?!database\/)/.test(to),
  },
  {
    rule: 'the practice room is opened by programs only',
    files: /^(shared|src)\/(?!room\/|main\.ts$|.*\.cli\.ts$)/,
    allows: (to) => !to.startsWith('src/room/'),
  },
  { rule: 'a program is imported by nobody', files: /./, allows: (to) => !PROGRAM.test(to) },
  {
    rule: 'what ties features together is imported by programs, each other and the practice room only',
    files: /^(shared|src)\/(?!room\/|main\.ts$|bot\.ts$|commands\.ts$|.*\.cli\.ts$)/,
    allows: (to) => !TIES.test(to),
  },
];

/** Imports that break a rule for a reason. */
const EXCEPTIONS: readonly { file: string; imports: readonly string[]; because: string }[] = [
  {
    file: 'src/critters/preview.ts',
    imports: ['src/discord/render.ts'],
    because: 'it shows contributors a card exactly as it would be sent, so it has to render one',
  },
  {
    file: 'src/knowledge/check-file.ts',
    imports: ['node:fs', 'node:path'],
    because: 'it checks the one file that it is given the name of, and nothing else on the disk',
  },
  {
    file: 'src/knowledge/yaml-file.ts',
    imports: ['yaml'],
    because: 'it turns text into values and touches nothing; the package is the parser',
  },
  {
    file: 'src/knowledge/yaml-nesting.ts',
    imports: ['yaml'],
    because: 'it follows the tokens of the same parser, so that both read a text alike',
  },
  {
    file: 'src/schedule/calendar-file.ts',
    imports: ['ical-generator'],
    because: 'it writes text by an open standard and touches nothing; the package is the writer',
  },
  {
    file: 'src/drawing/painter.ts',
    imports: ['node:fs', 'node:url', 'node:worker_threads'],
    because: 'it hands a finished drawing to a thread of its own, so that painting holds up no answer',
  },
  {
    file: 'src/drawing/charts/value-axis.ts',
    imports: ['d3-scale'],
    because: 'it works out round numbers for an axis and touches nothing',
  },
  {
    file: 'src/drawing/charts/time-axis.ts',
    imports: ['d3-scale'],
    because: 'it works out months and years for an axis and touches nothing',
  },
  {
    file: 'src/drawing/charts/step-line.ts',
    imports: ['d3-shape'],
    because: 'it writes the path of a line as text and touches nothing',
  },
  {
    file: 'src/beside/oklch.ts',
    imports: ['culori'],
    because: 'it turns colours into numbers that can be compared, and touches nothing',
  },
  {
    file: 'src/dosing/solver.ts',
    imports: ['node:fs', 'node:url', 'node:worker_threads'],
    because: 'it hands a linear programme to a thread of its own, which it can end when the solver does not',
  },
  {
    file: 'src/rings/ring-solver.ts',
    imports: ['node:fs', 'node:worker_threads'],
    because: 'it hands the rings of a club to a thread of its own, which it can end when the search does not',
  },
];
const edge = (file: string, to: string) => `${file} → ${to}`;
const EXCEPTED = new Set(EXCEPTIONS.flatMap(({ file, imports }) => imports.map((to) => edge(file, to))));

const SOURCE = /\.tsx?$/;
const filesUnder = (folder: string, wanted: RegExp) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name.replaceAll('\\', '/')))
    .filter((name) => wanted.test(name));

/** Every module that a file names: imports, re-exports, dynamic imports, types. */
function importsOf(file: string): string[] {
  const text = readFileSync(file, 'utf8');
  return [...text.matchAll(/(?:(?<!')\bfrom|\bimport)\s*\(?\s*'([^']+)'/g)].map(([, to = '']) =>
    to.startsWith('.') ? join(dirname(file), to) : to,
  );
}

const sources = ['shared', 'src'].flatMap((folder) => filesUnder(folder, SOURCE));
const breaches = sources.flatMap((file) =>
  importsOf(file).flatMap((to) =>
    RULES.filter(({ files, allows }) => files.test(file) && !allows(to)).map(({ rule }) => ({
      rule,
      edge: edge(file, to),
    })),
  ),
);

describe('imports', () => {
  test.each(RULES)('$rule', ({ rule }) => {
    const open = breaches.filter((breach) => breach.rule === rule && !EXCEPTED.has(breach.edge));
    expect(open.map((breach) => breach.edge)).toEqual([]);
  });

  test('every exception is still needed', () => {
    const met = new Set(breaches.map((breach) => breach.edge));
    expect([...EXCEPTED].filter((each) => !met.has(each))).toEqual([]);
  });

  test('are read from the files, and there are many', () => {
    expect(sources.length).toBeGreaterThan(100);
    expect(importsOf('src/main.ts')).toEqual(
      expect.arrayContaining(['discord.js', 'src/bot.ts', 'src/room/practice.ts']),
    );
    expect(importsOf('src/critters/card.view.ts')).toContain('src/discord/message-view.ts');
  });

  test('relative ones name the file they mean', () => {
    const known = new Set(sources);
    const astray = sources.flatMap((file) =>
      importsOf(file)
        .filter((to) => /^(src|shared)\//.test(to) && SOURCE.test(to) && !known.has(to))
        .map((to) => edge(file, to)),
    );
    expect(astray).toEqual([]);
  });
});

describe('files', () => {
  const written = ['shared', 'src'].flatMap((folder) => filesUnder(folder, /\.(tsx?|css|mjs|js)$/));

  test('have at most 300 lines', () => {
    const long = written
      .map((file) => ({ file, lines: readFileSync(file, 'utf8').trimEnd().split('\n').length }))
      .filter(({ lines }) => lines > 300);
    expect(long).toEqual([]);
  });

  test('are named in kebab-case, and for what they are about', () => {
    const names = written.map((file) => file.replace(/\.[a-z]+$/, ''));
    expect(names.filter((name) => !/^[a-z0-9-]+(\/[a-z0-9-]+)*(\.[a-z-]+)*$/.test(name))).toEqual([]);
    expect(names.filter((name) => /\b(utils?|helpers?|common|services?|misc)\b/.test(name))).toEqual([]);
  });
});
