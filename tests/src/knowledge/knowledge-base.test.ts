import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { jsonSchemas } from '../../../src/knowledge/json-schemas.ts';
import { indexKnowledge, pairOf } from '../../../src/knowledge/knowledge-base.ts';
import { base, loaded } from './real-base.ts';

const { critters, lookAlikes, ambiguousNames, sources } = loaded.knowledge;

describe('the knowledge that is shipped', () => {
  test('has no problem', () => {
    expect(loaded.problems).toEqual([]);
  });

  test('is as large as it was', () => {
    expect(critters.length).toBeGreaterThanOrEqual(231);
    expect(lookAlikes.length).toBeGreaterThanOrEqual(253);
    expect(ambiguousNames.length).toBeGreaterThanOrEqual(70);
  });

  test('every file became an entry', () => {
    const filesIn = (folder: string) =>
      readdirSync(join('knowledge', folder), { recursive: true, encoding: 'utf8' }).filter((name) =>
        name.endsWith('.yaml'),
      );
    expect(critters).toHaveLength(filesIn('critters').length);
    expect(lookAlikes).toHaveLength(filesIn('look-alikes').length);
    expect(ambiguousNames).toHaveLength(filesIn('ambiguous-names').length);
  });

  test('whoever can hurt a person has a caution, and first aid for each hazard', () => {
    const hurting = critters.filter(({ humanHazards }) => humanHazards.length > 0);
    expect(hurting.length).toBeGreaterThan(50);
    expect(hurting.filter(({ caution }) => !caution).map(({ id }) => id)).toEqual([]);
    for (const { id, humanHazards } of hurting)
      for (const hazard of humanHazards) expect(base.firstAid.has(hazard), `${id}: ${hazard}`).toBe(true);
  });

  test('whatever advice hangs on something says on what', () => {
    const silent = critters.filter(({ standing, depends }) => standing === 'situational' && !depends);
    expect(silent.map(({ id }) => id)).toEqual([]);
  });

  test('every claim of every critter has a source that is written down', () => {
    for (const { id, sources: cited } of critters)
      for (const source of Object.keys(cited)) expect(base.sources.has(source), `${id}: ${source}`).toBe(true);
    expect(sources.filter(({ standing }) => standing === 'published').length).toBeGreaterThan(100);
  });

  test('the schemas for editors are fresh', () => {
    const written = readdirSync('knowledge/schema');
    const fresh = jsonSchemas();
    expect(new Set(written)).toEqual(new Set(fresh.keys()));
    for (const [name, text] of fresh) expect(readFileSync(join('knowledge/schema', name), 'utf8'), name).toBe(text);
  });
});

describe('indexKnowledge', () => {
  test('both critters of a pair reach it, whichever is named first', () => {
    for (const pair of lookAlikes) {
      expect(base.lookAlikesOf.get(pair.a)).toContain(pair);
      expect(base.lookAlikesOf.get(pair.b)).toContain(pair);
      expect(pairOf(base, pair.a, pair.b)).toBe(pair);
      expect(pairOf(base, pair.b, pair.a)).toBe(pair);
    }
  });

  test('two critters without a pair have none', () => {
    expect(pairOf(base, 'aiptasia', 'aiptasia')).toBeUndefined();
    expect(pairOf(base, 'aiptasia', 'no-such-critter')).toBeUndefined();
  });

  test('every critter is found under its id', () => {
    expect(indexKnowledge(loaded.knowledge).critters.size).toBe(critters.length);
    for (const critter of critters) expect(base.critters.get(critter.id)).toBe(critter);
  });
});
