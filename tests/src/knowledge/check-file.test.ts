import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { checkFile } from '../../../src/knowledge/check-file.ts';

/** The complaints about a file, each as a contributor reads it. */
const complaints = (file: string) =>
  checkFile(file).map((problem) => `${problem.file}:${problem.line}:${problem.column} ${problem.message}`);
const broken = (name: string) => `tests/broken/${name}.yaml`;

describe('an entry with one mistake gets one complaint, with its place', () => {
  test('a word that is not in the list', () => {
    expect(complaints(broken('wrong-verdict'))).toEqual([
      'tests/broken/wrong-verdict.yaml:8:1 verdict: came "cuddle", expected one of: keep, watch, remove, urgent',
    ]);
  });

  test('a hazard for people without a caution', () => {
    const [only, ...more] = complaints(broken('missing-caution'));
    expect(more).toEqual([]);
    expect(only).toMatch(/^tests\/broken\/missing-caution\.yaml:\d+:1 caution: came nothing, expected .*humanHazards/);
  });

  test('a claim that no source supports', () => {
    const [only, ...more] = complaints(broken('unsupported-claim'));
    expect(more).toEqual([]);
    expect(only).toMatch(/^tests\/broken\/unsupported-claim\.yaml:23:1 sources: came .*, expected .*"worry"/);
  });

  test('a key that is not known', () => {
    expect(complaints(broken('unknown-key'))).toEqual([
      expect.stringMatching(/^tests\/broken\/unknown-key\.yaml:22:3 came the key "color".*schema$/),
    ]);
  });

  test('a tab as indentation', () => {
    const [first] = complaints(broken('tab-indent'));
    expect(first).toMatch(/^tests\/broken\/tab-indent\.yaml:21:1 came a tab, expected spaces; indent with two spaces$/);
  });
});

describe('checkFile', () => {
  test('the five broken files are whole but for their mistake', () => {
    const mended = readFileSync(broken('wrong-verdict'), 'utf8').replace('cuddle', 'keep');
    expect(complaints(fileWith('worm.yaml', mended))).toEqual([]);
    const coloured = readFileSync(broken('unknown-key'), 'utf8').replace('color', 'colour');
    expect(complaints(fileWith('worm.yaml', coloured))).toEqual([]);
    const indented = readFileSync(broken('tab-indent'), 'utf8').replace('\t', '  ');
    expect(complaints(fileWith('worm.yaml', indented))).toEqual([]);
  });

  test('the folder decides what an entry has to be', () => {
    const question =
      'names: [thing]\nmode: ask\nquestion: Does it move by itself?\nanswers: [{ says: It moves, critter: worm }]\n';
    expect(complaints(fileWith('ambiguous-names/thing.yaml', question))).toEqual([]);
    expect(complaints(fileWith('critters/worm/thing.yaml', question)).length).toBeGreaterThan(5);
    const sources = 'smith-1999:\n  cite: Smith 1999, On pebbles\n  short: Smith 1999\n  standing: hearsay\n';
    expect(complaints(fileWith('sources.yaml', sources))).toEqual([
      expect.stringMatching(/sources\.yaml:4:3 smith-1999\.standing: came "hearsay", expected one of: published/),
    ]);
  });

  test('several mistakes are told at once, each by its path', () => {
    const text = readFileSync(broken('wrong-verdict'), 'utf8')
      .replace('rank: species', 'rank: 7')
      .replace('[red, white]', '[red, red]')
      .replace('name: Painted pebble worm', 'name: It');
    const found = complaints(fileWith('worm.yaml', text)).map((complaint) =>
      complaint.replace(/^.*?:(?=\d+:\d+ )/, ''),
    );
    expect(found).toEqual([
      expect.stringMatching(/^2:1 name: came 2 characters, expected at least 3 characters$/),
      expect.stringMatching(/^5:1 rank: came 7, expected one of: /),
      expect.stringMatching(/^8:1 verdict: came "cuddle", expected one of: /),
      expect.stringMatching(/^22:3 traits\.colour: came a list of 2, expected each value once$/),
    ]);
  });

  test('a key that could reach into objects is an unknown key', () => {
    const text = `${readFileSync(broken('wrong-verdict'), 'utf8').replace('cuddle', 'keep')}__proto__: { verdict: remove }\n`;
    expect(complaints(fileWith('worm.yaml', text))).toEqual([
      expect.stringContaining(':25:1 came the key "__proto__"'),
    ]);
  });

  test.each(['no-such-file.yaml', 'tests/broken'])('%s, which cannot be read, is a complaint and no crash', (file) => {
    expect(complaints(file)).toEqual([
      expect.stringMatching(/:1:1 came a name that cannot be read, expected a YAML file/),
    ]);
  });

  test.each(['', '# nothing\n', '- a\n- b\n', 'just a line', '7'])('%j is no entry', (text) => {
    const found = complaints(fileWith('worm.yaml', text));
    expect(found.length).toBeGreaterThan(0);
    expect(found[0]).toMatch(/worm\.yaml:1:1 came .*, expected a mapping of keys$/);
  });
});

/** A file of that text in a folder that goes when the test ends. */
function fileWith(name: string, text: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'entry-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  const file = join(folder, name);
  mkdirSync(join(file, '..'), { recursive: true });
  writeFileSync(file, text);
  return file;
}
