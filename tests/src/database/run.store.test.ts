import { describe, expect, test } from 'vitest';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { runStore } from '../../../src/database/run.store.ts';
import { dataFolder, withDatabase } from './folder.ts';

const at = (second: number) => new Date(Date.UTC(2026, 0, 1, 12, 0, second));

describe('runStore', () => {
  test('the first run ever follows none', () => {
    const { db, close } = openTemporaryDatabase();
    expect(runStore(db).begin('1.0.0', at(0))).toEqual({ id: expect.any(Number), previousWasCutOff: false });
    close();
  });

  test('a run that was ended is no run cut off, one that was not is', () => {
    const { db, close } = openTemporaryDatabase();
    const runs = runStore(db);
    const first = runs.begin('1.0.0', at(0));
    runs.end(first.id, at(1));
    const second = runs.begin('1.0.0', at(2));
    expect(second.previousWasCutOff).toBe(false);
    const third = runs.begin('1.1.0', at(3));
    expect(third.previousWasCutOff).toBe(true);
    runs.end(third.id, at(4));
    expect(runs.begin('1.1.0', at(5)).previousWasCutOff).toBe(false);
    close();
  });

  test('only the run before counts, not an older one', () => {
    const { db, close } = openTemporaryDatabase();
    const runs = runStore(db);
    runs.begin('1.0.0', at(0));
    const second = runs.begin('1.0.0', at(1));
    runs.end(second.id, at(2));
    expect(runs.begin('1.0.0', at(3)).previousWasCutOff).toBe(false);
    close();
  });

  test('the time of the first end stays', () => {
    const { db, close } = openTemporaryDatabase();
    const runs = runStore(db);
    const { id } = runs.begin('1.0.0', at(0));
    runs.end(id, at(1));
    runs.end(id, at(9));
    const row = db.prepare('SELECT version, started_at_ms, stopped_at_ms FROM runs').get();
    expect(row).toEqual({ version: '1.0.0', started_at_ms: at(0).getTime(), stopped_at_ms: at(1).getTime() });
    close();
  });

  test('is told over a restart', () => {
    const folder = dataFolder();
    withDatabase(folder, (db) => runStore(db).begin('1.0.0', at(0)));
    expect(withDatabase(folder, (db) => runStore(db).begin('1.0.0', at(1)).previousWasCutOff)).toBe(true);
  });
});
