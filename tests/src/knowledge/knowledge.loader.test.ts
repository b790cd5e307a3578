import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { loadCompiledKnowledge } from '../../../src/knowledge/compiled.loader.ts';
import { loadKnowledge } from '../../../src/knowledge/knowledge.loader.ts';
import { KNOWLEDGE_FORMAT, indexKnowledge } from '../../../src/knowledge/knowledge-base.ts';
import { loaded } from './real-base.ts';

/** A whole entry: one of the broken ones, mended. */
const WORM = readFileSync('tests/broken/wrong-verdict.yaml', 'utf8')
  .replace('verdict: cuddle', 'verdict: keep')
  .replace('common-practice:', 'smith-1999:')
  .replace('irritant-bristles', '');
const SOURCES = 'smith-1999:\n  cite: Smith 1999, On pebbles\n  short: Smith 1999\n  standing: published\n';

/** A small knowledge folder with these files added to its sources. */
function folderWith(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'knowledge-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  for (const shelf of ['critters', 'corals', 'look-alikes', 'first-aid', 'ambiguous-names'])
    mkdirSync(join(folder, shelf));
  for (const [name, text] of Object.entries({ 'sources.yaml': SOURCES, ...files })) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return folder;
}

/** The complaints, with the folder's own path left out. */
const complaints = (folder: string) =>
  loadKnowledge(folder).problems.map(
    ({ file, line, column, message }) => `${file.replace(`${folder}/`, '')}:${line}:${column} ${message}`,
  );

describe('loadKnowledge', () => {
  test('reads a whole folder; the file name is the id', () => {
    const { knowledge, problems } = loadKnowledge(folderWith({ 'critters/worm/pebble-worm.yaml': WORM }));
    expect(problems).toEqual([]);
    expect(knowledge.format).toBe(KNOWLEDGE_FORMAT);
    expect(knowledge.critters).toEqual([
      expect.objectContaining({ id: 'pebble-worm', name: 'Painted pebble worm', humanHazards: [] }),
    ]);
    expect(knowledge.sources).toEqual([expect.objectContaining({ id: 'smith-1999' })]);
  });

  test('goes on after a broken file and names every mistake', () => {
    const folder = folderWith({ 'critters/worm/pebble-worm.yaml': WORM });
    for (const name of ['wrong-verdict', 'missing-caution', 'unsupported-claim', 'unknown-key', 'tab-indent'])
      cpSync(`tests/broken/${name}.yaml`, join(folder, 'critters/worm', `${name}.yaml`));
    const found = complaints(folder);
    for (const place of [
      'critters/worm/wrong-verdict.yaml:8:1 verdict: came "cuddle"',
      'critters/worm/missing-caution.yaml:2:1 caution: came nothing',
      'critters/worm/unsupported-claim.yaml:23:1 sources: came',
      'critters/worm/unknown-key.yaml:22:3 came the key "color"',
      'critters/worm/tab-indent.yaml:21:1 came a tab',
    ])
      expect(found).toContainEqual(expect.stringContaining(place));
    expect(found.filter((each) => each.includes('pebble-worm.yaml'))).toEqual([]);
  });

  test('a critter in the folder of another group', () => {
    expect(complaints(folderWith({ 'critters/snail/pebble-worm.yaml': WORM }))).toEqual([
      'critters/snail/pebble-worm.yaml:6:1 came group "worm" in the folder snail, expected the folder critters/worm',
    ]);
  });

  test('an id that stands in two folders', () => {
    const found = complaints(
      folderWith({
        'critters/worm/pebble-worm.yaml': WORM,
        'critters/snail/pebble-worm.yaml': WORM.replace('group: worm', 'group: snail'),
      }),
    );
    expect(found).toContainEqual(
      expect.stringMatching(/^critters\/worm\/pebble-worm\.yaml:1:1 came the id "pebble-worm"/),
    );
  });

  test('a link that leads nowhere is placed where it stands', () => {
    const found = complaints(
      folderWith({ 'critters/worm/pebble-worm.yaml': WORM.replace('smith-1999:', 'jones-2001:') }),
    );
    expect(found).toContainEqual(expect.stringMatching(/pebble-worm\.yaml:24:3 came the source "jones-2001"/));
    expect(found).toContainEqual(
      expect.stringMatching(/^sources\.yaml:1:1 came the source "smith-1999", which no entry/),
    );
    expect(found).toHaveLength(2);
  });
});

describe('loadCompiledKnowledge', () => {
  const file = (text: string) => join(folderWith({ 'compiled.json': text }), 'compiled.json');

  test('gives what was compiled', () => {
    const base = loadCompiledKnowledge(file(JSON.stringify(loaded.knowledge)));
    const direct = indexKnowledge(JSON.parse(JSON.stringify(loaded.knowledge)) as typeof loaded.knowledge);
    expect(base).toEqual(direct);
    expect(base.critters.size).toBe(loaded.knowledge.critters.length);
  });

  test('refuses another format, a damaged file and a missing one, by name and with what to do', () => {
    const old = JSON.stringify({ ...loaded.knowledge, format: KNOWLEDGE_FORMAT + 1 });
    expect(() => loadCompiledKnowledge(file(old))).toThrow(
      /compiled\.json is of format \d+, expected \d+\. .*npm run build/,
    );
    expect(() => loadCompiledKnowledge(file('{"format": 1,'))).toThrow(/compiled\.json cannot be read.*npm run build/);
    expect(() => loadCompiledKnowledge('/no/such/compiled.json')).toThrow(/cannot be read.*npm run build/);
  });
});
