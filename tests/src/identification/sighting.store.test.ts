import { describe, expect, test } from 'vitest';
import { NOTHING_DESCRIBED, type Described } from '../../../src/identification/session.ts';
import { sightingStore } from '../../../src/identification/sighting.store.ts';
import { dataFolder, withDatabase } from '../database/folder.ts';
import { identifier } from './engine.ts';

const DAY_MS = 86_400_000;
const NOON = new Date('2026-03-01T12:00:00Z');
const later = (days: number) => new Date(NOON.getTime() + days * DAY_MS);
const MINE = { memberId: '11', guildId: '22', text: 'a red star', described: NOTHING_DESCRIBED };
const RED = { question: 'colour', option: 'red' };

describe('sightings', () => {
  test('are found in their own server only', () => {
    withDatabase(dataFolder(), (db) => {
      const store = sightingStore(db);
      const { id } = store.begin(MINE, NOON);
      const direct = store.begin({ ...MINE, guildId: null }, NOON);
      expect(store.find(id, '22')).toEqual({ id, ...MINE, answers: [] });
      expect(store.find(id, '33')).toBeUndefined();
      expect(store.find(id, null)).toBeUndefined();
      expect(store.find(direct.id, null)).toEqual(direct);
      expect(store.find(direct.id, '22')).toBeUndefined();
      expect(direct.id).not.toBe(id);
    });
  });

  test.each([0, -1, 99, NaN, 1.5])('there is none of id %s', (id) => {
    withDatabase(dataFolder(), (db) => {
      const store = sightingStore(db);
      store.begin(MINE, NOON);
      expect(store.find(id, '22')).toBeUndefined();
    });
  });

  test('keep their answers, and forget those taken back', () => {
    withDatabase(dataFolder(), (db) => {
      const store = sightingStore(db);
      const { id } = store.begin(MINE, NOON);
      const other = store.begin(MINE, NOON);
      store.answered(id, [RED, { question: 'sizeMm', option: 'skip' }], NOON);
      expect(store.find(id, '22')?.answers).toEqual([RED, { question: 'sizeMm', option: 'skip' }]);
      store.answered(id, [RED], NOON);
      expect(store.find(id, '22')?.answers).toEqual([RED]);
      expect(store.find(other.id, '22')?.answers).toEqual([]);
    });
  });

  test('survive that the database is closed and opened', () => {
    const folder = dataFolder();
    const told = 'pinkish worm 3 cm, hairy, no shell, at night; aiptasia? it stung me';
    const { observations, named, alarm } = identifier.read(told).evidence;
    const described: Described = {
      observations: observations.map((each) => ('readings' in each ? { ...each, readings: [...each.readings] } : each)),
      named: [...named],
      alarm,
      hurt: [],
      near: 'zoanthus',
      since: 'new coral',
    };
    expect(new Set(observations.map(({ kind }) => kind))).toEqual(new Set(['saw', 'saw-not', 'size', 'word']));
    const id = withDatabase(folder, (db) => {
      const store = sightingStore(db);
      const begun = store.begin({ ...MINE, text: told, described }, NOON);
      store.answered(begun.id, [RED], NOON);
      return begun.id;
    });
    withDatabase(folder, (db) => {
      expect(sightingStore(db).find(id, '22')).toEqual({ id, ...MINE, text: told, described, answers: [RED] });
    });
  });

  test('are forgotten after 30 days without work', () => {
    withDatabase(dataFolder(), (db) => {
      const store = sightingStore(db);
      const idle = store.begin(MINE, NOON);
      const worked = store.begin(MINE, NOON);
      store.answered(worked.id, [RED], later(20));
      store.begin(MINE, later(30));
      expect(store.find(idle.id, '22')).toBeDefined();
      store.begin(MINE, later(30.01));
      expect(store.find(idle.id, '22')).toBeUndefined();
      expect(store.find(worked.id, '22')?.answers).toEqual([RED]);
      store.begin(MINE, later(50.01));
      expect(store.find(worked.id, '22')).toBeUndefined();
    });
  });

  test('take any text, broken characters too', () => {
    withDatabase(dataFolder(), (db) => {
      const store = sightingStore(db);
      const { id } = store.begin({ ...MINE, text: "x\ud800 '); DROP TABLE sightings; --" }, NOON);
      expect(store.find(id, '22')?.text).toBe("x\ufffd '); DROP TABLE sightings; --");
    });
  });

  test('are not believed when the table holds nonsense', () => {
    withDatabase(dataFolder(), (db) => {
      const store = sightingStore(db);
      const { id } = store.begin(MINE, NOON);
      db.prepare('UPDATE sightings SET answers = \'[{"question":1}]\' WHERE id = ?').run(id);
      expect(() => store.find(id, '22')).toThrow();
    });
  });
});
